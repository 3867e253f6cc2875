"""Plans of service: a build at its site, and the shortest safe plan to change parts of it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.figures import amount
from baywright.answers.inquiry import StoppedError
from baywright.desk.opening import Opened
from baywright.desk.size.sized import case_of
from baywright.facts.book import Book
from baywright.facts.build import Build, Fitted, Item
from baywright.facts.references import check_build
from baywright.facts.status import Status
from baywright.laws.machine import Machine
from baywright.problems import Problems, problem
from baywright.service.access.circumstances import Carry, Circumstances, Doing, Lock
from baywright.service.access.moves import Least
from baywright.service.access.plan import Plan
from baywright.service.access.planning import plan
from baywright.service.access.search import OutOfStatesError
from baywright.sizing.amounts import conditions
from baywright.sizing.case import Case
from baywright.sizing.power.redundancy import loss_figures, supply_limits
from baywright.sizing.power.scene import Scene
from baywright.sizing.rack.handling import sheet as handling
from baywright.sizing.rack.masses import weighed


@dataclass(frozen=True, slots=True)
class AccessRequest:
    """What is to be done, and with whom.

    Args:
        places: what is changed: places, PLACE:PART, labels of the log, or steps of access.
        doing: what is done with it.
        lock: how the locks are.
        people: people at hand, or ``None`` for as many as it takes.
        keep_running: whether the machine has to run all the time.
        least: what the plan has least of.
    """

    places: tuple[str, ...]
    doing: Doing = "replace"
    lock: Lock = "open"
    people: int | None = None
    keep_running: bool = False
    least: Least = "time"


@dataclass(frozen=True, slots=True)
class Service:
    """A plan of service for each way the unknown facts of the book could be.

    Args:
        name: what the build is called.
        book: id of the book.
        machine: name of the machine.
        as_of: the day it holds for, in ISO form.
        status: what the machine is on that day.
        asked: what was asked for.
        plans: what unknown facts are taken to be, and the plan then; one where it makes no odds.
        lifting_rule: whether the site states a lifting rule.
    """

    name: str
    book: str
    machine: str
    as_of: str
    status: Status
    asked: AccessRequest
    plans: tuple[tuple[Mapping[str, str], Plan], ...]
    lifting_rule: bool


def service_plan(opened: Opened, build: Build, asked: AccessRequest) -> Service:
    """Return the shortest safe plan to change parts of a build at its site.

    Args:
        opened: the book.
        build: the build, with its site.
        asked: what is to be done.

    Raises:
        Problems: for what the book or the build does not have.
        StoppedError: where too much is asked for at once.
    """
    problems = check_build(build, opened.book)
    if problems:
        raise Problems(problems)
    if asked.people is not None and asked.people < 1:
        message = f"people: nothing is done by {asked.people} people."
        raise problem("people", message, None, "Give 1 or more.")
    worlds = opened.in_worlds(lambda machine: _planned(machine, build, asked))
    plans = [(world.given, found) for world, found in worlds]
    alike = all(found == plans[0][1] for _, found in plans)
    return Service(
        build.name.known,
        opened.book.book.id,
        opened.book.book.name,
        opened.as_of.isoformat(),
        opened.status,
        asked,
        tuple([({}, plans[0][1])] if alike else plans),
        bool(_bands(build)),
    )


def _planned(machine: Machine, build: Build, asked: AccessRequest) -> Plan:
    case = case_of(machine, build)
    given = circumstances(case, build, asked)
    try:
        return plan(machine.book, given, asked.places, asked.doing, asked.least)
    except OutOfStatesError as much:
        raise StoppedError("too many parts at once to go through all orders") from much


def circumstances(case: Case, build: Build, asked: AccessRequest) -> Circumstances:
    """Return what stands around the work on a build."""
    return Circumstances(
        holds=lambda condition: bool(case.holds(condition)[0]),
        places=_filled(case.book, build.places),
        system=str(build.settings.get("system", "")),
        carry=_carry(case),
        mass=_mass(case),
        lock=asked.lock,
        people=asked.people,
        keep_running=asked.keep_running,
        bands=_bands(build),
    )


def _mass(case: Case) -> Fraction | None:
    """Return the mass of the machine [kg], or ``None`` while a part states none."""
    whole = weighed(case)
    lifted = next(each.figure for each in handling(case, whole).limits)
    return None if whole.missing else Fraction(lifted.value).limit_denominator(1000)


def _filled(book: Book, places: Mapping[str, Fitted]) -> dict[str, Fitted]:
    """Return what is in each place, with what is there in every build."""
    always = {name: getattr(place, "always", None) for name, place in book.places.items()}
    there = {name: Fitted((Item(str(part), 1),)) for name, part in always.items() if part}
    return {**there, **{str(name): fitted for name, fitted in places.items()}}


def _bands(build: Build) -> tuple[tuple[Fraction, str], ...]:
    rack = build.site.rack
    bands = rack.lift_bands if rack else []
    return tuple((band.up_to.known.to("kg"), band.by.text) for band in bands)


def _carry(case: Case) -> Carry:
    """Return whether the other supplies carry the peak while one is out, as sizing finds it."""
    scene = Scene(case)
    left = next(each for each in loss_figures(scene) if each.key == "power.left.supply")
    if math.isnan(left.value):
        missing = ", ".join(left.missing) or "facts that the book does not state"
        says = f"Whether the other supplies carry the load is not decided: it depends on {missing}."
        return Carry(None, says)
    load = next(each.figure.value for each in supply_limits(scene))
    carried = amount(Fraction(load + left.value).limit_denominator(1000), "power", "down")
    drawn = amount(Fraction(load).limit_denominator(1000), "power")
    verb = "carry" if left.value >= 0 else "do not carry"
    at = conditions(case, "at peak")
    return Carry(
        left.value >= 0,
        f"With one supply out the others {verb} the load: {drawn} drawn, {carried} carried ({at}).",
    )
