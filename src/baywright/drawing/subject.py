"""What is drawn: a book, what a build has in its places, and how the machine stands."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.drawing.contents import Content, contents
from baywright.drawing.geometry import Rect
from baywright.facts.book import Book
from baywright.facts.build import Build
from baywright.facts.fact import Fact
from baywright.facts.model import Outline
from baywright.units import Quantity


@dataclass(frozen=True, slots=True)
class Subject:
    """A machine to be drawn.

    Args:
        book: its facts.
        build: the build, or ``None`` for the machine with nothing decided.
        contents: what each place has.
        narrow: whether the drawing has to do with a narrow column.
    """

    book: Book
    build: Build | None
    contents: dict[str, Content]
    narrow: bool = False

    @classmethod
    def of(cls, book: Book, build: Build | None, *, narrow: bool = False) -> Subject:
        """Return a machine with a build, or with nothing decided."""
        return cls(book, build, contents(book, build), narrow)


def millimetres(fact: Fact[Quantity]) -> float:
    """Return a length [mm]."""
    return float(fact.known.to("mm"))


def outline_rect(outline: Outline) -> Rect | None:
    """Return an outline [mm], or ``None`` while a number of it is unknown."""
    facts = (outline.x, outline.y, outline.width, outline.height)
    if any(fact.value is None for fact in facts):
        return None
    return Rect(*(millimetres(fact) for fact in facts))
