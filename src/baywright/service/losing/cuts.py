"""Minimal cut sets of one and of two things, by going through every one and every pair."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias, TypeVar

import numpy as np
import numpy.typing as npt

from baywright.service.losing.nodes import Node, Scenarios, Truths

T = TypeVar("T")

Index: TypeAlias = npt.NDArray[np.int_]
"""For each pair, the positions of its two things."""


@dataclass(frozen=True, slots=True)
class Cuts:
    """What ends a function.

    Args:
        singles: things that end it alone.
        pairs: pairs that end it together, neither of them alone.
        always: whether it does not even hold with everything there.
    """

    singles: tuple[str, ...]
    pairs: tuple[tuple[str, str], ...]
    always: bool = False


def cuts_of(nodes: Sequence[Node], things: Sequence[str]) -> list[Cuts]:
    """Return the minimal cut sets of one and two things of each node.

    Every scenario of one and of two losses is looked at, so none is left out. That takes time
    with the square of the number of things: 300 of them are 45,150 scenarios.

    Args:
        nodes: the functions.
        things: ids of all things.
    """
    number = len(things)
    index = np.array(list(itertools.combinations(range(number), 2)), int).reshape(-1, 2)
    lost = np.zeros((1 + number + len(index), number), bool)
    lost[1 : number + 1] = np.eye(number, dtype=bool)
    rows = np.arange(number + 1, len(lost))
    lost[rows[:, None], index] = True
    scenarios = Scenarios(things, lost)
    return [_read(scenarios.holds(node), things, index) for node in nodes]


def _read(holds: Truths, things: Sequence[str], index: Index) -> Cuts:
    if not holds[0]:
        return Cuts((), (), always=True)
    number = len(things)
    alone = ~holds[1 : number + 1]
    together = ~holds[number + 1 :] & ~alone[index].any(axis=1)
    return Cuts(
        tuple(thing for thing, ends in zip(things, alone, strict=True) if ends),
        tuple((things[a], things[b]) for a, b in index[together]),
    )


@dataclass(frozen=True, slots=True)
class Pairing:
    """Pairs said together: a thing of one group with a thing of any other group.

    Args:
        groups: two groups of things or more; any two of a, b and c are three groups of one.
    """

    groups: tuple[tuple[str, ...], ...]

    @property
    def pairs(self) -> Iterator[tuple[str, str]]:
        """The pairs themselves."""
        for one, other in itertools.combinations(self.groups, 2):
            yield from itertools.product(one, other)


def paired(pairs: Iterable[tuple[str, str]]) -> tuple[Pairing, ...]:
    """Return pairs in few groups; each pair is in exactly one.

    Things that make pairs with the same others are one group. Groups that all make pairs with each
    other, and with the same others, are said together.

    >>> [each.groups for each in paired([("a", "b"), ("a", "c"), ("b", "c")])]
    [(('a',), ('b',), ('c',))]
    """
    beside: dict[str, set[str]] = {}
    for one, other in pairs:
        beside.setdefault(one, set()).add(other)
        beside.setdefault(other, set()).add(one)
    return tuple(_pairings(beside))


def _pairings(beside: dict[str, set[str]]) -> Iterator[Pairing]:
    groups = _classes(list(beside), lambda one, other: beside[one] == beside[other])
    joined = _classes(groups, lambda one, other: _together(beside, one, other))
    for each in joined:
        if len(each) > 1:
            yield Pairing(each)
    for first, second in itertools.combinations(joined, 2):
        if second[0][0] in beside[first[0][0]]:
            yield Pairing((tuple(itertools.chain(*first)), tuple(itertools.chain(*second))))


def _together(beside: dict[str, set[str]], one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """Say whether two groups make pairs with each other, and with the same others."""
    mine, theirs = beside[one[0]], beside[other[0]]
    return mine - set(other) == theirs - set(one) and other[0] in mine


def _classes(members: Sequence[T], alike: Callable[[T, T], bool]) -> list[tuple[T, ...]]:
    """Return members in classes of those alike; each is compared with the first of a class."""
    classes: list[tuple[T, ...]] = []
    for member in members:
        place = next((i for i, each in enumerate(classes) if alike(each[0], member)), None)
        if place is None:
            classes.append((member,))
        else:
            classes[place] = (*classes[place], member)
    return classes
