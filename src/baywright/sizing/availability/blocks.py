"""Reliability blocks over arrays of builds: what each function needs, and how it can fail.

A block is a part, parts alike with some to spare, parts in series, or supplies on feeds. Its odds
are computed for all builds at once; for one build it unfolds into a fault tree, which gives the
cut sets and the same odds by another way.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from baywright.sizing.availability.fault_tree import Event, Gate, Tree, series
from baywright.sizing.availability.repair import any_down, more_than
from baywright.sizing.equation import Floats, Reals

Odds: TypeAlias = Callable[[Floats], Floats]
"""Turns failures of one part in a year into the odds that it is down."""

MOST_FEEDS = 8
"""More feeds than this would take too long: each may be up or down."""


@dataclass(frozen=True, slots=True)
class One:
    """One part.

    Args:
        name: what it is, with its place where that matters.
        yearly: failures in a year, for each build [1]; not-a-number where nobody said.
        lacks: path of the fact that is missing, if it is.
    """

    name: str
    yearly: Floats
    lacks: str = ""


@dataclass(frozen=True, slots=True)
class Several:
    """Blocks alike, some of which may fail; none at all never fail.

    Args:
        name: what they are together.
        each: one of them.
        count: how many each build has; not-a-number where it has none and needs some.
        spare: how many may be down.
    """

    name: str
    each: Block
    count: Reals
    spare: Floats = 0.0


@dataclass(frozen=True, slots=True)
class Chain:
    """Blocks in series: it fails with the first of them.

    Args:
        name: what they do together.
        links: the blocks.
    """

    name: str
    links: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Fed:
    """Supplies on feeds: a feed that fails takes away every supply on it.

    Args:
        name: what they are together.
        each: one supply.
        on: for each feed, how many supplies of each build are on it.
        feeds: the feeds.
        spare: how many supplies may be down, by whatever cause.
    """

    name: str
    each: One
    on: tuple[Reals, ...]
    feeds: tuple[One, ...]
    spare: Floats

    def __post_init__(self) -> None:
        """Refuse more feeds than can be gone through."""
        if len(self.feeds) > MOST_FEEDS:
            raise ValueError(f"{len(self.feeds)} feeds; at most {MOST_FEEDS} can be computed")


Block: TypeAlias = One | Several | Chain | Fed


def odds_down(block: Block, odds: Odds) -> Reals:
    """Return the odds that a block is down, for each build.

    Args:
        block: the block.
        odds: odds of one part from its failures in a year.

    Returns:
        Odds [1]; not-a-number where a part that is fitted has no rate.
    """
    match block:
        case One():
            return np.asarray(odds(block.yearly), float)
        case Several():
            tail = more_than(block.spare, block.count, odds_down(block.each, odds))
            return np.where(np.equal(block.count, 0), 0.0, tail)
        case Chain():
            return np.asarray(any_down(*(odds_down(link, odds) for link in block.links)))
        case Fed():
            return _odds_fed(block, odds)


def _odds_fed(block: Fed, odds: Odds) -> Reals:
    """Sum over every set of feeds that may be down; supplies on the others fail on their own."""
    total = np.zeros(())
    down = [np.asarray(odds(feed.yearly), float) for feed in block.feeds]
    supply = odds_down(block.each, odds)
    for states in itertools.product((False, True), repeat=len(block.feeds)):
        weight = math.prod(
            (q if failed else 1 - q for q, failed in zip(down, states, strict=True)),
            start=np.ones(()),
        )
        dead = _on(block, states, failed=True)
        alive = _on(block, states, failed=False)
        total = total + weight * more_than(np.subtract(block.spare, dead), alive, supply)
    return np.asarray(total)


def _on(block: Fed, states: tuple[bool, ...], *, failed: bool) -> Reals:
    chosen = (count for count, state in zip(block.on, states, strict=True) if state is failed)
    return sum(chosen, np.zeros(np.shape(block.on[0])))


def lacking(block: Block) -> Iterator[str]:
    """Yield the paths of missing rates of parts that some build has."""
    match block:
        case One():
            if block.lacks:
                yield block.lacks
        case Several():
            if np.any(block.count > 0):
                yield from lacking(block.each)
        case Chain():
            for link in block.links:
                yield from lacking(link)
        case Fed():
            if any(np.any(count > 0) for count in block.on):
                yield from lacking(block.each)
                for feed in block.feeds:
                    yield from lacking(feed)


def singles(block: Block) -> Reals:
    """Return how many single parts bring a block down, for each build."""
    match block:
        case One():
            return np.ones(())
        case Several():
            alone = block.count * singles(block.each)
            return _unless_known(np.where(np.asarray(block.spare) < 1, alone, 0.0), block)
        case Chain():
            return np.asarray(sum(singles(link) for link in block.links))
        case Fed():
            fatal = sum(np.where(count > block.spare, 1.0, 0.0) for count in block.on)
            whole = sum(block.on, np.zeros(()))
            alone = np.where(np.asarray(block.spare) < 1, whole, 0.0)
            return np.where(np.isnan(block.spare), np.nan, fatal + alone)


def _unless_known(found: Reals, block: Several) -> Reals:
    """Return what was found, but not-a-number where nobody knows how many there are to spare."""
    unknown = np.isnan(block.count) | (np.isnan(block.spare) & (block.count > 0))
    return np.where(unknown, np.nan, found)


def tree_of(block: Block, odds: Odds, build: int = 0) -> Tree:
    """Return the fault tree of a block in one build.

    Args:
        block: the block.
        odds: odds of one part from its failures in a year.
        build: position of the build.
    """
    return _unfolded(block, odds, build, "")


def _unfolded(block: Block, odds: Odds, build: int, label: str) -> Tree:
    name = f"{block.name}{label}"
    match block:
        case One():
            return Event(name, _at(odds(block.yearly), build))
        case Several():
            count = int(_at(block.count, build))
            # Of none there is nothing to spare, whatever the site asks for or leaves open.
            spare = int(_at(block.spare, build)) if count else 0
            labels = [f"{label} {i}" if count > 1 else label for i in range(1, count + 1)]
            copies = tuple(_unfolded(block.each, odds, build, each) for each in labels)
            return Gate(name, max(spare, 0) + 1, copies)
        case Chain():
            return series(name, (_unfolded(link, odds, build, label) for link in block.links))
        case Fed():
            return _unfolded_fed(block, odds, build, name)


def _unfolded_fed(block: Fed, odds: Odds, build: int, name: str) -> Tree:
    feeds = [Event(feed.name, _at(odds(feed.yearly), build)) for feed in block.feeds]
    held = [int(_at(count, build)) for count in block.on]
    fed = [feed for feed, count in zip(feeds, held, strict=True) for _ in range(count)]
    down = _at(odds(block.each.yearly), build)
    supplies = tuple(
        series(f"input of {block.each.name} {i}", (Event(f"{block.each.name} {i}", down), feed))
        for i, feed in enumerate(fed, 1)
    )
    return Gate(name, max(int(_at(block.spare, build)), 0) + 1, supplies)


def _at(values: Floats, build: int) -> float:
    flat = np.ravel(values)
    return float(flat[build] if flat.size > 1 else flat[0])
