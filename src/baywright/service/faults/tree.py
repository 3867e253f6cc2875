"""The decision tree: what is looked at and swapped next, whatever comes out."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias

from baywright.service.faults.search import (
    OWN,
    Counts,
    LookFirst,
    Search,
    Solution,
    State,
    SwapAll,
    SwapFirst,
)

Left: TypeAlias = tuple[tuple[int, ...], ...]
"""Numbers of the faults that are left, by sort."""


@dataclass(frozen=True, slots=True)
class Branch:
    """What a check shows, and what comes then.

    Args:
        outcome: what a look shows; ``OWN`` where each fault shows what no other does, ``None``
            where swaps have not helped.
        faults: numbers of the faults that can still be.
        then: what comes then.
    """

    outcome: Hashable | None
    faults: tuple[int, ...]
    then: Node


@dataclass(frozen=True, slots=True)
class Node:
    """A point of the tree.

    Args:
        number: its number, counted from 1 along the tree.
        faults: numbers of the faults that can still be.
        weight: how likely it is to come here [1].
        minutes: expected minutes from here until the machine is repaired [min].
        look: number of the look, or ``None``.
        swaps: faults that are swapped one after the other, those alike together; a fault that is
            known by now is such a swap, and of faults that each show themselves only that one.
        known: whether each of these faults is known by itself.
        branches: what can come out of a look, or what comes when no swap has helped.
    """

    number: int
    faults: tuple[int, ...]
    weight: float
    minutes: float
    look: int | None = None
    swaps: tuple[tuple[int, ...], ...] = ()
    known: bool = False
    branches: tuple[Branch, ...] = ()


def tree_of(solution: Solution) -> Node:
    """Return the tree of an order of checks, its points numbered."""
    search = solution.search
    left = tuple(each.members for each in search.sorts)
    root = _node(search, left, search.start.looks, search.weight(search.start.counts))
    return _numbered(root, 1)[0]


def nodes_of(node: Node) -> Iterator[Node]:
    """Yield the points of a tree in the order of their numbers."""
    yield node
    for branch in node.branches:
        yield from nodes_of(branch.then)


def _counts(left: Left) -> Counts:
    return tuple(len(members) for members in left)


def _faults(left: Left) -> tuple[int, ...]:
    return tuple(sorted(i for members in left for i in members))


def _node(search: Search, left: Left, looks: frozenset[int], whole: float) -> Node:
    state = State(_counts(left), looks)
    weight = search.weight(state.counts)
    bare = Node(0, _faults(left), weight / whole, search.value(state) / weight if weight else 0.0)
    match search.move(state):
        case LookFirst(look):
            return replace(
                bare, look=look, branches=tuple(_branches(search, left, looks, look, whole))
            )
        case SwapAll(order):
            known = len(bare.faults) == 1
            return replace(bare, swaps=tuple(left[i] for i in order), known=known)
        case SwapFirst():
            return _swapping(search, bare, left, looks, whole)


def _swapping(search: Search, bare: Node, left: Left, looks: frozenset[int], whole: float) -> Node:
    """Return a point at which swaps come first, as many in a row as there are."""
    swaps: list[tuple[int, ...]] = []
    last = -1
    while isinstance(move := search.move(State(_counts(left), looks)), SwapFirst):
        i, taken = move.sort, left[move.sort][:1]
        swaps[-1:] = [(*swaps[-1], *taken)] if i == last else [*swaps[-1:], taken]
        left, last = (*left[:i], left[i][1:], *left[i + 1 :]), i
    if isinstance(move, SwapAll):
        return replace(bare, swaps=(*swaps, *(left[i] for i in move.order)))
    then = _node(search, left, looks, whole)
    return replace(bare, swaps=tuple(swaps), branches=(Branch(None, then.faults, then),))


def _branches(
    search: Search, left: Left, looks: frozenset[int], look: int, whole: float
) -> Iterator[Branch]:
    groups: dict[Hashable, dict[int, tuple[int, ...]]] = {}
    for i, members in enumerate(left):
        outcome = search.sorts[i].outcomes[look]
        if members and outcome == OWN:
            yield Branch(OWN, members, _each_known(search, i, members, whole))
        elif members:
            groups.setdefault(outcome, {})[i] = members
    for outcome, held in groups.items():
        then = tuple(held.get(i, ()) for i in range(len(left)))
        node = _node(search, then, looks - {look}, whole)
        yield Branch(outcome, node.faults, node)


def _each_known(search: Search, sort: int, members: tuple[int, ...], whole: float) -> Node:
    """Return the point at which one of some faults alike has shown itself."""
    each = search.sorts[sort]
    weight = each.weight * len(members)
    return Node(
        0, tuple(sorted(members)), weight / whole, each.minutes or 0.0, swaps=(members,), known=True
    )


def _numbered(node: Node, number: int) -> tuple[Node, int]:
    """Return a tree with its points numbered, and the next number."""
    here, branches = number, []
    number += 1
    for branch in sorted(node.branches, key=_likeliest):
        then, number = _numbered(branch.then, number)
        branches.append(replace(branch, then=then))
    return replace(node, number=here, branches=tuple(branches)), number


def _likeliest(branch: Branch) -> float:
    return -branch.then.weight


def minutes_to(
    node: Node, minutes: Mapping[int, float], looks: Mapping[int, float]
) -> dict[int, float]:
    """Return how long it takes to find and swap each fault, followed down the tree [min].

    Args:
        node: the tree.
        minutes: minutes of the swap of each fault [min].
        looks: minutes of each look [min].
    """
    found: dict[int, float] = {}
    _follow(node, 0.0, minutes, looks, found)
    return found


def _follow(
    node: Node,
    spent: float,
    minutes: Mapping[int, float],
    looks: Mapping[int, float],
    found: dict[int, float],
) -> None:
    if node.look is not None:
        spent += looks[node.look]
    for fault in (i for group in node.swaps for i in group):
        own = spent + minutes.get(fault, 0.0)
        found[fault] = own
        spent = spent if node.known else own
    for branch in node.branches:
        _follow(branch.then, spent, minutes, looks, found)
