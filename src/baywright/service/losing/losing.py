"""A loss: what of a machine is gone with some things, and why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from baywright.service.losing.cuts import Cuts, cuts_of
from baywright.service.losing.graph import Graph
from baywright.service.losing.items import RUNS, STARTS, Function, Measure
from baywright.service.losing.nodes import Ground, Scenarios, grounds_of

BEFORE, AFTER = 0, 1
"""The two scenarios that a loss is read from."""


@dataclass(frozen=True, slots=True)
class Gone:
    """A function that is gone.

    Args:
        function: the function.
        grounds: why, from the function down to what was lost.
        with_machine: whether it is gone only because the machine does not run.
        covered: whether another function is gone that says more.
    """

    function: Function
    grounds: tuple[Ground, ...]
    with_machine: bool = False
    covered: bool = False


@dataclass(frozen=True, slots=True)
class Amount:
    """A number before and after a loss.

    Args:
        measure: what it is.
        before: with everything there.
        after: with what is left.
    """

    measure: Measure
    before: float
    after: float


@dataclass(frozen=True, slots=True)
class Lost:
    """What is lost with some things.

    Args:
        things: ids of the things.
        gone: functions that held before and do not now, the gravest first.
        never: functions that do not hold even with everything there.
        amounts: numbers before and after.
    """

    things: tuple[str, ...]
    gone: tuple[Gone, ...]
    never: tuple[Gone, ...]
    amounts: tuple[Amount, ...]

    @property
    def stops(self) -> bool:
        """Whether the machine stops."""
        return any(each.function.key == RUNS for each in self.gone)

    @property
    def starts(self) -> bool:
        """Whether it can start again without what is lost."""
        return all(each.function.key != STARTS for each in (*self.gone, *self.never))


def lost_with(graph: Graph, things: Iterable[str]) -> Lost:
    """Return what is lost with some things.

    Args:
        graph: the machine.
        things: ids of things.

    Raises:
        KeyError: for a thing that the machine does not have.
    """
    gone = tuple(dict.fromkeys(things))
    scenarios = graph.without((), gone)
    return Lost(
        gone,
        tuple(_gone(graph, scenarios, AFTER)),
        tuple(_gone(graph, scenarios, BEFORE)),
        tuple(_amount(each, scenarios) for each in graph.measures),
    )


def _gone(graph: Graph, scenarios: Scenarios, scenario: int) -> Iterator[Gone]:
    """Yield what does not hold; after a loss, what did not hold before is left out."""
    down = {each.key for each in graph.functions if not scenarios.holds(each.node)[scenario]}
    for function in graph.functions:
        never = scenario == AFTER and not scenarios.holds(function.node)[BEFORE]
        if function.key in down and not never:
            found = _explained(graph, scenarios, scenario, function)
            yield replace(found, covered=function.covered in down)


def _explained(graph: Graph, scenarios: Scenarios, scenario: int, function: Function) -> Gone:
    own = graph.alone[function.key]
    holds_alone = bool(scenarios.holds(own)[scenario])
    why = function.node if holds_alone else own
    grounds = dict.fromkeys(grounds_of(why, scenarios, scenario))
    return Gone(function, tuple(grounds), holds_alone and function.served)


def _amount(measure: Measure, scenarios: Scenarios) -> Amount:
    before, after = scenarios.weight(measure.inputs)
    return Amount(measure, float(before), float(after))


def every_cut(graph: Graph) -> tuple[tuple[Function, Cuts], ...]:
    """Return what ends each function, alone or in pairs, in the order of the functions."""
    found = cuts_of([function.node for function in graph.functions], graph.ids)
    return tuple(zip(graph.functions, found, strict=True))


def single_points(graph: Graph, key: str = RUNS) -> tuple[str, ...]:
    """Return the things whose loss alone ends a function.

    Args:
        graph: the machine.
        key: key of the function; that the machine runs on unless given.
    """
    (found,) = cuts_of([graph.function(key).node], graph.ids)
    return found.singles


def pairs(graph: Graph, key: str = RUNS) -> tuple[tuple[str, str], ...]:
    """Return the pairs of things whose loss together ends a function, neither of them alone."""
    (found,) = cuts_of([graph.function(key).node], graph.ids)
    return found.pairs


def next_points(graph: Graph, lost: Iterable[str], key: str = STARTS) -> tuple[str, ...]:
    """Return the things whose loss ends a function now that some are lost, and did not before.

    Nothing is returned where the function is gone already.
    """
    node, gone = graph.function(key).node, tuple(lost)
    left = [thing for thing in graph.ids if thing not in gone]
    holds = graph.without(gone, *((*gone, thing) for thing in left)).holds(node)
    alone = graph.without(*((thing,) for thing in left)).holds(node)
    ends = zip(left, holds[1:], alone, strict=True)
    return tuple(thing for thing, now, before in ends if holds[0] and before and not now)
