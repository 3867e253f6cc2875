"""Kept answers: the question desk. Questions are kept with proof, found again and held anew."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from baywright.answers.wording import Sheet
from baywright.desk.kept import desk, telling
from baywright.desk.kept.asking import before
from baywright.desk.kept.entry import Entry
from baywright.desk.opening import Opened
from baywright.problems import Problem, Problems, problem
from baywright.web.access import MarkedForm, field, reader, worker
from baywright.web.addresses import Address
from baywright.web.answers import keep, kept_answers, kept_lines
from baywright.web.pages.ask import with_own_engines
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import workbench

router = APIRouter(include_in_schema=False)


def _list(_: Opened, entries: Sequence[Entry], __: Address) -> Sheet:
    return telling.list_sheet(entries)


def _again(opened: Opened, entries: Sequence[Entry], _: Address) -> Sheet:
    return telling.again_sheet(desk.again(opened, entries))


def _most(_: Opened, entries: Sequence[Entry], __: Address) -> Sheet:
    return telling.most_sheet(desk.most_asked(entries))


def _open(_: Opened, entries: Sequence[Entry], __: Address) -> Sheet:
    return telling.open_sheet(desk.left_open(entries))


def _corrected(opened: Opened, entries: Sequence[Entry], address: Address) -> Sheet:
    path, value = address.one("fact"), address.one("value")
    if not (path and value):
        message = "A corrected fact has a path and a value."
        raise problem("no-fact", message, None, "Give both.")
    try:
        found = desk.corrected(opened, entries, path, value)
    except Problems as wrong:  # Their marks are in a copy of the book, which nobody can open.
        raise Problems(replace(each, mark=None) for each in wrong.problems) from wrong
    return telling.corrected_sheet(found)


def _one(_: Opened, entries: Sequence[Entry], address: Address) -> Sheet:
    """Show the answer kept last to a question, with what was asked before it."""
    asked = address.one("q")
    found = [number for number, entry in enumerate(entries) if entry.asked == asked]
    if not found:
        raise problem("not-kept", f"{asked!r} is not kept.", None, "Keep it below.")
    last = found[-1]
    return telling.kept_sheet(entries[last], tuple(before(entries[:last], entries[last])))


View = Callable[[Opened, Sequence[Entry], Address], Sheet]

VIEWS: Mapping[str, View] = MappingProxyType(
    {
        "list": _list,
        "again": _again,
        "most": _most,
        "open": _open,
        "corrected": _corrected,
        "one": _one,
    }
)
"""What can be shown of kept answers, by the field of the address that says so."""


@router.get("/answers/{book}")
def answers_page(request: Request, book: str) -> Response:
    """Show kept answers, or what became of them."""
    reader(request)
    address = Address.of(request)
    opened = with_own_engines(workbench(request).shelf.bench(book).opened)
    entries = kept_answers(workbench(request).store, book)
    try:
        sheet = VIEWS.get(address.one("show"), _list)(opened, entries, address)
    except Problems as wrong:
        return _page(request, book, address, opened, problems=wrong.problems)
    return _page(request, book, address, opened, sheet=sheet, number=len(entries))


@router.post("/answers/{book}")
def keep_answer(request: Request, book: str, form: MarkedForm) -> Response:
    """Answer a question and keep the answer."""
    who, held = worker(request), workbench(request)
    opened = with_own_engines(held.shelf.bench(book).opened)
    question = field(form, "question").strip()
    address = Address(f"/answers/{book}").having(q=question)
    try:
        if not question:
            raise problem("no-question", "There is no question.", None, "Write one.")
        keep(held.store, opened, book, question, who.name)
    except Problems as wrong:
        return _page(request, book, address, opened, problems=wrong.problems)
    return RedirectResponse(str(address.having(show="one")), status_code=303)


@router.get("/answers/{book}/answers.jsonl")
def answers_file(request: Request, book: str) -> Response:
    """Send the kept answers as a file, as the command takes it."""
    reader(request)
    workbench(request).shelf.bench(book)
    headers = {"Content-Disposition": f'attachment; filename="{book}-answers.jsonl"'}
    lines = kept_lines(workbench(request).store, book)
    return Response(lines, media_type="application/jsonl", headers=headers)


def _page(
    request: Request,
    book: str,
    address: Address,
    opened: Opened,
    *,
    sheet: Sheet | None = None,
    number: int = 0,
    problems: tuple[Problem, ...] = (),
) -> Response:
    return page(
        request,
        "kept.html.j2",
        text("kept_answers"),
        here="changes",
        book=book,
        status=422 if problems else 200,
        state=address,
        show=address.one("show", "list"),
        sheet=sheet,
        number=number,
        problems=problems,
        opened=opened,
    )
