"""Keeping builds: a new one, a change to a kept one, and opening it again."""

from __future__ import annotations

from dataclasses import replace

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.conditions import conditions_of
from baywright.desk.bench.keeping import build_text, builds_beside, steps_of_build
from baywright.desk.bench.standing import stand
from baywright.desk.bench.steps import read_steps
from baywright.facts.build import Build
from baywright.files.books import build_from
from baywright.problems import problem
from baywright.store import Conflict
from baywright.web.access import MarkedForm, field, reader, worker
from baywright.web.bench_address import BenchAddress
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import workbench

router = APIRouter(include_in_schema=False)


@router.post("/bench/{book}/keep")
def keep(request: Request, book: str, form: MarkedForm) -> Response:
    """Keep what is on the bench: as a new build, or as the next version of a kept one."""
    who, held = worker(request), workbench(request)
    address = replace(BenchAddress.from_fields(form, book), kept="", version=0)
    bench = held.shelf.under(book, address.given)
    standing = stand(bench, read_steps(bench.machine, address.steps), address.pins)
    name = field(form, "name").strip()
    if not name:
        raise problem("no-name", "A kept build needs a name.", None, "Give it one.")
    written, kept = build_text(bench, standing, name, address.given), field(form, "kept")
    if not kept:
        made = held.store.builds.keep(name, book, written, who.name)
        return _to(address.keeping(made.id, made.version))
    try:
        changed = held.store.builds.change(kept, _number(field(form, "version")), written, who.name)
    except Conflict as conflict:
        return _conflict(request, bench, address, kept, conflict)
    return _to(address.keeping(changed.id, changed.version))


def _number(said: str) -> int:
    return int(said) if said.isdigit() and len(said) < 10 else 0


def _to(address: BenchAddress) -> Response:
    return RedirectResponse(str(address), status_code=303)


def _conflict(
    request: Request, bench: Bench, address: BenchAddress, kept: str, conflict: Conflict
) -> Response:
    """Show both versions, and let the person go on with either."""
    theirs = _address_of(bench, address.book, build_from(conflict.text.encode("utf-8"), kept))
    return page(
        request,
        "conflict.html.j2",
        text("error_409"),
        here="bench",
        book=address.book,
        status=409,
        conflict=conflict,
        mine=address.keeping(kept, conflict.version),
        theirs=theirs.keeping(kept, conflict.version),
        new=address,
    )


@router.get("/kept/{build}")
def kept_build(request: Request, build: str) -> Response:
    """Open a kept build on the bench."""
    reader(request)
    held = workbench(request)
    found = held.store.builds.get(build)
    if found is None:
        message = f"There is no build {build!r}."
        raise problem("no-such-build", message, None, "The list of books shows what is kept.")
    bench = held.shelf.bench(found.book)
    address = _address_of(bench, found.book, build_from(found.text.encode("utf-8"), found.name))
    return _to(address.keeping(found.id, found.version))


def _address_of(bench: Bench, book: str, build: Build) -> BenchAddress:
    """Return the address of the bench with a build on it, and its site and musts given."""
    steps = tuple(map(str, steps_of_build(bench, build)))
    return BenchAddress(book, steps, given=conditions_of(build))


@router.get("/bench/{book}/from/{name}")
def from_book(request: Request, book: str, name: str) -> Response:
    """Open a build that lies beside the book on the bench."""
    reader(request)
    bench = workbench(request).shelf.bench(book)
    builds = builds_beside(bench)
    if name not in builds:
        message = f"The book {book} has no build {name!r}."
        raise problem("no-such-build", message, None, f"It has {', '.join(builds)}.")
    return _to(_address_of(bench, book, builds[name]))
