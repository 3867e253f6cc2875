"""Books: one row for each machine, with its front, its status and its date."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from markupsafe import Markup

from baywright.desk.bench.picture import picture_of
from baywright.problems import Problem, Problems
from baywright.store import Kept
from baywright.web.access import reader
from baywright.web.drawings import on_page
from baywright.web.rendering import page
from baywright.web.shelf import Shelf
from baywright.web.texts import text
from baywright.web.workbench import workbench

router = APIRouter(include_in_schema=False)

WIDTH = 620.0
"""Width of the fronts [px]; all at one width, each with its ruler."""


@dataclass(frozen=True, slots=True)
class BookRow:
    """A machine as it is listed.

    Args:
        id: name of its book in addresses.
        name: name of the machine.
        status: what it is on the day of its book, in words.
        note: what more is to be said of that.
        as_of: that day, in ISO form.
        unknown: how many facts nobody has stated yet.
        front: its front, nothing decided.
        problems: what is wrong with the book, if it cannot be opened.
    """

    id: str
    name: str
    status: str = ""
    note: str = ""
    as_of: str = ""
    unknown: int = 0
    front: Markup | None = None
    problems: tuple[Problem, ...] = ()


@router.get("/")
def books(request: Request) -> Response:
    """Show the books, and the builds that are kept."""
    reader(request)
    held = workbench(request)
    rows = tuple(_rows(held.shelf))
    kept: tuple[Kept, ...] = held.store.builds.of(None)
    return page(request, "books.html.j2", text("books"), here="books", rows=rows, kept=kept)


def _rows(shelf: Shelf) -> Iterator[BookRow]:
    for book in shelf.books:
        try:
            yield _row(shelf, book)
        except Problems as found:
            yield BookRow(book, book, problems=found.problems)


def _row(shelf: Shelf, book: str) -> BookRow:
    bench = shelf.bench(book)
    opened = bench.opened
    front = on_page(picture_of(bench, None, "front", WIDTH, numbered=False), f"front-{book}")
    status = opened.status
    return BookRow(
        book,
        str(opened.book.book.name),
        status.word,
        status.note,
        opened.as_of.isoformat(),
        len(opened.unknown),
        front,
    )
