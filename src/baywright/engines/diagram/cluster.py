"""Clusters: some choices, and the states that everything chosen among them can leave behind."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.engines.diagram.rules import Rule
from baywright.engines.loops import Ids


@dataclass(frozen=True, slots=True, eq=False)
class Leaf:
    """How a cluster of one choice came about.

    Args:
        choice: number of the choice.
        state_of: the state of each value, -1 for a value that is not left.
    """

    choice: int
    state_of: Ids


@dataclass(frozen=True, slots=True, eq=False)
class Joined:
    """How a cluster of several choices came about.

    Args:
        left: one of the clusters joined.
        right: the other one.
        arcs: rows of a state on the left, a state on the right, and the state they make.
    """

    left: Cluster
    right: Cluster
    arcs: Ids


@dataclass(frozen=True, slots=True, eq=False)
class Cluster:
    """Some choices and their states. A state is a class of each rule that is open.

    A rule is open while some of its choices are inside and some outside.

    Args:
        masks: for each open rule, by its number in rising order, which of its choices are inside.
        states: one row for each state: the class of each open rule, in that order. Each row is
            that of an assignment that really occurs.
        origin: how the cluster came about.
        cost: number of arcs in it and in everything below it.
    """

    masks: dict[int, int]
    states: Ids
    origin: Leaf | Joined
    cost: int

    @property
    def size(self) -> int:
        """Number of states."""
        return len(self.states)

    def columns(self, rules: set[int]) -> list[int]:
        """Return the columns of the states that belong to some rules."""
        return [column for column, rule in enumerate(self.masks) if rule in rules]


def closes(rule: Rule, mask: int) -> bool:
    """Say whether all choices of a rule are in a mask."""
    return mask == (1 << len(rule.scope)) - 1
