"""Books: one row for each machine, with its front, its status and its date."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from markupsafe import Markup

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.desk.bench.picture import machine_alone
from baywright.desk.drafts.own_prose import own_findings
from baywright.desk.opening import Opened
from baywright.language.kind_words import KIND_WORDS
from baywright.language.passages import Remark
from baywright.problems import Problem, Problems
from baywright.store import Kept
from baywright.web.access import reader
from baywright.web.drawings import on_page
from baywright.web.pages.ask import with_own_engines
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import Workbench, workbench

router = APIRouter(include_in_schema=False)

PATIENCE = 0.05
"""Seconds that the page waits for the prose of a book to be read."""

SCALE = 1.2
"""Pixels of a millimetre, the same for every machine, so that their sizes can be compared."""


@dataclass(frozen=True, slots=True)
class Prose:
    """What the words of a book say, held against its facts.

    Args:
        true: how many sentences were found true.
        remarks: the others, each with its kind in words.
        stopped: why it was not found out, or empty.
    """

    true: int
    remarks: tuple[tuple[str, Remark], ...]
    stopped: str = ""


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
        dates: when it was announced, ships and could be ordered last, in words.
        prose: what its own words were found to say, or ``None`` while they are being read.
        problems: what is wrong with the book, if it cannot be opened.
    """

    id: str
    name: str
    status: str = ""
    note: str = ""
    as_of: str = ""
    unknown: int = 0
    front: Markup | None = None
    dates: tuple[tuple[str, str], ...] = ()
    prose: Prose | None = None
    problems: tuple[Problem, ...] = ()


@router.get("/")
def books(request: Request) -> Response:
    """Show the books, and the builds that are kept."""
    reader(request)
    held = workbench(request)
    rows = tuple(_rows(held))
    kept: tuple[Kept, ...] = held.store.builds.of(None)
    return page(request, "books.html.j2", text("books"), here="books", rows=rows, kept=kept)


def _rows(held: Workbench) -> Iterator[BookRow]:
    for book in held.shelf.books:
        try:
            yield _row(held, book)
        except Problems as found:
            yield BookRow(book, book, problems=found.problems)


def _row(held: Workbench, book: str) -> BookRow:
    bench = held.shelf.bench(book)
    opened = bench.opened
    front = on_page(machine_alone(bench, "front", SCALE), f"front-{book}")
    status = opened.status
    return BookRow(
        book,
        str(opened.book.book.name),
        status.word,
        status.note,
        opened.as_of.isoformat(),
        len(opened.unknown),
        front,
        tuple(_dates(opened)),
        _prose(held, book),
    )


def _dates(opened: Opened) -> Iterator[tuple[str, str]]:
    about = opened.book.book
    dates = {"announced": about.announced, "ships": about.ships, "last_order": about.last_order}
    for name, fact in dates.items():
        if fact is not None:
            yield text(name), fact.text


def _prose(held: Workbench, book: str) -> Prose | None:
    """Return what the prose of a book says; it is read once, while the page is shown without."""
    opened = held.shelf.bench(book).opened
    key = (book, held.shelf.state(book))
    run = held.proofs.of(key, lambda _: own_findings(with_own_engines(opened)))
    if not run.wait(PATIENCE):
        return None
    try:
        found = run.answer()
    except (Problems, StoppedError, RecheckError) as error:
        return Prose(0, (), str(error))
    remarks = ((KIND_WORDS[each.kind], each) for each in found if each.kind != "true")
    return Prose(sum(each.kind == "true" for each in found), tuple(remarks))
