"""The quiz as a paper: questions drawn by chance from a seed, and a page of proven answers."""

from __future__ import annotations

import itertools
import random
from collections.abc import Callable, Iterator
from functools import partial

from baywright.desk.guide.writer import Writer
from baywright.desk.sheets.asked import Desk
from baywright.desk.sheets.brief import apart, brief_maxima
from baywright.desk.sheets.quiz.numbers import most_puzzle, scope_puzzle, together_puzzle
from baywright.desk.sheets.quiz.puzzle import SLIPS, Bench, Puzzle
from baywright.desk.sheets.quiz.records import day_puzzle, unit_puzzle
from baywright.laws.wording import capitalised
from baywright.papers.document import Block, Bullets, Line, Paragraph, Run

PATIENCE = 60
"""Draws in a row that may give nothing new before a quiz ends."""

LETTERS = "ABCD"


def puzzles(writer: Writer, seed: int) -> Iterator[Puzzle]:
    """Yield questions without end, none twice, until nothing new is drawn for long.

    Args:
        writer: answers the queries.
        seed: the same seed gives the same questions.
    """
    bench = Bench(writer, random.Random(seed))  # noqa: S311 - a quiz is no secret
    pairs = apart(writer, brief_maxima(writer))
    most = partial(most_puzzle, bench)
    makers: list[Callable[[], Puzzle | None]] = [
        *(most, most, most),
        partial(scope_puzzle, bench),
        partial(together_puzzle, bench, pairs),
        partial(day_puzzle, bench),
        partial(unit_puzzle, bench),
    ]
    asked: set[str] = set()
    idle = 0
    for make in _turns(makers, bench.chance):
        found = make()
        idle = idle + 1 if found is None or _key(found) in asked else 0
        if idle > PATIENCE:
            return
        if found is not None and idle == 0:
            asked.add(_key(found))
            yield found


def _key(found: Puzzle) -> str:
    """Return what makes a question another one: its words, and what is right."""
    return f"{found.says} {found.right.says}"


def _turns(
    makers: list[Callable[[], Puzzle | None]], chance: random.Random
) -> Iterator[Callable[[], Puzzle | None]]:
    """Yield makers without end, each round in another order."""
    while True:
        yield from chance.sample(makers, len(makers))


class Quiz:
    """What the template of a quiz may call.

    Args:
        desk: what the parts of the sheet share.
    """

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        drawn = puzzles(desk.writer, desk.asked.seed)
        self._puzzles = list(itertools.islice(drawn, desk.asked.count))

    def questions(self) -> str:
        """Return the questions with their options."""
        blocks: list[Block] = []
        for number, each in enumerate(self._puzzles, 1):
            blocks.append(Paragraph((Run(f"{number}. {each.says}", "strong"),)))
            lettered = zip(LETTERS, each.options, strict=False)
            blocks.append(Bullets(tuple((Run(f"{x}  {o.says}"),) for x, o in lettered)))
        return self._desk.blocks(*blocks)

    def answers(self) -> str:
        """Return the right option of each question, and what is wrong with the others."""
        blocks: list[Block] = []
        for number, each in enumerate(self._puzzles, 1):
            letter = LETTERS[each.options.index(each.right)]
            said = Run(f"{letter}, {each.right.says}", "strong", each.right.proof)
            proof = Run(f". {self._words(each.right.proof)}", "plain", each.right.proof)
            blocks.append(Paragraph((Run(f"{number}. "), said, proof)))
            blocks.append(Bullets(tuple(self._wrong(each))))
        return self._desk.blocks(*blocks)

    def _wrong(self, each: Puzzle) -> Iterator[Line]:
        for letter, option in zip(LETTERS, each.options, strict=False):
            if option.slip:
                words = "" if option.proof == each.right.proof else self._words(option.proof)
                proof = Run(f" {words}".rstrip(), "plain", option.proof)
                yield (Run(f"{letter}, {option.says}: "), Run(SLIPS[option.slip]), proof)

    def _words(self, number: int) -> str:
        return capitalised(self._desk.writer.statements[number - 1].words)
