"""Minutes of checks: a plan for every part that can be swapped, and every way of looking."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from baywright.desk.service.access import AccessRequest, circumstances
from baywright.facts.build import Build
from baywright.facts.citation import Citation
from baywright.facts.fact import Duration
from baywright.facts.faults import BOARD, Check
from baywright.laws.wording import listed
from baywright.problems import Problems
from baywright.service.access.interior import Interior, seconds
from baywright.service.access.plan import Plan, Refusal
from baywright.service.access.planning import plan
from baywright.service.faults.found import CAUSE, INTERLOCK, Fault
from baywright.service.faults.reaching import Reach, reach
from baywright.service.faults.signs import Sign, Way, way_of
from baywright.sizing.case import Case

NOTHING = Fraction(0)


@dataclass(frozen=True, slots=True)
class Effort:
    """What a check takes.

    Args:
        minutes: how long [min], or ``None`` where it cannot be done.
        cautions: keys of the cautions of its acts.
        says: the check in words, a sentence.
        why_not: why it cannot be done, one sentence each.
        untimed: what of it the book states no time for.
        facts: the facts it stands on.
    """

    minutes: Fraction | None
    cautions: tuple[str, ...]
    says: str
    why_not: tuple[str, ...] = ()
    untimed: tuple[str, ...] = ()
    facts: tuple[Citation, ...] = ()


@dataclass(frozen=True)
class Efforts:
    """What every check of a build takes.

    Args:
        swaps: by id of a fault: its swap, or the check of a cause.
        looks: by way of looking.
    """

    swaps: Mapping[str, Effort]
    looks: Mapping[Way, Effort]

    def minutes(self, fault: str) -> float | None:
        """Return the minutes of a swap [min]."""
        found = self.swaps[fault].minutes
        return None if found is None else float(found)

    @cached_property
    def look_times(self) -> Mapping[Way, float]:
        """Minutes of the ways of looking that there are [min]."""
        return {
            way: float(each.minutes) for way, each in self.looks.items() if each.minutes is not None
        }


def efforts_of(
    case: Case, build: Build, faults: Sequence[Fault], signs: Sequence[Sign], opened: Iterable[Way]
) -> Efforts:
    """Return what every check takes.

    Args:
        case: the build as sizing reads it.
        build: the build.
        faults: what can be at fault.
        signs: what can be seen.
        opened: ways of looking for which everything is open already.
    """
    interior = Interior(case.book, circumstances(case, build, AccessRequest(())))
    swaps: dict[str, Effort] = {}
    known: dict[tuple[str, str, str], Effort] = {}
    for fault in faults:
        key = (fault.place, fault.part, "" if fault.part else fault.id)
        if key not in known:
            known[key] = _swap(interior, fault)
        swaps[fault.id] = known[key]
    ways = dict.fromkeys(sign.way for sign in signs)
    free = set(opened)
    return Efforts(swaps, {way: _look(interior, way, is_open=way in free) for way in ways})


def _swap(interior: Interior, fault: Fault) -> Effort:
    if fault.kind in (INTERLOCK, CAUSE):
        return _check(interior, fault)
    target = f"{fault.place}:{fault.part}" if fault.part else BOARD
    says = f"Swap {fault.name} for one that is known to work."
    try:
        found = plan(interior.book, interior.given, [target])
    except Problems as problems:
        return Effort(None, (), says, tuple(each.message for each in problems.problems))
    return _effort(found, NOTHING, says)


def _effort(found: Plan, looking: Fraction, says: str) -> Effort:
    facts = tuple(dict.fromkeys(fact for step in found.steps for fact in step.facts))
    if found.refused:
        return Effort(None, (), says, tuple(_reasons(found.refused)), facts=facts)
    minutes = (found.time + looking) / 60
    return Effort(minutes, found.cautions, says, (), found.untimed, facts)


def _reasons(refused: Iterable[Refusal]) -> Iterable[str]:
    return (reason for each in refused for reason in each.reasons)


def _check(interior: Interior, fault: Fault) -> Effort:
    """Return what it takes to find out whether a cause is there."""
    book = interior.book
    held = book.interlocks.get(fault.id) or book.causes[fault.id]
    check: Check | None = held.check
    if check is None:
        path = f"{'interlocks' if fault.kind == INTERLOCK else 'causes'}.{fault.id}.check"
        return Effort(None, (), f"Find out whether {fault.name}.", (f"{path} is not stated.",))
    looking = seconds(check.time)
    found = _effort(
        reach(interior, list(map(str, check.behind)), looking or NOTHING).plan,
        looking or NOTHING,
        check.says.text if check.says.text.endswith(".") else f"{check.says.text}.",
    )
    untimed = found.untimed if looking is not None else (*found.untimed, "the check itself")
    return Effort(
        found.minutes,
        found.cautions,
        found.says,
        found.why_not,
        untimed,
        (*book.cite(check.says, check.time), *found.facts),
    )


def _look(interior: Interior, way: Way, *, is_open: bool) -> Effort:
    looking, times = _looking(interior, way)
    says = says_of(way)
    if is_open or not way.behind:
        return Effort(looking / 60, (), says, facts=times)
    found = reach(interior, way.behind, looking)
    dark = _dark(interior, way, found)
    if dark:
        return Effort(None, (), says, (dark,))
    effort = _effort(found.plan, looking, says)
    facts = (*times, *effort.facts)
    return Effort(effort.minutes, effort.cautions, says, effort.why_not, effort.untimed, facts)


def says_of(way: Way) -> str:
    """Return a way of looking as a sentence.

    >>> says_of(Way(("cords", "cover"))), says_of(Way(by="the log"))
    ('Look inside with the cords and the cover off.', 'Read the log.')
    """
    off = f" with {listed(f'the {each}' for each in way.behind)} off" if way.behind else ""
    if way.by:
        return f"Read {way.by}{off}."
    return f"Look inside{off}." if off else "Look at everything that is seen from outside."


def _looking(interior: Interior, way: Way) -> tuple[Fraction, tuple[Citation, ...]]:
    """Return the longest time that a sign of a way takes to look at [s], with its facts."""
    book = interior.book
    facts: list[Duration] = [
        each.time
        for each in (*book.lights.values(), *book.symptoms.values())
        if each.time is not None and way_of(each) == way
    ]
    longest = max((seconds(fact) or NOTHING for fact in facts), default=NOTHING)
    return longest, book.cite(*[fact for fact in facts if seconds(fact) == longest][:1])


def _dark(interior: Interior, way: Way, found: Reach) -> str:
    """Say that lights of a way have gone out by the time one gets to see them, or nothing."""
    for key, light in interior.book.lights.items():
        if way_of(light) != way:
            continue
        lasts = seconds(light.lasts)
        if lasts is not None and found.cords_out is not None and found.cords_out > lasts:
            spent = float(found.cords_out / 60)
            return (
                f"lights.{key} stays lit for {light.lasts.text if light.lasts else ''} after the "
                f"cords are out, and one gets to see it after {spent:g} min."
            )
    return ""
