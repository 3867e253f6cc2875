"""Facts: every fact with source, date and status, what stands on it, and a way to change it."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from baywright.desk.fact_table import FactRow, change_fact, fact_rows, seen_of
from baywright.desk.opening import Opened
from baywright.problems import Problem, Problems
from baywright.web.access import MarkedForm, field, owner, reader
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import workbench

router = APIRouter(include_in_schema=False)

MOST_FOUND = 300
"""Facts of a search that are shown; the page says how many more there are."""


@dataclass(frozen=True, slots=True)
class Edit:
    """A fact that is being changed.

    Args:
        path: its path.
        value: the value in the form.
        seen: fingerprint of its file as it was when the form was made.
        problems: what was wrong with the last attempt.
    """

    path: str
    value: str
    seen: str
    problems: tuple[Problem, ...] = ()


@router.get("/facts/{book}")
def facts_page(
    request: Request, book: str, section: str = "", q: str = "", edit: str = ""
) -> Response:
    """Show the facts of a section, or those that a search finds."""
    reader(request)
    opened = workbench(request).shelf.bench(book).opened
    begun = None
    if edit:
        owner(request, book)
        rows = {row.path: row for row in fact_rows(opened)}
        begun = Edit(edit, rows[edit].text if edit in rows else "", seen_of(opened, edit))
        section = edit.partition(".")[0] if not q else section
    return _page(request, book, opened, section, q, begun)


def _page(
    request: Request,
    book: str,
    opened: Opened,
    section: str,
    q: str,
    edit: Edit | None,
    status: int = 200,
) -> Response:
    rows = fact_rows(opened)
    sections = list(dict.fromkeys(row.section for row in rows))
    here = section if section in sections or q else sections[0]
    found = [row for row in rows if (_has(row, q) if q else row.section == here)]
    return page(
        request,
        "facts.html.j2",
        text("facts"),
        here="facts",
        book=book,
        status=status,
        sections=sections,
        section="" if q else here,
        q=q,
        rows=found[:MOST_FOUND],
        more=max(0, len(found) - MOST_FOUND),
        total=len(rows),
        edit=edit,
        opened=opened,
    )


def _has(row: FactRow, words: str) -> bool:
    said = f"{row.path} {row.text} {row.source} {row.status}".casefold()
    return all(word in said for word in words.casefold().split())


@router.post("/facts/{book}")
def change(request: Request, book: str, form: MarkedForm) -> Response:
    """Change a fact in its file; refused when the file is no longer the one that was seen."""
    who, held = owner(request, book), workbench(request)
    opened = held.shelf.bench(book).opened
    path, value, seen = (field(form, name) for name in ("path", "value", "seen"))
    try:
        change_fact(opened, path, value.strip(), seen)
    except Problems as found:
        status = 409 if {each.kind for each in found.problems} == {"changed-meanwhile"} else 422
        edit = Edit(path, value, seen_of(opened, path), found.problems)
        section = path.partition(".")[0]
        return _page(request, book, opened, section, field(form, "q"), edit, status)
    held.store.audit.note(who.name, "change fact", f"{book}: {path}", {"value": value.strip()})
    return RedirectResponse(f"/facts/{book}?section={path.partition('.')[0]}#{path}", 303)
