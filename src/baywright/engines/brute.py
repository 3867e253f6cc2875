"""The brute engine: backtracking over every build, with checks simple enough to be believed.

It is the oracle of the tests, and can prove small refusals again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TypeAlias

from baywright.engines.contract import (
    DEFAULT_LIMIT,
    NOTHING,
    Assumptions,
    Best,
    Cut,
    Impossible,
    Limit,
    Objective,
    Optimum,
    OutOfTime,
    Possible,
    Proof,
    Question,
)
from baywright.engines.preparation import Deadline, check_objective, open_values
from baywright.space import Law, Space, Sum, Table, holds

_Check: TypeAlias = Callable[[Mapping[str, int]], bool]
"""Says whether a law can still hold, given the choices made so far."""


class Brute:
    """Answers every question about small spaces; it names no core."""

    name = "brute"
    can: frozenset[Question] = frozenset(("prove", "best", "options", "count", "each"))

    def prove(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Proof:
        """Find a legal build, or prove that none exists."""
        try:
            found = next(_builds(space, assumptions, limit), None)
        except OutOfTime:
            return Cut()
        return Impossible() if found is None else Possible(found)

    def best(
        self,
        space: Space,
        objective: Objective,
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Optimum:
        """Find the least value of the objective by looking at every legal build."""
        check_objective(space, objective)
        least: tuple[int, Mapping[str, int]] | None = None
        try:
            for build in _builds(space, assumptions, limit):
                value = objective.value(build)
                if least is None or value < least[0]:
                    least = value, build
        except OutOfTime:
            return Cut() if least is None else Cut(*least)
        return Impossible() if least is None else Best(*least)

    def options(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> Mapping[str, frozenset[int]]:
        """Return, for every choice, the values that some legal build has."""
        found: dict[str, set[int]] = {choice.name: set() for choice in space.choices}
        for build in _builds(space, assumptions, limit):
            for name, value in build.items():
                found[name].add(value)
        return {name: frozenset(values) for name, values in found.items()}

    def count(
        self, space: Space, assumptions: Assumptions = NOTHING, limit: Limit = DEFAULT_LIMIT
    ) -> int:
        """Return the exact number of legal builds, told apart by the choices not derived."""
        own = tuple(choice.name for choice in space.choices if not choice.derived)
        return sum(1 for _ in self.each(space, own, assumptions, limit))

    def each(
        self,
        space: Space,
        over: tuple[str, ...],
        assumptions: Assumptions = NOTHING,
        limit: Limit = DEFAULT_LIMIT,
    ) -> Iterator[tuple[int, ...]]:
        """Yield each row of values of ``over`` that some legal build has, once."""
        seen: set[tuple[int, ...]] = set()
        for build in _builds(space, assumptions, limit):
            row = tuple(build[name] for name in over)
            if row not in seen:
                seen.add(row)
                yield row


def _builds(space: Space, assumptions: Assumptions, limit: Limit) -> Iterator[dict[str, int]]:
    """Yield every legal build, making the choices in the order of the space."""
    deadline = Deadline(limit)
    left = open_values(space, assumptions)
    laws = [law for law in space.laws if law.origin.key not in assumptions.without]
    order = [(name, left[name], _checks(name, laws, left)) for name in left]
    made: dict[str, int] = {}

    def extend(depth: int) -> Iterator[dict[str, int]]:
        if depth == len(order):
            yield dict(made)
            return
        name, values, checks = order[depth]
        for made[name] in values:
            deadline.check()
            if all(check(made) for check in checks):
                yield from extend(depth + 1)
        made.pop(name, None)

    if all(holds(law, {}) for law in laws if not law.scope):
        yield from extend(0)


def _checks(name: str, laws: list[Law], left: Mapping[str, tuple[int, ...]]) -> list[_Check]:
    """Return the checks to make once a choice is made: those of the laws over it."""
    made = tuple(left)[: tuple(left).index(name) + 1]
    return [
        _table_check(law, made) if isinstance(law, Table) else _sum_check(law, made, left)
        for law in laws
        if name in law.scope
    ]


def _table_check(table: Table, made: tuple[str, ...]) -> _Check:
    """Some allowed row begins with what is chosen so far."""
    columns = [column for column, name in enumerate(table.scope) if name in made]
    names = [table.scope[column] for column in columns]
    starts = {tuple(row[column] for column in columns) for row in table.rows}
    return lambda build: tuple(build[name] for name in names) in starts


def _sum_check(total: Sum, made: tuple[str, ...], left: Mapping[str, tuple[int, ...]]) -> _Check:
    """The total so far, and the least that the rest can add, stay within the bound."""
    weights = [(name, of_value) for name, of_value in total.weights if name in made]
    rest = sum(
        min((of_value[v] for v in left[name]), default=0)
        for name, of_value in total.weights
        if name not in made
    )
    return lambda build: sum(w[build[name]] for name, w in weights) + rest <= total.at_most
