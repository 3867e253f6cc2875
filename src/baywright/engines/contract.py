"""The contract that every engine keeps, and the outcomes it can give.

An engine declares in ``can`` which questions it answers. It never falls back to another
engine by itself; asked for what it cannot do, it raises ``Unsupported``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal, Protocol, TypeAlias

from baywright.space import Space

Question = Literal["prove", "best", "options", "count", "each"]


class Unsupported(Exception):  # noqa: N818 - reads as the outcome it is
    """An engine was asked for something it does not declare."""


class OutOfTime(Exception):  # noqa: N818 - reads as the outcome it is
    """An engine reached its limit in a question that has no partial answer."""


@dataclass(frozen=True, slots=True)
class Assumptions:
    """What a question takes for granted beside the space.

    Args:
        allowed: for some choices, the value indices left to choose from.
        without: origin keys whose tables and sums are switched off for this question.
    """

    allowed: Mapping[str, frozenset[int]] = field(default_factory=dict)
    without: frozenset[str] = frozenset()


NOTHING = Assumptions()


@dataclass(frozen=True, slots=True)
class Limit:
    """How long an engine may work on one question, in seconds."""

    seconds: float = 60.0


DEFAULT_LIMIT = Limit()


@dataclass(frozen=True, slots=True)
class Possible:
    """There is a legal build: here is one, complete, by choice name and value index."""

    values: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Impossible:
    """No legal build exists.

    Args:
        core: origin keys that suffice for the refusal, not minimal, or ``None`` when the
            engine does not say. Assumed values are always taken as part of the refusal.
    """

    core: frozenset[str] | None = None


@dataclass(frozen=True, slots=True)
class Best:
    """The least value of an objective, proven, with a build that reaches it."""

    value: int
    values: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Cut:
    """Stopped by the limit. It never reads as no.

    Args:
        value: the best objective value reached, if any.
        values: the build that reaches it, if any.
        bound: no build can have an objective value below this, if known.
    """

    value: int | None = None
    values: Mapping[str, int] | None = None
    bound: int | None = None


@dataclass(frozen=True, slots=True)
class Objective:
    """Whole numbers per value, added over choices, to be made as small as possible."""

    weights: tuple[tuple[str, tuple[int, ...]], ...]

    def value(self, assignment: Mapping[str, int]) -> int:
        """Return the total over a complete assignment."""
        return sum(weights[assignment[name]] for name, weights in self.weights)

    def negated(self) -> Objective:
        """Return the objective whose least value is the greatest of this one."""
        return Objective(tuple((n, tuple(-w for w in ws)) for n, ws in self.weights))


Proof: TypeAlias = Possible | Impossible | Cut
Optimum: TypeAlias = Best | Impossible | Cut


class Engine(Protocol):
    """What an engine offers. Every method takes a space that it must not change."""

    @property
    def name(self) -> str:
        """Name that is shown with the answer."""

    @property
    def can(self) -> frozenset[Question]:
        """The questions this engine answers."""

    def prove(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Proof:
        """Find a legal build, or prove that none exists."""

    def best(
        self,
        space: Space,
        objective: Objective,
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Optimum:
        """Find the least value of the objective over all legal builds, with proof."""

    def options(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Mapping[str, frozenset[int]]:
        """Return, for every choice, the values that some legal build has.

        Raises ``OutOfTime`` at the limit.
        """

    def count(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> int:
        """Return the exact number of legal builds, told apart by the choices not derived.

        Raises ``OutOfTime`` at the limit.
        """

    def each(
        self,
        space: Space,
        over: tuple[str, ...],
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Iterator[tuple[int, ...]]:
        """Yield each row of values of ``over`` that some legal build has, once, in no set order.

        Raises ``OutOfTime`` at the limit, after the rows found by then.
        """
