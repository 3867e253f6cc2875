"""Need: what is needed, as a file, and the builds that are proposed for it."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from baywright.answers.wording import Sheet
from baywright.desk.fit.fit import fit
from baywright.desk.fit.telling import fit_cautions, fit_sheet
from baywright.desk.opening import Opened
from baywright.facts.cautions import Caution
from baywright.files.books import need_from
from baywright.problems import Problem, Problems
from baywright.web.access import MarkedForm, field, reader
from baywright.web.pages.ask import with_own_engines
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import workbench

router = APIRouter(include_in_schema=False)

PATIENCE = 30.0
"""Seconds that a search for builds may take."""


@router.get("/need/{book}")
def need_page(request: Request, book: str, example: str = "") -> Response:
    """Show a need that can be written."""
    reader(request)
    opened = workbench(request).shelf.bench(book).opened
    known = needs_beside(opened)
    written = known.get(example) or next(iter(known.values()), f"book: {book}\n")
    return _page(request, book, opened, written)


def needs_beside(opened: Opened) -> dict[str, str]:
    """Return the needs that lie in the folder of a book, by the name of their file."""
    folder = opened.folder / "needs"
    files = sorted(folder.glob("*.yaml")) if folder.is_dir() else []
    return {file.stem: file.read_text(encoding="utf-8") for file in files}


@router.post("/need/{book}")
def propose(request: Request, book: str, form: MarkedForm) -> Response:
    """Propose builds for a need."""
    reader(request)
    opened = with_own_engines(workbench(request).shelf.bench(book).opened)
    written = field(form, "text").replace("\r\n", "\n")
    try:
        found = fit(opened, need_from(written.encode("utf-8"), "need"), PATIENCE)
    except Problems as wrong:
        return _page(request, book, opened, written, problems=wrong.problems)
    sheet = fit_sheet(opened, found)
    return _page(request, book, opened, written, sheet=sheet, cautions=fit_cautions(found))


def _page(
    request: Request,
    book: str,
    opened: Opened,
    written: str,
    *,
    sheet: Sheet | None = None,
    cautions: tuple[Caution, ...] = (),
    problems: tuple[Problem, ...] = (),
) -> Response:
    return page(
        request,
        "need.html.j2",
        text("need"),
        here="need",
        book=book,
        status=422 if problems else 200,
        written=written,
        examples=tuple(needs_beside(opened)),
        sheet=sheet,
        cautions=cautions,
        problems=problems,
        opened=opened,
    )
