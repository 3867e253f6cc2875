"""The spaces that are measured on, and what has been chosen in them when they are asked."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import count, islice
from pathlib import Path

from baywright.desk.opening import Opened, open_book
from baywright.engines.contract import Assumptions
from baywright.engines.diagram import Diagram
from baywright.files.spaces import read_space
from baywright.space import Choice, Origin, Space, Sum
from benchmarks.platforms import HARD, POWER, SHAPES, platform

FILE = Path(__file__).parents[2] / "shared" / "data" / "spaces" / "two-socket.json"
"""A synthetic platform that is kept outside the repository; its note says what is known of it."""

MISSING = f"{FILE.stem} is left out: {FILE.name} does not lie beside the repository."

BOOKS = ("f2", "l4")

SET_FOR = (FILE.stem, "f2")
"""Spaces for which figures were set beforehand."""


@dataclass(frozen=True)
class Ground:
    """A space to measure on.

    Args:
        name: what the tables call it.
        space: the space.
        budget: key of the sum that is left out when a count is to have no budget; the widest
            one that the diagram carries unless given.
    """

    name: str
    space: Space
    budget: str = ""


@cache
def diagram() -> Diagram:
    """Return the diagram engine that all tables share, so that a space is compiled once.

    It has compiled and counted something, so that no table measures what comes once for all.
    """
    engine = Diagram()
    engine.count(platform(SHAPES["one socket"]))
    return engine


@cache
def opened(name: str) -> Opened:
    """Return a bundled book, open on the desk."""
    return open_book(name)


@cache
def grounds() -> tuple[Ground, ...]:
    """Return the file, when it is there, two books, and synthetic platforms of three shapes."""
    made = (Ground(name, platform(shape), POWER) for name, shape in SHAPES.items())
    return (*_file(), *(Ground(name, opened(name).machine.space) for name in BOOKS), *made)


@cache
def hard_grounds() -> tuple[Ground, ...]:
    """Return spaces with a limit for each of many kinds of card, made and of the file."""
    made = tuple(Ground(name, platform(shape), POWER) for name, shape in HARD.items())
    of_file = (
        Ground(f"{ground.name}, {name}", _limited(ground.space, *shape.limits), ground.budget)
        for ground in _file()
        for name, shape in HARD.items()
        if shape.limits
    )
    return (*made, *of_file)


def slack(name: str) -> int:
    """Return by what figures are multiplied that were set for the file and one book.

    On other spaces, an order and cuts that the program finds may cost twice as much.
    """
    return 1 if name in SET_FOR else 2


def note() -> str:
    """Return what is to be said when the file is not there."""
    return "" if FILE.is_file() else MISSING


def slots(space: Space) -> list[Choice]:
    """Return the slots of a platform or of the file."""
    named_in_the_file = {f"s{number}" for number in range(1, 9)}
    return [c for c in space.choices if c.name.startswith("slot ") or c.name in named_in_the_file]


@cache
def _file() -> tuple[Ground, ...]:
    if not FILE.is_file():
        return ()
    held = read_space(FILE)
    return (Ground(FILE.stem, held.space, held.budget_sums[0].origin.key),)


def _limited(space: Space, most: int, kinds: int) -> Space:
    """Return the space with at most so many of each of some kinds of card over all slots."""
    return space.extended(
        sums=(
            Sum(
                tuple((c.name, tuple(int(v == kind) for v in range(c.size))) for c in slots(space)),
                most,
                Origin(f"cards of kind {kind}", "law", f"At most {most} cards of kind {kind}."),
            )
            for kind in range(1, kinds + 1)
        )
    )


def states(space: Space, number: int, most: int = 16) -> list[Assumptions]:
    """Return what somebody has chosen after one choice, two and so on, each among what is left.

    Args:
        space: the space.
        number: how many states are wanted.
        most: choices after which a new session begins.
    """
    sessions = (_session(space, seed, most) for seed in count())
    return list(islice((state for session in sessions for state in session), number))


def _session(space: Space, seed: int, most: int) -> Iterator[Assumptions]:
    chance = random.Random(seed)  # noqa: S311 - a repeatable draw, no secret
    own = [choice.name for choice in space.choices if not choice.derived]
    made: dict[str, frozenset[int]] = {}
    while len(made) < most:
        options = diagram().options(space, Assumptions(made))
        free = [name for name in own if name not in made and len(options[name]) > 1]
        if not free:
            return
        name = chance.choice(free)
        made = {**made, name: frozenset({chance.choice(sorted(options[name]))})}
        yield Assumptions(made)


def filled(space: Space, kinds: int, number: int) -> list[Assumptions]:
    """Return states in which slots hold few kinds of card, so that limits for a kind are reached.

    Args:
        space: a space of ``hard_grounds``.
        kinds: kinds of card that have a limit.
        number: how many states are wanted.
    """
    return [_filled(space, kinds, seed) for seed in range(number)]


def _filled(space: Space, kinds: int, seed: int) -> Assumptions:
    chance = random.Random(seed)  # noqa: S311 - a repeatable draw, no secret
    wanted = set(chance.sample(range(1, kinds + 1), 2))
    names = [slot.name for slot in slots(space)]
    made: dict[str, frozenset[int]] = {}
    for name in chance.sample(names, len(names) - 2):
        left = diagram().options(space, Assumptions(made))[name] & wanted
        if left:
            made[name] = frozenset({chance.choice(sorted(left))})
    return Assumptions(made)
