"""A script as a document, which is written as DOCX."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.papers.document import (
    Block,
    Column,
    Document,
    Figure,
    Heading,
    Paragraph,
    Run,
    Style,
    Table,
    Warned,
)
from baywright.papers.script import CAUTION_SENTENCES, Part, Script, Spoken, clock, paragraphs

ON_CARDS = ("tour", "left out")
"""What of the head stands on the cards and in the notes only."""


def script_document(script: Script) -> Document:
    """Return what is spoken with the drawings and their call-outs."""
    blocks = [block for part in script.parts for block in _part(part)]
    blocks.append(Paragraph(tuple(Run(f"{each.text} ") for each in script.closing)))
    lines = tuple(f"{name}: {said}" for name, said in script.head if name not in ON_CARDS)
    foot = f"{script.standing} {script.planning_aid}"
    # Headings bear no numbers: nobody reads them out, and each is what is shown and no more.
    return Document(script.machine, "walkthrough", script.maker, lines, foot, tuple(blocks))


def _part(part: Part) -> Iterator[Block]:
    yield Heading(1, f"{part.title[0].upper()}{part.title[1:]}")
    when = f"{clock(part.start)} to {clock(part.end)}, {part.side}"
    yield Paragraph((Run(when, "emphasis"),))
    for kind, held in paragraphs(part):
        if kind == "caution":
            yield _caution(held)
        else:
            style: Style = "strong" if kind == "act" else "plain"
            yield Paragraph((Run(" ".join(each.text for each in held), style),))
    if part.callouts:
        columns = (Column("call-out", right=True), Column("place"), Column("where"))
        rows = tuple(
            ((Run(str(each.number)),), (Run(each.name),), (Run(each.where),))
            for each in part.callouts
        )
        yield Table("call-outs", columns, rows)
    yield Figure(part.side, part.svg, f"{part.title}, seen: {part.side}")


def _caution(held: tuple[Spoken, ...]) -> Block:
    """Return a caution in its form; what a book tells before an act is a paragraph."""
    first, *rest = (each.text for each in held)
    word, colon, hazard = first.partition(": ")
    if not colon or len(held) != CAUTION_SENTENCES:
        return Paragraph((Run(" ".join([first, *rest]), "strong"),))
    return Warned(word.upper(), f"{hazard[0].upper()}{hazard[1:]}", *rest)
