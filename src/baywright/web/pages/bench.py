"""Bench: pick a place in the drawing, see what can go there, fit it; the address is the state."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse
from markupsafe import Markup

from baywright.desk.bench.bench import Bench, by_parts
from baywright.desk.bench.limits import gauges
from baywright.desk.bench.offers import Offers, offers
from baywright.desk.bench.picture import FACES, picture_of, view_of
from baywright.desk.bench.standing import PlaceNow, Standing, completion, stand
from baywright.desk.bench.steps import read_steps
from baywright.engines.contract import Objective
from baywright.problems import problem
from baywright.web.access import reader
from baywright.web.bench_address import BenchAddress
from baywright.web.drawings import on_page
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import workbench

router = APIRouter(include_in_schema=False)

WIDE, NARROW, BESIDE = 1376.0, 380.0, 480.0
"""Widths of the drawings [px]: across the page, on a narrow one, and beside the detail."""

OBJECTIVES: Mapping[str, Callable[[Bench], Objective]] = {
    "parts": lambda bench: by_parts(bench.machine),
    "price": lambda bench: bench.by_price,
}
"""Ways to fill in what is open: with the fewest parts, or for the least price."""


@dataclass(frozen=True, slots=True)
class OnBench:
    """What a page about the bench starts from."""

    bench: Bench
    address: BenchAddress
    standing: Standing


def on_bench(request: Request, book: str) -> OnBench:
    """Return what an address of the bench says, followed.

    Raises:
        Problems: for a book or a step that there is not.
    """
    bench = workbench(request).shelf.bench(book)
    address = BenchAddress.of(request, book)
    return OnBench(bench, address, stand(bench, read_steps(bench.machine, address.steps)))


@router.get("/bench/{book}")
def bench_page(request: Request, book: str) -> Response:
    """Show the bench."""
    who = reader(request)
    held = on_bench(request, book)
    place = _picked(held)
    strip = gauges(held.bench, held.standing)
    binding = next((gauge for gauge in strip if gauge.binding), None)
    view = held.address.view or view_of(held.bench, place.id)
    return page(
        request,
        "bench.html.j2",
        str(held.bench.opened.book.book.name),
        here="bench",
        book=book,
        held=held,
        state=held.address,
        standing=held.standing,
        place=place,
        detail=tuple(_detail(held, place)),
        view=view,
        faces=FACES,
        drawing=_drawing(held, view, WIDE, place, "wide"),
        gauges=strip,
        said=_said(held, binding.title if binding else "", binding.left if binding else ""),
        may_work=who.may_work,
        opened=held.bench.opened,
    )


def _picked(held: OnBench) -> PlaceNow:
    """Return the picked place: the first that is open where none is said.

    Raises:
        Problems: for a place that there is not.
    """
    standing = held.standing
    if held.address.at:
        found = standing.place(held.address.at)
        if found is None:
            message = f"There is no place {held.address.at!r}."
            raise problem("no-place", message, None, "Pick one in the drawing.")
        return found
    openly = (p for p in standing.places if p.state == "open" and p.section == "Drives")
    return next(openly, standing.places[0])


def _detail(held: OnBench, place: PlaceNow) -> Iterator[Offers]:
    """Yield what the choices of the place can be; those with nothing to choose are left out."""
    choice, _, label = held.address.show.partition(":")
    for name in place.choices:
        shown = label if choice == name else ""
        found = offers(held.bench, held.standing, name, shown, explain=held.address.why)
        first = name == place.choices[0]
        if first or len(found.having("now", "free")) > 1 or name in held.standing.chosen:
            yield found


def _drawing(held: OnBench, view: str, width: float, place: PlaceNow, name: str) -> Markup:
    svg = picture_of(held.bench, held.standing, view, width, place.id)
    return on_page(svg, name, _links(held))


def _links(held: OnBench) -> Callable[[str], tuple[str, str] | None]:
    def link(place: str) -> tuple[str, str] | None:
        found = held.standing.place(place)
        if found is None:
            return None
        return str(held.address.pick(place)), spoken(found)

    return link


def spoken(place: PlaceNow) -> str:
    """Return a place as a screen reader says it."""
    counts = f"{place.free} free, {place.changing} if, {place.never} cannot"
    state = text(f"state_{place.state}")
    what = "" if place.words == "open" else f", {place.words}"
    return f"{place.name}, {state}{what}, {counts}"


def _said(held: OnBench, binding: str, left: str) -> str:
    """Return the sentence that is read aloud after a step."""
    steps = held.standing.steps
    done = f"{text('step')} {len(steps)}: {steps[-1].words}. " if steps else ""
    still = sum(1 for place in held.standing.places if place.state == "open")
    binds = f"{binding} {text('binds')}, {left}. " if binding else ""
    return f"{done}{binds}{still} {text('places_open')}."


@router.get("/bench/{book}/picture/{view}.svg")
def picture(request: Request, book: str, view: str) -> Response:
    """Draw a view of what is on the bench, as a picture beside the page."""
    reader(request)
    held = on_bench(request, book)
    at = held.address.at
    query = request.query_params
    width = NARROW if query.get("slim") else BESIDE
    svg = picture_of(held.bench, held.standing, view, width, at, numbered=False)
    theme = query.get("theme", "")
    return Response(themed(svg, theme), media_type="image/svg+xml")


def themed(svg: str, theme: str) -> str:
    """Return a drawing that stays light or dark whatever the browser prefers."""
    if theme == "light":
        return svg.replace("(prefers-color-scheme: dark)", "not all")
    return svg.replace("(prefers-color-scheme: dark)", "screen") if theme == "dark" else svg


@router.get("/bench/{book}/complete")
def complete(request: Request, book: str, by: str = "parts") -> Response:
    """Fill in everything that is open, and go back to the bench.

    Raises:
        Problems: when it is to be filled in by what nobody knows.
    """
    reader(request)
    held = on_bench(request, book)
    if by not in OBJECTIVES:
        message = f"Nothing can be filled in by {by!r}."
        raise problem("no-objective", message, None, f"Known here: {', '.join(OBJECTIVES)}.")
    found = held.bench.least(OBJECTIVES[by](held.bench), held.standing.chosen)
    step = completion(held.bench, held.standing, found or held.standing.shown.values)
    after = held.address.after(str(step)) if step.values else held.address
    return RedirectResponse(str(after), status_code=303)
