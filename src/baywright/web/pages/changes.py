"""Changes: two versions of a book, or a change note, and everything that flips."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from baywright.desk.changes.changing import Changes
from baywright.desk.changes.said import Pair
from baywright.desk.changes.telling import KINDS, changes_sheet
from baywright.desk.changes.versions import notes_of
from baywright.problems import Problem, Problems
from baywright.web.access import MarkedForm, field, reader
from baywright.web.addresses import Address
from baywright.web.answers import kept_statements
from baywright.web.comparing import Versions, compare
from baywright.web.packing import packed, unpacked
from baywright.web.rendering import page
from baywright.web.runs import Run
from baywright.web.texts import text
from baywright.web.workbench import workbench
from baywright.web.worker import in_process

router = APIRouter(include_in_schema=False)

AT_ONCE = 1.5
"""Seconds that the page waits for an answer before it shows how far it has come."""

NEW_NOTE = """\
title: A change note
date: {day}
says: What it is about, one sentence.
set:
  path.of.a.fact: its new value
"""


@dataclass(frozen=True, slots=True)
class Flips:
    """Things of one kind that come out otherwise."""

    title: str
    pairs: tuple[Pair, ...]


@router.get("/changes/{book}")
def changes_page(request: Request, book: str) -> Response:
    """Show what flips between two versions, where they are named."""
    reader(request)
    held, address = workbench(request), Address.of(request)
    asked = Versions(
        held.shelf.name(book),
        address.one("note"),
        unpacked(address.one("written")) if address.one("written") else "",
        address.one("revision"),
        address.one("as_of"),
        address.one("until"),
        kept_statements(held.store, book),
    )
    if not asked.any:
        return _page(request, book, address, asked)
    key = (held.shelf.state(book), asked)
    run = held.changes.of(key, lambda tell: in_process(compare, asked, tell))
    if not run.wait(AT_ONCE):
        return _page(request, book, address, asked, going=run)
    try:
        return _page(request, book, address, asked, found=run.answer())
    except Problems as wrong:
        return _page(request, book, address, asked, problems=wrong.problems)


@router.post("/changes/{book}")
def written_note(request: Request, book: str, form: MarkedForm) -> Response:
    """Put a change note that was written into the address, and show what flips."""
    reader(request)
    written = field(form, "text").replace("\r\n", "\n").strip()
    address = Address(f"/changes/{book}").having(written=packed(f"{written}\n") if written else "")
    return RedirectResponse(str(address), status_code=303)


def _flips(found: Changes) -> Iterator[Flips]:
    for kind in dict.fromkeys(pair.kind for pair in found.flips):
        pairs = tuple(pair for pair in found.flips if pair.kind == kind)
        yield Flips(KINDS.get(kind, kind), pairs)


def _page(
    request: Request,
    book: str,
    address: Address,
    asked: Versions,
    *,
    found: Changes | None = None,
    going: Run[Changes] | None = None,
    problems: tuple[Problem, ...] = (),
) -> Response:
    opened = workbench(request).shelf.bench(book).opened
    return page(
        request,
        "changes.html.j2",
        text("changes"),
        here="changes",
        book=book,
        status=422 if problems else 200,
        state=address,
        asked=asked,
        notes=notes_of(str(opened.folder)),
        blank=NEW_NOTE.format(day=opened.as_of.isoformat()),
        sheet=changes_sheet(found) if found else None,
        flips=tuple(_flips(found)) if found else (),
        going=going,
        problems=problems,
        opened=opened,
    )
