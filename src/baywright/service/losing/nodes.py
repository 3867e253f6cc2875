"""Monotone functions over things that stand or are lost.

A node holds while enough of what it needs holds. Nothing in it can be helped by a loss, so losing
more never restores anything.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from baywright.facts.citation import Citation

Truths: TypeAlias = npt.NDArray[np.bool_]

TOLERANCE = 1e-9
"""A sum on its bound is enough, whatever its last binary digit says."""


@dataclass(frozen=True, slots=True)
class Ground:
    """Why a function needs what it needs.

    Args:
        key: id of the law, or a name of our own where no law of the book says it.
        sentence: what holds, one sentence.
        facts: the facts it stands on.
    """

    key: str
    sentence: str
    facts: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Up:
    """Holds while one thing stands.

    Args:
        thing: id of the thing.
    """

    thing: str


@dataclass(frozen=True, slots=True, eq=False)
class Enough:
    """Holds while the weights of the inputs that hold come to enough.

    Args:
        need: least sum of weights.
        inputs: nodes with their weights, none below 0.
        because: why it needs that.
    """

    need: float
    inputs: tuple[tuple[Node, float], ...]
    because: Ground | None = None

    def __post_init__(self) -> None:
        """Refuse a weight that a loss could help."""
        if any(not weight >= 0 for _, weight in self.inputs):
            raise ValueError("a weight is a number of 0 or more")


Node: TypeAlias = Up | Enough


def every(*nodes: Node, because: Ground | None = None) -> Enough:
    """Return a node that needs all of some; it always holds where there are none."""
    return at_least(len(nodes), nodes, because=because)


def some(*nodes: Node, because: Ground | None = None) -> Enough:
    """Return a node that needs one of some; it never holds where there are none."""
    return at_least(1, nodes, because=because)


def at_least(need: int, nodes: Iterable[Node], because: Ground | None = None) -> Enough:
    """Return a node that needs so many of some."""
    return Enough(float(need), tuple((node, 1.0) for node in nodes), because)


@dataclass(eq=False)
class Scenarios:
    """Sets of things that are lost, looked at side by side.

    Args:
        things: ids of all things.
        lost: for each scenario and thing, whether it is lost.
    """

    things: Sequence[str]
    lost: Truths
    _known: dict[Node, Truths] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Number the things."""
        self._column = {thing: i for i, thing in enumerate(self.things)}

    @classmethod
    def of(cls, things: Sequence[str], *lost: Iterable[str]) -> Scenarios:
        """Return scenarios from the things that are lost in each.

        Raises:
            KeyError: for a thing that there is not.
        """
        column = {thing: i for i, thing in enumerate(things)}
        table = np.zeros((len(lost), len(things)), bool)
        for row, each in enumerate(lost):
            table[row, [column[thing] for thing in each]] = True
        return cls(things, table)

    def holds(self, node: Node) -> Truths:
        """Return whether a node holds in each scenario."""
        found = self._known.get(node)
        if found is None:
            found = self._known[node] = self._looked_at(node)
        return found

    def _looked_at(self, node: Node) -> Truths:
        if isinstance(node, Up):
            return np.asarray(~self.lost[:, self._column[node.thing]])
        return np.asarray(self.weight(node.inputs) >= node.need - TOLERANCE * max(1.0, node.need))

    def weight(self, inputs: Iterable[tuple[Node, float]]) -> npt.NDArray[np.float64]:
        """Return the weights of the inputs that hold, added up in each scenario."""
        total = np.zeros(len(self.lost))
        for node, weight in inputs:
            total += np.where(self.holds(node), weight, 0.0)
        return total


def grounds_of(node: Node, scenarios: Scenarios, scenario: int = 0) -> Iterator[Ground]:
    """Yield why a node does not hold in a scenario, from the node down to the things lost."""
    if isinstance(node, Up) or scenarios.holds(node)[scenario]:
        return
    if node.because is not None:
        yield node.because
    for each, weight in node.inputs:
        if weight > 0:
            yield from grounds_of(each, scenarios, scenario)
