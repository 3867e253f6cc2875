"""The list of all formulas of sizing, as a page."""

from __future__ import annotations

import re
from collections.abc import Iterator

from baywright.sizing.equation import Equation, equations
from baywright.sizing.pool import TITLE as POOLS
from baywright.sizing.registry import SUBJECTS

_HEAD = "| number | formula | source | holds for | outside |\n|---|---|---|---|---|"


def equations_page() -> str:
    """Return every formula with its number, source and range, in Markdown."""
    titles = ", ".join(title.lower() for title in (*(s.title for s in SUBJECTS), POOLS))
    rows = "\n".join(_rows())
    return (
        "# Formulas of sizing\n\n"
        f"Every formula behind a figure: {titles}. `baywright size BOOK BUILD --why KEY` shows one "
        "figure with its formula, its inputs and their sources. This page is written from the "
        "code by a test.\n\n"
        f"{_HEAD}\n{rows}\n"
    )


def _rows() -> Iterator[str]:
    for each in sorted(equations().values(), key=_place):
        estimate = " (estimate)" if each.estimate else ""
        cells = (each.number, f"`{each.text}`{estimate}", each.source, each.valid, each.outside)
        yield f"| {' | '.join(cell.replace('|', '/') for cell in cells)} |"


def _place(each: Equation) -> tuple[str, int]:
    letters, digits = re.fullmatch(r"([A-Z]+)(\d+)", each.number).groups()  # type: ignore[union-attr]
    return letters, int(digits)
