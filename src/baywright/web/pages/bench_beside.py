"""Beside the bench: the limits in full, and the build compared with another one."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.keeping import builds_beside
from baywright.desk.compare.builds import compare_made, made
from baywright.desk.compare.telling import compared_sheet
from baywright.desk.drawing import as_build
from baywright.desk.size.sized import size
from baywright.desk.size.telling import size_sheet
from baywright.facts.build import Build
from baywright.files.books import build_from, site_from
from baywright.problems import problem
from baywright.store import Store
from baywright.web.access import reader
from baywright.web.on_bench import OnBench, on_bench
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import workbench

router = APIRouter(include_in_schema=False)


@router.get("/bench/{book}/limits")
def limits(request: Request, book: str, all_figures: str = "") -> Response:
    """Show every limit of the cheapest build with the choices made."""
    reader(request)
    held = on_bench(request, book)
    build = shown_build(held)
    site = site_from(held.address.given.site)
    sheet = size_sheet(size(held.bench.opened, build, site), ("all",) if all_figures else ())
    return page(
        request,
        "limits.html.j2",
        text("limits"),
        here="bench",
        book=book,
        state=held.address,
        sheet=sheet,
        full=bool(all_figures),
        opened=held.bench.opened,
    )


def shown_build(held: OnBench) -> Build:
    """Return the cheapest build with the choices made, complete."""
    name = str(held.bench.opened.book.book.name)
    return as_build(held.bench.machine, held.standing.shown.values, name)


@router.get("/bench/{book}/compare")
def compare(request: Request, book: str, other: str = "") -> Response:
    """Compare what is on the bench with a build of the book or a kept one."""
    reader(request)
    held = on_bench(request, book)
    store = workbench(request).store
    sheet = None
    if other:
        first = made(held.bench.opened, shown_build(held))
        second = made(held.bench.opened, _build(held.bench, store, other))
        if second.shown is None:
            message = f"{second.name} cannot be built, so there is nothing to compare."
            raise problem("not-built", message, None, "Take another build, or ask why.")
        sheet = compared_sheet(compare_made(first, second))
    return page(
        request,
        "compare.html.j2",
        text("compare"),
        here="bench",
        book=book,
        state=held.address,
        sheet=sheet,
        other=other,
        known=_known(held.bench, store, book),
        opened=held.bench.opened,
    )


def _known(bench: Bench, store: Store, book: str) -> list[tuple[str, str]]:
    beside = [(name, build.name.known) for name, build in builds_beside(bench).items()]
    kept = [(each.id, each.name) for each in store.builds.of(None) if each.book == book]
    return [*beside, *kept]


def _build(bench: Bench, store: Store, name: str) -> Build:
    beside = builds_beside(bench)
    if name in beside:
        return beside[name]
    kept = store.builds.get(name)
    if kept is None:
        message = f"There is no build {name!r}."
        raise problem("no-such-build", message, None, "Choose one from the list.")
    return build_from(kept.text.encode("utf-8"), kept.name)
