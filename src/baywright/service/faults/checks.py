"""Checks that can come next: what each tells, in bits, and in bits a minute."""

from __future__ import annotations

import itertools
import math
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from baywright.service.faults.classes import Signature
from baywright.service.faults.found import Fault
from baywright.service.faults.search import entropy
from baywright.service.faults.signs import Shown, Sign, Way
from baywright.service.faults.suspects import Observation, Suspect


@dataclass(frozen=True, slots=True)
class Check:
    """A check with what it tells.

    Args:
        way: the way of looking, or ``None`` for a swap or the check of a cause.
        fault: the fault that is swapped or put right, or ``None`` for a look.
        minutes: how long it takes [min].
        bits: information to expect of it [bit].
        alike: other faults of which a check tells as much in as many minutes.
    """

    way: Way | None
    fault: Fault | None
    minutes: float
    bits: float
    alike: tuple[Fault, ...] = ()

    @property
    def bits_a_minute(self) -> float:
        """Information to expect in a minute [bit/min]; without end where it takes no time."""
        return self.bits / self.minutes if self.minutes else math.inf


@dataclass(frozen=True, slots=True)
class Case:
    """A suspect that shows some of the signs which it can show and need not.

    Args:
        suspect: the suspect.
        weight: its odds, shared evenly among its cases [1].
        shows: keys of those signs.
    """

    suspect: Suspect
    weight: float
    shows: frozenset[str] = frozenset()

    def outcome(self, signs: Iterable[Sign]) -> Signature:
        """Return the keys of the signs that are seen."""
        ids = self.suspect.ids
        return frozenset(
            sign.key
            for sign in signs
            if sign.shown(ids) is Shown.ON
            or (sign.key in self.shows and sign.shown(ids) is Shown.MAYBE)
        )


def known_signs(observations: Iterable[Observation]) -> frozenset[str]:
    """Return the keys of signs of which it is known whether they are seen."""
    return frozenset(
        sign.key
        for each in observations
        if not each.seen or len(each.signs) == 1
        for sign in each.signs
    )


def telling(
    signs: Iterable[Sign], suspects: Sequence[Suspect], minutes: Mapping[Way, float]
) -> tuple[Sign, ...]:
    """Return the signs that tell suspects apart.

    One of them is sure to show it; and where others can show it and need not, the look takes no
    time, so that it comes first and those are told apart by whether they do.

    Args:
        signs: signs of which nothing is known yet.
        suspects: the suspects.
        minutes: minutes of each way of looking that there is [min].
    """
    found = []
    for sign in signs:
        shown = {sign.shown(each.ids) for each in suspects}
        free = minutes.get(sign.way) == 0
        if sign.way in minutes and Shown.ON in shown and (free or Shown.MAYBE not in shown):
            found.append(sign)
    return tuple(found)


def cases_of(suspects: Iterable[Suspect], signs: Sequence[Sign]) -> tuple[Case, ...]:
    """Return every suspect that has odds, with and without each sign that it need not show."""
    return tuple(case for each in suspects if each.odds for case in _cases(each, signs))


def _cases(suspect: Suspect, signs: Iterable[Sign]) -> Iterator[Case]:
    keys = [sign.key for sign in signs if sign.shown(suspect.ids) is Shown.MAYBE]
    weight = float(suspect.odds or 0) / 2 ** len(keys)
    for shown in itertools.product((False, True), repeat=len(keys)):
        yield Case(suspect, weight, frozenset(itertools.compress(keys, shown)))


def check_of_look(cases: Sequence[Case], signs: Iterable[Sign], way: Way, minutes: float) -> Check:
    """Return what a look tells.

    Args:
        cases: what can be.
        signs: the signs that tell suspects apart.
        way: the way of looking.
        minutes: how long it takes [min].
    """
    looked = [sign for sign in signs if sign.way == way]
    return Check(way, None, minutes, _told(cases, [case.outcome(looked) for case in cases]))


def check_of_swap(cases: Sequence[Case], fault: Fault, minutes: float) -> Check:
    """Return what the swap of a part tells: whether it is one of the faults."""
    return Check(None, fault, minutes, _told(cases, [fault.id in c.suspect.ids for c in cases]))


def _told(cases: Sequence[Case], outcomes: Sequence[Hashable]) -> float:
    """Return the entropy of outcomes that are certain in each case [bit]."""
    odds: dict[Hashable, float] = {}
    for case, outcome in zip(cases, outcomes, strict=True):
        odds[outcome] = odds.get(outcome, 0.0) + case.weight
    return entropy(list(odds.values())) if odds else 0.0


def ranked(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Return checks that tell something, by information in a minute, those alike together."""
    best = sorted(
        (each for each in checks if each.bits > 0), key=lambda c: (-c.bits_a_minute, -c.bits)
    )
    found: dict[tuple[object, ...], Check] = {}
    for check in best:
        kind = check.fault.kind if check.fault else None
        key = (check.way, kind, check.minutes, round(check.bits, 9))
        first = found.get(key)
        if first is None or check.fault is None:
            found[key] = check
        else:
            alike = (*first.alike, check.fault)
            found[key] = Check(first.way, first.fault, first.minutes, first.bits, alike)
    return tuple(found.values())
