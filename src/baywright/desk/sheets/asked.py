"""What is asked of a sheet, and what its parts share while it is written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from baywright.desk.guide.writer import Writer
from baywright.papers.document import Block
from baywright.problems import problem, suggestion

Length = Literal["line", "paragraph", "full"]
LENGTHS: tuple[Length, ...] = get_args(Length)
"""How long answers may be, the shortest first."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a sheet.

    Args:
        kind: the kind of sheet.
        build: a ready-made model, a build file of the book, or the path of one; or empty.
        other: id of the book to compare with; the predecessor unless given.
        length: how long answers are.
        seed: which quiz it is; the same seed gives the same quiz.
        count: how many questions a quiz has.
    """

    kind: str
    build: str = ""
    other: str = ""
    length: Length = "full"
    seed: int = 1
    count: int = 10


def length_of(text: str) -> Length:
    """Return a length by its name.

    Raises:
        Problems: kind ``no-length``.
    """
    for each in LENGTHS:
        if each == text:
            return each
    message = f"Answers cannot be {text!r}."
    raise problem("no-length", message, None, suggestion(text, LENGTHS))


@dataclass(frozen=True, slots=True)
class Desk:
    """What the parts of a sheet share while it is written.

    Args:
        writer: answers the queries.
        asked: what is asked.
    """

    writer: Writer
    asked: Asked

    def blocks(self, *blocks: Block) -> str:
        """Return a mark that stands for blocks in a template."""
        return self.writer.pieces.blocks(*blocks)
