"""Suspects: what can be behind what is seen, alone or two at once, and with what odds."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.service.faults.found import Fault
from baywright.service.faults.signs import Shown, Sign

PERHAPS = Fraction(1, 2)
"""Likelihood that a sign which a fault can show is shown; nobody states more of it."""


@dataclass(frozen=True, slots=True)
class Observation:
    """What somebody has seen, or has looked for and not seen.

    Args:
        text: as typed.
        seen: whether it is seen.
        signs: the signs it means; one of them is seen, or none is.
    """

    text: str
    seen: bool
    signs: tuple[Sign, ...]

    def likelihood(self, faults: Sequence[str]) -> Fraction:
        """Return how likely it is with some faults [1]: 1, 0, or one half for what may be."""
        shown = max((sign.shown(faults) for sign in self.signs), default=Shown.OFF)
        if shown is Shown.MAYBE:
            return PERHAPS
        return Fraction((shown is Shown.ON) == self.seen)


@dataclass(frozen=True, slots=True)
class Suspect:
    """One fault, or two at once, that can be behind what is seen.

    Args:
        faults: the faults.
        match: likelihood of all that is seen with them [1].
        odds: share of the odds of all suspects, or ``None`` where a rate is not stated.
        masked: signs that these faults hide from each other or from everybody.
    """

    faults: tuple[Fault, ...]
    match: Fraction
    odds: Fraction | None
    masked: tuple[Sign, ...] = ()

    @property
    def ids(self) -> tuple[str, ...]:
        """Ids of the faults."""
        return tuple(fault.id for fault in self.faults)


@dataclass(frozen=True, slots=True)
class Explained:
    """What can be behind what is seen.

    Args:
        suspects: the suspects, the likeliest first; one fault each where one can explain it.
        closest: where nothing can, the faults that miss least, with the observations they miss.
    """

    suspects: tuple[Suspect, ...]
    closest: tuple[tuple[Fault, tuple[Observation, ...]], ...] = ()

    @property
    def faults_at_once(self) -> int:
        """How many faults it takes; 0 where not even two are enough."""
        return len(self.suspects[0].faults) if self.suspects else 0


def explain(
    faults: Sequence[Fault], observations: Sequence[Observation], signs: Sequence[Sign]
) -> Explained:
    """Return what can be behind what is seen: single faults, else pairs of which it takes both.

    Odds are those of independent Poisson processes: given that one fault has come, it is i with
    rate(i) / sum of rates; given two, they are i and j with rate(i) × rate(j) over the sum of such
    products. Each is weighed with its match and the rest is scaled to 1.

    Args:
        faults: what can be at fault.
        observations: what is seen, and what is not.
        signs: all signs of the build, to say which of them are masked.
    """
    for number in (1, 2):
        found = tuple(_explaining(itertools.combinations(faults, number), observations))
        if found:
            return Explained(tuple(_ranked(found, signs)))
    return Explained((), _closest(faults, observations))


def match_of(ids: Sequence[str], observations: Iterable[Observation]) -> Fraction:
    """Return the likelihood of all observations with some faults [1]."""
    match = Fraction(1)
    for observation in observations:
        match *= observation.likelihood(ids)
        if not match:
            break
    return match


def _explaining(
    sets: Iterable[tuple[Fault, ...]], observations: Sequence[Observation]
) -> Iterator[tuple[tuple[Fault, ...], Fraction]]:
    for each in sets:
        match = match_of([fault.id for fault in each], observations)
        if match:
            yield each, match


def _ranked(
    found: Sequence[tuple[tuple[Fault, ...], Fraction]], signs: Sequence[Sign]
) -> list[Suspect]:
    weights = [_weight(faults, match) for faults, match in found]
    total = sum((weight for weight in weights if weight is not None), Fraction(0))
    suspects = [
        Suspect(
            faults,
            match,
            None if weight is None or not total else weight / total,
            _masked(faults, signs),
        )
        for (faults, match), weight in zip(found, weights, strict=True)
    ]
    return sorted(suspects, key=lambda each: (each.odds is None, -(each.odds or 0)))


def _weight(faults: Iterable[Fault], match: Fraction) -> Fraction | None:
    weight = match
    for fault in faults:
        if fault.rate is None:
            return None
        weight *= fault.rate
    return weight


def _masked(faults: Sequence[Fault], signs: Iterable[Sign]) -> tuple[Sign, ...]:
    ids = [fault.id for fault in faults]
    return tuple(sign for sign in signs if sign.masked(ids))


def _closest(
    faults: Sequence[Fault], observations: Sequence[Observation]
) -> tuple[tuple[Fault, tuple[Observation, ...]], ...]:
    missed = [
        (fault, tuple(each for each in observations if not each.likelihood([fault.id])))
        for fault in faults
    ]
    least = min((len(each) for _, each in missed), default=0)
    return tuple(pair for pair in missed if len(pair[1]) == least)
