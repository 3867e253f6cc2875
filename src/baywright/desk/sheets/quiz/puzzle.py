"""A question of a quiz: its options, each with the statement that proves it right or wrong."""

from __future__ import annotations

import random
from collections.abc import Iterable
from dataclasses import dataclass

from baywright.desk.guide.writer import Writer

LEAST_WRONG, MOST_WRONG = 2, 3
"""How many wrong options a question has."""

SLIPS = {
    "condition": "The condition was dropped.",
    "alone": "That maximum holds only alone.",
    "scope": "Another scope was counted.",
    "share": "That is one processor's share.",
    "unit": "Bits and bytes were mixed up.",
    "generation": "That is the number of the machine before it.",
    "product": "An announcement or a sample was taken for the product.",
    "day": "Another day of the book was taken.",
    "zone": "One zone too many or too few was counted.",
    "one": "One too many or too few was counted.",
    "least": "The least was taken for the most.",
}
"""The kinds of slip, and what is said of each on the page of answers."""


@dataclass(frozen=True, slots=True)
class Option:
    """An option of a question.

    Args:
        says: the option in words.
        proof: number of the statement that proves it right or wrong.
        slip: which slip leads to it, a key of ``SLIPS``; empty for the right one.
    """

    says: str
    proof: int
    slip: str = ""


@dataclass(frozen=True, slots=True)
class Puzzle:
    """A question of a quiz.

    Args:
        says: the question.
        options: its options, in the order in which they stand.
    """

    says: str
    options: tuple[Option, ...]

    @property
    def right(self) -> Option:
        """The right option."""
        return next(each for each in self.options if not each.slip)


def puzzle(
    says: str, right: Option, wrong: Iterable[Option], chance: random.Random
) -> Puzzle | None:
    """Return a question with its options shuffled, or ``None`` when too few are wrong.

    Args:
        says: the question.
        right: the right option.
        wrong: wrong options, the likeliest slip first; of those that read the same one stays, and
            none that reads like the right one.
        chance: shuffles them.
    """
    held: dict[str, Option] = {}
    for each in wrong:
        if each.says != right.says:
            held.setdefault(each.says, each)
    if len(held) < LEAST_WRONG:
        return None
    options = [right, *list(held.values())[:MOST_WRONG]]
    chance.shuffle(options)
    return Puzzle(says, tuple(options))


@dataclass(frozen=True, slots=True)
class Bench:
    """What the makers of questions share.

    Args:
        writer: answers the queries.
        chance: draws what is asked.
    """

    writer: Writer
    chance: random.Random
