"""What an address of the bench says, followed: the book, its conditions, the steps, the place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from fastapi import Request
from markupsafe import Markup

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.conditions import FREE
from baywright.desk.bench.ghosts import Ghost, Looked, look
from baywright.desk.bench.offers import Offers, offers
from baywright.desk.bench.picture import picture_of, small_picture
from baywright.desk.bench.standing import PlaceNow, Standing, stand
from baywright.desk.bench.steps import read_steps
from baywright.problems import Problem, Problems, problem
from baywright.web.bench_address import BenchAddress
from baywright.web.drawings import on_page
from baywright.web.texts import text
from baywright.web.workbench import workbench


@dataclass(frozen=True, slots=True)
class OnBench:
    """What a page about the bench starts from.

    Args:
        bench: the book, under the conditions of the address.
        address: the address.
        standing: where its steps have led.
        problems: what is wrong with the conditions, which are then left out.
    """

    bench: Bench
    address: BenchAddress
    standing: Standing
    problems: tuple[Problem, ...] = ()


def on_bench(request: Request, book: str) -> OnBench:
    """Return what an address of the bench says, followed.

    Raises:
        Problems: for a book, a step or a pin that there is not.
    """
    shelf, address = workbench(request).shelf, BenchAddress.of(request, book)
    bench = shelf.bench(book)
    wrong: tuple[Problem, ...] = ()
    try:
        bench = shelf.under(book, address.given)
    except Problems as found:
        wrong = found.problems
    steps = read_steps(bench.machine, address.steps)
    return OnBench(bench, address, stand(bench, steps, address.pins), wrong)


def picked(held: OnBench) -> PlaceNow:
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
    openly = [p for p in standing.places if p.state == "open" and p.section != "Settings"]
    drives = [p for p in openly if p.section == "Drives"]
    return next(iter([*drives, *openly, standing.places[0]]))


def detail(held: OnBench, place: PlaceNow) -> Iterator[Offers]:
    """Yield what the choices of the place can be; those with nothing to choose are left out."""
    choice, _, label = held.address.look.partition(":")
    for name in place.choices:
        shown = label if choice == name else ""
        found = offers(held.bench, held.standing, name, shown, explain=held.address.why)
        first = name == place.choices[0]
        if first or len(found.having("now", "free")) > 1 or name in held.standing.chosen:
            yield found


def looked(held: OnBench, shown: tuple[Offers, ...]) -> Looked | None:
    """Return the option that is looked at, or ``None`` where none is or it cannot be fitted."""
    for each in shown:
        for offer in each.having("free", "if"):
            if held.address.look == f"{each.choice}:{offer.label}":
                return look(held.bench, held.standing, offer.step)
    return None


def drawing(held: OnBench, view: str, width: float, place: str, ghost: Ghost | None) -> Markup:
    """Return a view with each place in it a link, and what is looked at as a ghost."""
    svg = picture_of(held.bench, held.standing, view, width, place, ghost=ghost)
    return on_page(svg, "wide", _links(held))


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
    pinned = f", {text('pinned')}" if place.pinned else ""
    return f"{place.name}, {state}{what}{pinned}, {counts}"


def small_drawings(held: OnBench, shown: Offers) -> dict[str, Markup]:
    """Return the options of a choice as small drawings by label, where they tell them apart."""
    found = {}
    for number, option in enumerate(held.bench.machine.frame.options(shown.choice)):
        if shown.many and held.address.look != f"{shown.choice}:{option.label}":
            continue
        drawn = _small(held.bench, shown.choice, number)
        if drawn:
            found[option.label] = drawn
    return found


def _small(bench: Bench, choice: str, value: int) -> Markup:
    """Return a small drawing for a page, empty where there is none; it depends on nothing else."""

    def made() -> str:
        svg = small_picture(bench, choice, value)
        return on_page(svg, f"small-{choice.replace(' ', '-')}-{value}") if svg else Markup()

    return Markup(bench.pictures.get(("small on page", choice, value), made))  # noqa: S704 - ours


def without_conditions(held: OnBench) -> BenchAddress:
    """Return the address without conditions."""
    return replace(held.address, given=FREE)
