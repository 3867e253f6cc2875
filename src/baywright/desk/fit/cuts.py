"""What sizing refuses, as wishes: exact loads of supplies, and assignments that cannot stand."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from baywright.answers.figures import amount
from baywright.desk.fit.asked import wish_of_formula
from baywright.desk.fit.standing import BY_LOAD, Check, Standing
from baywright.facts.places import Supplies
from baywright.laws.formula import AtMost
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.power import load
from baywright.laws.wishes import Wish
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.registry import SUBJECTS
from baywright.units import Quantity

STEPS, ROUNDS = 256, 4
"""Steps of one round of a sweep of the load, and rounds: a part in four billion of the range."""

MOST_SWAPS = 6_000
"""Most builds that are sized to see which choices a refusal hangs on."""


@dataclass(frozen=True, slots=True)
class _Bound:
    """The most load of one set of supplies where a need stands, and what breaks past it."""

    label: str
    most: Fraction
    check: Check


def load_cuts(machine: Machine, standing: Standing) -> list[Wish]:
    """Return the wish that supplies carry no more than sizing accepts where the need stands.

    What supplies take in, and the current in inlets, cords and feeds, follow from the load alone
    once the supplies and the voltage are fixed, so a bound on the load refuses exactly what sizing
    refuses. Where a limit is not decided, or holds again at a higher load, there is no bound.

    Returns:
        One wish, a single total over all sets of supplies; none where nothing is bound.
    """
    places = machine.book.places_of(Supplies)
    if len(places) != 1 or standing.need.site.voltage is None:
        return []
    ((name, _),) = places.items()
    (choice,) = machine.frame.at(name)
    drawn = load(machine.frame)
    bounds = {
        at: bound
        for at in range(machine.sizes[choice])
        if (bound := _bound(machine, standing, drawn, choice, at)) is not None
    }
    if not bounds:
        return []
    weights = (
        bounds[at].most if at in bounds else drawn.highest for at in range(machine.sizes[choice])
    )
    formula = AtMost(drawn.minus(Linear({choice: tuple(weights)}, dimension="power")), Fraction(0))
    sentence = " ".join(_sentence(bound, standing) for bound in bounds.values())
    return [wish_of_formula(machine, "site.load", sentence, formula, kind="law")]


def _bound(
    machine: Machine, standing: Standing, drawn: Linear, choice: str, at: int
) -> _Bound | None:
    """Return the most load of one set of supplies, if it is less than what they carry."""
    option = machine.frame.options(choice)[at]
    if len(option.parts) != 1:
        return None
    bare = {name: 0 for name, fitting in machine.frame.fittings.items() if not fitting.derived}
    case = standing.case(machine, [{**bare, choice: at}])
    start, most = drawn.value({**bare, choice: at}), _carried(case)
    broken = _first_broken(case, standing, most - float(start)) if most > start else None
    if broken is None:
        return None
    extra, check = broken
    # A set that sizing refuses whatever it carries is bound below every load.
    return _Bound(option.label, start + Fraction(extra) if extra else drawn.lowest - 1, check)


def _carried(case: Case) -> float:
    """Return what the supplies of one build may carry [W]; laws refuse more."""
    sheet = next(each for each in SUBJECTS if each.name == "power").sheet(case)
    carried = next(limit.bound for limit in sheet.limits if limit.figure.key == "power.carry")
    watts = float(np.ravel(carried)[0])
    return 0.0 if math.isnan(watts) else watts


def mass_cuts(machine: Machine, standing: Standing) -> list[Wish]:
    """Return the wish that a machine weighs no more than its rack and its lifting rule bear.

    Where the book leaves the mass of some part open, sizing does not decide, and there is none.
    """
    mass = machine.names["mass"].meaning
    known = all(part.mass is not None and part.mass.value for part in machine.book.parts.values())
    if not isinstance(mass, Linear) or not known:
        return []
    bare = {name: 0 for name, fitting in machine.frame.fittings.items() if not fitting.derived}
    bounds = list(_masses(standing, standing.case(machine, [bare])))
    if not bounds:
        return []
    most, said = min(bounds)
    words = f"{said[:1].upper()}{said[1:]} is at most {amount(most, 'mass', 'down')}."
    return [wish_of_formula(machine, "site.mass", words, AtMost(mass, most), kind="law")]


def _masses(standing: Standing, case: Case) -> Iterator[tuple[Fraction, str]]:
    """Yield every bound on the mass of one machine [g], and what is bounded."""
    gram = Quantity(Fraction(1), "kg", "mass").canonical
    for check in standing.checks(case, ("rack",)):
        if check.limit is not None and check.key == "rack.lift":
            most = float(np.ravel(check.limit.bound)[0])
            if not math.isnan(most):
                yield Fraction(repr(most)) * gram, check.words
    rack = standing.need.site.rack
    if rack is not None and rack.mass_most is not None and rack.mass_most.value is not None:
        beside = f" of each of {standing.in_rack}" if standing.in_rack > 1 else ""
        yield rack.mass_most.value.canonical / standing.in_rack, f"mass{beside} in a rack"


def _sentence(bound: _Bound, standing: Standing) -> str:
    voltage = standing.need.site.voltage
    where = f"At {voltage.text}" if voltage else "There"
    beside = f" with {standing.in_rack} in a rack" if standing.in_rack > 1 else ""
    most = amount(bound.most, "power", "down")
    may = f"carry at most {most}" if bound.most > 0 else "cannot be used"
    return f"{where}{beside}, {bound.label} {may}: {bound.check.words}. {bound.check.breaks}"


def _first_broken(case: Case, standing: Standing, most: float) -> tuple[float, Check] | None:
    """Return the least extra load that some check does not pass, and that check."""
    found: list[tuple[float, Check]] = []
    loads = np.linspace(0.0, most, STEPS + 1)
    for check in _swept(case, standing, loads):
        bracket = _bracket(loads, check.room)
        if bracket is not None:
            found.append((_narrowed(case, standing, check.key, bracket), check))
    return min(found, key=lambda each: each[0], default=None)


def _swept(case: Case, standing: Standing, loads: Reals) -> list[Check]:
    swept = case.amid(case.around.changed("extra", loads))
    return [check for check in standing.checks(swept, BY_LOAD) if check.by_load]


def _bracket(loads: Reals, room: Reals) -> tuple[float, float] | None:
    """Return the loads between which a check stops holding, if it does once and for good."""
    passed = np.asarray(room < 0)
    if not passed.any():
        return None
    first = int(np.argmax(passed))
    if not passed[first:].all():
        return None
    return (float(loads[first - 1]) if first else 0.0, float(loads[first]))


def _narrowed(case: Case, standing: Standing, key: str, ends: tuple[float, float]) -> float:
    """Return the least load past a check, found between two ends."""
    for _ in range(ROUNDS - 1):
        if ends[0] == ends[1]:
            break
        loads = np.linspace(*ends, STEPS + 1)
        room = next(c.room for c in _swept(case, standing, loads) if c.key == key)
        ends = _bracket(loads, room) or ends
    return ends[1]


def refused(checks: Iterable[Check], builds: int) -> list[list[Check]]:
    """Return, for each build, what it does not pass."""
    found: list[list[Check]] = [[] for _ in range(builds)]
    for check in checks:
        for position in np.flatnonzero(check.room[:builds] < 0).tolist():
            found[position].append(check)
    return found


def no_good(
    machine: Machine, standing: Standing, build: Mapping[str, int], check: Check, number: str
) -> Wish:
    """Return the wish that keeps to other builds than those a check refuses like this one.

    A choice is left out of it only where the check refuses the build whatever is chosen there,
    the choices left out taken together; that is sized, not guessed.

    Args:
        machine: the compiled book.
        standing: where the build stands.
        build: the build refused.
        check: what refuses it.
        number: tells it from other such wishes.
    """
    kept = _concerned(machine, standing, build, check)
    row = tuple(build[name] for name in kept)
    weights = {
        name: tuple(Fraction(int(i == at)) for i in range(machine.sizes[name]))
        for name, at in zip(kept, row, strict=True)
    }
    formula = AtMost(Linear(weights), Fraction(len(kept) - 1))
    labels = (
        f"{n} is {machine.frame.options(n)[at].label}" for n, at in zip(kept, row, strict=True)
    )
    sentence = f"Sizing refuses {', '.join(labels)}: {check.words}. {check.breaks}"
    return wish_of_formula(machine, f"site.refused/{number}", sentence, formula, kind="law")


def _concerned(
    machine: Machine, standing: Standing, build: Mapping[str, int], check: Check
) -> list[str]:
    """Return choices that a refusal may hang on."""
    own = [name for name, fitting in machine.frame.fittings.items() if not fitting.derived]
    free = [name for name in own if _whatever(machine, standing, build, check, [name])]
    # What costs nothing to change comes first: the next build found would be its twin.
    free.sort(key=lambda name: (_has_parts(machine, name), machine.sizes[name]))
    while free and not (
        math.prod(machine.sizes[name] for name in free) <= MOST_SWAPS
        and _whatever(machine, standing, build, check, free)
    ):
        free.pop()
    return [name for name in own if name not in free]


def _has_parts(machine: Machine, name: str) -> bool:
    return any(option.parts for option in machine.frame.options(name))


def _whatever(
    machine: Machine,
    standing: Standing,
    build: Mapping[str, int],
    check: Check,
    names: Sequence[str],
) -> bool:
    """Say whether a check refuses a build whatever some choices hold."""
    case = standing.case(machine, list(_swapped(machine, build, names)))
    subject = "power" if check.key == "hosts.feeds" else check.key.partition(".")[0]
    rooms = [c.room for c in standing.checks(case, (subject,)) if c.key == check.key]
    return bool(rooms) and bool(np.all(rooms[0] < 0))


def _swapped(
    machine: Machine, build: Mapping[str, int], names: Sequence[str]
) -> Iterator[dict[str, int]]:
    for row in itertools.product(*(range(machine.sizes[name]) for name in names)):
        yield {**build, **dict(zip(names, row, strict=True))}
