"""Bench: pick a place in the drawing, see what can go there, fit it; the address is the state."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from baywright.desk.bench.bench import Bench, by_parts, elapsed
from baywright.desk.bench.completing import around_pins, completion, numbers_left
from baywright.desk.bench.ghosts import Looked
from baywright.desk.bench.limits import Gauge, gauges
from baywright.desk.bench.picture import FACES, picture_of, view_of, views_of_place
from baywright.desk.words import truths
from baywright.engines.contract import Objective
from baywright.problems import problem
from baywright.web.access import reader
from baywright.web.bench_address import SITE, BenchAddress
from baywright.web.on_bench import (
    OnBench,
    detail,
    drawing,
    looked,
    on_bench,
    picked,
    small_drawings,
    without_conditions,
)
from baywright.web.rendering import page
from baywright.web.texts import text

router = APIRouter(include_in_schema=False)

WIDE, NARROW, BESIDE = 1376.0, 380.0, 480.0
"""Widths of the drawings [px]: across the page, on a narrow one, and beside the detail."""

OBJECTIVES: Mapping[str, Callable[[Bench], Objective]] = {
    "parts": lambda bench: by_parts(bench.machine),
    "price": lambda bench: bench.by_price,
}
"""Ways to fill in what is open: with the fewest parts, or for the least price."""


@dataclass(frozen=True, slots=True)
class Left:
    """How many legal builds are left.

    Args:
        numbers: before the first step and after each.
        with_look: with what is looked at; ``None`` where nothing is or it was not counted.
        milliseconds: time it took to count them.
    """

    numbers: tuple[int | None, ...]
    with_look: int | None
    milliseconds: float

    @property
    def now(self) -> int | None:
        """Builds left after the last step."""
        return self.numbers[-1]


@router.get("/bench/{book}")
def bench_page(request: Request, book: str) -> Response:
    """Show the bench."""
    who = reader(request)
    if _has_empty(request):
        return RedirectResponse(str(BenchAddress.of(request, book)), status_code=303)
    held = on_bench(request, book)
    place, shown = (found := picked(held)), tuple(detail(held, found))
    look = looked(held, shown)
    strip = gauges(held.bench, held.standing)
    view = held.address.view or view_of(held.bench, place.id)
    left = _left(held, look)
    return page(
        request,
        "bench.html.j2",
        str(held.bench.opened.book.book.name),
        here="bench",
        book=book,
        status=422 if held.problems else 200,
        held=held,
        state=held.address,
        standing=held.standing,
        place=place,
        detail=shown,
        small={each.choice: small_drawings(held, each) for each in shown},
        look=look,
        left=left,
        view=view,
        faces=FACES,
        bare=not views_of_place(held.bench, view),
        drawing=drawing(held, view, _width(held, view), place.id, look.ghost if look else None),
        gauges=strip,
        then=_then(held, look),
        said=_said(held, strip, left),
        may_work=who.may_work,
        opened=held.bench.opened,
        truths=truths(held.bench.opened),
        free=without_conditions(held),
    )


def _width(held: OnBench, view: str) -> float:
    """Return how wide a view is drawn; one that shows no place needs no more than a column."""
    return WIDE if views_of_place(held.bench, view) else BESIDE


def _has_empty(request: Request) -> bool:
    """Say whether a form was sent with fields left empty, which are no part of an address."""
    fields = ("m", *SITE)
    return any(
        name in fields and not value.strip() for name, value in request.query_params.multi_items()
    )


def _left(held: OnBench, look: Looked | None) -> Left:
    start = time.perf_counter()
    numbers = tuple(numbers_left(held.bench, held.standing))
    with_look = held.bench.count(look.standing.chosen) if look else None
    return Left(numbers, with_look, elapsed(start))


def _then(held: OnBench, look: Looked | None) -> Mapping[str, Gauge]:
    """Return the limits with what is looked at, by what is limited."""
    found = gauges(held.bench, look.standing) if look else ()
    return {each.title: each for each in found}


def _said(held: OnBench, strip: tuple[Gauge, ...], left: Left) -> str:
    """Return the sentence that is read aloud after a step."""
    steps = held.standing.steps
    done = f"{text('step')} {len(steps)}: {steps[-1].words}. " if steps else ""
    still = sum(1 for place in held.standing.places if place.state == "open")
    binding = next((gauge for gauge in strip if gauge.binding), None)
    binds = f"{binding.title} {text('binds')}, {binding.left}. " if binding else ""
    counted = f" {left.now:,} {text('builds_left')}." if left.now is not None else ""
    return f"{done}{binds}{still} {text('places_open')}.{counted}"


@router.get("/bench/{book}/picture/{view}.svg")
def picture(request: Request, book: str, view: str) -> Response:
    """Draw a view of what is on the bench, as a picture beside the page."""
    reader(request)
    held = on_bench(request, book)
    place, query = held.address.at, request.query_params
    look = looked(held, tuple(detail(held, picked(held)))) if held.address.look else None
    svg = picture_of(
        held.bench,
        held.standing,
        view,
        NARROW if query.get("slim") else BESIDE,
        place,
        numbered=False,
        ghost=look.ghost if look else None,
    )
    theme = query.get("theme", "")
    return Response(themed(svg, theme), media_type="image/svg+xml")


def themed(svg: str, theme: str) -> str:
    """Return a drawing that stays light or dark whatever the browser prefers."""
    if theme == "light":
        return svg.replace("(prefers-color-scheme: dark)", "not all")
    return svg.replace("(prefers-color-scheme: dark)", "screen") if theme == "dark" else svg


@router.get("/bench/{book}/complete")
def complete(request: Request, book: str, by: str = "parts", keep: str = "steps") -> Response:
    """Fill in what is open, or all but pinned places, and go back to the bench.

    Raises:
        Problems: when it is to be filled in by what nobody knows.
    """
    reader(request)
    held = on_bench(request, book)
    if by not in OBJECTIVES:
        message = f"Nothing can be filled in by {by!r}."
        raise problem("no-objective", message, None, f"Known here: {', '.join(OBJECTIVES)}.")
    anew = keep == "pins"
    kept = held.standing.held if anew else {**held.standing.chosen, **held.standing.held}
    found = held.bench.least(OBJECTIVES[by](held.bench), kept) or held.standing.shown.values
    step = (around_pins if anew else completion)(held.bench, held.standing, found)
    after = held.address.after(str(step)) if step.values else held.address
    return RedirectResponse(str(after), status_code=303)
