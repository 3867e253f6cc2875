"""What stands around the work: the build and its load, the lock, the people at hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from baywright.facts.build import Fitted

Lock: TypeAlias = Literal["open", "key", "closed"]
"""Locks are open; closed with the key at hand; or closed without it."""

Doing: TypeAlias = Literal["replace", "add", "remove"]
"""What is done with the parts."""


@dataclass(frozen=True, slots=True)
class Carry:
    """Whether the supplies that are left carry the load while one is out.

    Args:
        holds: whether they do, or ``None`` while that is not decided.
        says: the load and what is left, one sentence.
    """

    holds: bool | None
    says: str


@dataclass(frozen=True)
class Circumstances:
    """What a plan takes as given.

    Args:
        holds: whether a condition of the book holds in the build.
        places: what the build has in each place.
        system: value of the setting ``system`` in the build, or empty.
        carry: whether one supply may be out while the machine runs.
        mass: mass of the whole machine [kg], or ``None`` while it is not known.
        lock: how the locks are.
        people: people at hand, or ``None`` for as many as it takes.
        keep_running: whether the machine has to run all the time.
        bands: the user's own lifting rule: most mass [kg] and how it is lifted, lightest first.
    """

    holds: Callable[[str], bool]
    places: Mapping[str, Fitted]
    system: str
    carry: Carry
    mass: Fraction | None = None
    lock: Lock = "open"
    people: int | None = None
    keep_running: bool = False
    bands: tuple[tuple[Fraction, str], ...] = ()

    def lifted_by(self, mass: Fraction) -> str:
        """Return how a mass [kg] is lifted by the user's rule, or empty where there is none."""
        found = (by for most, by in self.bands if mass <= most)
        return next(found, "heavier than every band of your rule") if self.bands else ""

    def too_few(self, people: int) -> str:
        """Say that work takes more people than are at hand, or nothing."""
        if self.people is None or people <= self.people:
            return ""
        return f"It takes {people} people, and {self.people} may be counted on."
