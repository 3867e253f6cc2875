"""Cards: a page for each station, with its drawing, what is said, and what is dangerous."""

from __future__ import annotations

import base64
import json
from importlib.resources import files

from baywright.drawing.palette import PRINT, coloured
from baywright.papers.environment import environment
from baywright.papers.printing import typeset
from baywright.papers.script import Script, clock, paragraphs


def cards_page(script: Script) -> str:
    """Return the cards as one page of HTML that needs nothing else."""
    return (
        environment()
        .get_template("cards.html.j2")
        .render(script=script, clock=clock, paragraphs=paragraphs, address=_address)
    )


def cards_pdf(script: Script) -> bytes:
    """Return the cards as PDF, one page each, in ink only.

    Raises:
        Problems: kind ``no-face`` when the face of its labels is not installed.
    """
    layout = files("baywright.papers").joinpath("templates", "cards.typ").read_bytes()
    return typeset(layout, {"script": json.dumps(_data(script), ensure_ascii=False)})


def _data(script: Script) -> dict[str, object]:
    return {
        "machine": script.machine,
        "maker": script.maker,
        "head": [list(pair) for pair in script.head],
        "standing": script.standing,
        "aid": script.planning_aid,
        "kit": [list(pair) for pair in script.kit],
        "numbers": [list(pair) for pair in script.numbers],
        "questions": [[each.question, each.answer] for each in script.questions],
        "parts": [
            {
                "number": part.number,
                "title": f"{part.title[0].upper()}{part.title[1:]}",
                "when": f"{clock(part.start)} to {clock(part.end)}",
                "side": part.side,
                "covers": ", ".join(part.covers) or "nothing",
                "svg": coloured(part.svg, PRINT),
                "callouts": [[each.number, each.name, each.where] for each in part.callouts],
                "paragraphs": [
                    {"kind": kind, "lines": [each.text for each in held]}
                    for kind, held in paragraphs(part)
                ],
            }
            for part in script.parts
        ],
        "closing": [each.text for each in script.closing],
    }


def _address(svg: str) -> str:
    """Return a drawing as an address, so that its styles and ids stay its own."""
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode()).decode('ascii')}"
