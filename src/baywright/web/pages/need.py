"""Need: a form and the same as a file, and the builds that are proposed for it.

The address says the need, so it can be shared, and left and come back to while a search goes on.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse
from markupsafe import Markup
from starlette.datastructures import FormData

from baywright.desk.bench.conditions import Conditions
from baywright.desk.bench.steps import step_of_values
from baywright.desk.fit.fit import Fitted, Proposals, fit
from baywright.desk.fit.form import fill_need, need_form
from baywright.desk.fit.hosts import Count
from baywright.desk.fit.plot import front_plots
from baywright.desk.fit.proposals import in_letters
from baywright.desk.fit.request import at_site
from baywright.desk.fit.telling import fit_cautions, fit_sheet, progress_words
from baywright.desk.opening import Opened
from baywright.files.books import need_from
from baywright.problems import Problem, Problems
from baywright.web.access import MarkedForm, field, reader
from baywright.web.bench_address import BenchAddress
from baywright.web.drawings import on_page
from baywright.web.packing import packed, unpacked
from baywright.web.pages.ask import with_own_engines
from baywright.web.rendering import page
from baywright.web.runs import Run, Tell
from baywright.web.texts import text
from baywright.web.workbench import workbench

router = APIRouter(include_in_schema=False)

PATIENCE = 60.0
"""Seconds that a search for builds may take."""

AT_ONCE = 0.9
"""Seconds that a page waits for its answer before it shows how far the search has come."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A need as a page has it.

    Args:
        book: the book.
        opened: the same, open.
        written: the file.
        run: whether builds are to be proposed.
    """

    book: str
    opened: Opened
    written: str
    run: bool = False

    @property
    def address(self) -> str:
        """The address of the page."""
        return f"/need/{self.book}?need={packed(self.written)}{'&run=1' if self.run else ''}"


@router.get("/need/{book}")
def need_page(
    request: Request, book: str, example: str = "", need: str = "", run: str = ""
) -> Response:
    """Show a need, and what comes of it where that is asked."""
    reader(request)
    opened = workbench(request).shelf.bench(book).opened
    known = needs_beside(opened)
    first = known.get(example) or next(iter(known.values()), f"book: {book}\nname: a need\n")
    asked = Asked(book, opened, unpacked(need) if need else first, run == "1")
    if not asked.run:
        return _page(request, asked)
    going = _begin(request, asked)
    if not going.wait(AT_ONCE):
        return _page(request, asked, going=going)
    try:
        return _page(request, asked, found=going.answer())
    except Problems as wrong:
        return _page(request, asked, problems=wrong.problems)


def needs_beside(opened: Opened) -> dict[str, str]:
    """Return the needs that lie in the folder of a book, by the name of their file."""
    folder = opened.folder / "needs"
    files = sorted(folder.glob("*.yaml")) if folder.is_dir() else []
    return {file.stem: file.read_text(encoding="utf-8") for file in files}


def _begin(request: Request, asked: Asked) -> Run[Fitted]:
    held, opened = workbench(request), with_own_engines(asked.opened)

    def make(tell: Tell) -> Fitted:
        need = need_from(asked.written.encode("utf-8"), "need")

        def watch(counts: Sequence[Count]) -> None:
            tell(progress_words(opened, counts))

        return fit(at_site(opened, need), need, PATIENCE, watch)

    state = held.shelf.state(asked.book)
    digest = hashlib.sha256(asked.written.encode("utf-8")).hexdigest()
    return held.needs.of((asked.book, state, digest), make)


@router.post("/need/{book}")
def change(request: Request, book: str, form: MarkedForm) -> Response:
    """Put the form into the file or read the file into the form, and propose builds if asked."""
    reader(request)
    opened = workbench(request).shelf.bench(book).opened
    written, run = field(form, "text").replace("\r\n", "\n"), field(form, "do") == "propose"
    asked = Asked(book, opened, written, run)
    if field(form, "from") == "form":
        try:
            asked = Asked(book, opened, fill_need(written, _given(form)), run)
        except Problems as wrong:
            return _page(request, asked, problems=wrong.problems)
    return RedirectResponse(asked.address, status_code=303)


def _given(form: FormData) -> dict[str, str]:
    paths = {each.path for section in need_form("") for each in section.fields}
    return {name: field(form, name).replace("\r\n", "\n") for name in paths if name in form}


def _page(
    request: Request,
    asked: Asked,
    *,
    found: Fitted | None = None,
    going: Run[Fitted] | None = None,
    problems: tuple[Problem, ...] = (),
) -> Response:
    opened = at_site(asked.opened, found.need) if found else asked.opened
    return page(
        request,
        "need.html.j2",
        text("need"),
        here="need",
        book=asked.book,
        status=422 if problems else 200,
        asked=asked,
        form=need_form(asked.written),
        examples=tuple(needs_beside(asked.opened)),
        sheet=fit_sheet(opened, found) if found else None,
        plots=_plots(opened, found) if found else (),
        benches=tuple(_benches(opened, found, asked.book)) if found else (),
        cautions=fit_cautions(found) if found else (),
        going=going,
        problems=problems,
        opened=asked.opened,
    )


def _benches(opened: Opened, found: Fitted, book: str) -> Iterator[tuple[str, BenchAddress]]:
    """Yield each proposal by its letter, open on the bench at the site of the need."""
    site = found.need.site
    volts, altitude, inlet = (
        fact.text if fact is not None else "" for fact in (site.voltage, site.altitude, site.inlet)
    )
    if len(found.worlds) == 1 and isinstance(found.worlds[0][1], Proposals):
        for number, each in enumerate(found.worlds[0][1].proposals):
            step = str(step_of_values(opened.machine, each.build.values))
            given = Conditions(volts, altitude, inlet)
            yield in_letters(number), BenchAddress(book, (step,), given=given)


def _plots(opened: Opened, found: Fitted) -> tuple[tuple[str, Markup], ...]:
    return tuple(
        (supposed, on_page(svg, f"front-{number}"))
        for number, (supposed, svg) in enumerate(front_plots(opened, found))
    )
