"""One fact changed at random: verifying names exactly the statements that a full look finds."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from baywright.desk.fact_table import change_fact, seen_of
from baywright.desk.guide.verifying import verified
from baywright.desk.opening import open_book
from baywright.desk.statements.query import Query
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement
from baywright.desk.statements.stating import state
from baywright.problems import Problems
from tests.desk.guide.guides import copied, guide_of

_NUMBER = re.compile(r"\d+(?:\.\d+)?")


def other_value(text: str, chance: random.Random) -> str:
    """Return a value somewhat like another: a number moved, or a word put behind it."""
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
        return f"{text[:-2]}{chance.randint(1, 28):02}"
    match = _NUMBER.search(text.replace(",", ""))
    if match is None:
        return f"{text} x"
    moved = chance.choice(("1", "2", "3", "5", "8", "13", "21", "40", "100"))
    return text.replace(",", "").replace(match[0], moved, 1)


def changed_books(name: str, folder: Path, number: int, seed: int) -> Iterator[tuple[str, Path]]:
    """Yield copies of a book, each with one fact changed so that the book is still sound."""
    chance = random.Random(seed)  # noqa: S311 - a test draws the same each time
    paths = [s.query.text for s in guide_of(name).statements if s.query.kind == "fact"]
    made = 0
    while made < number:
        path = chance.choice(paths)
        copy = copied(name, folder / str(made))
        held = open_book(copy)
        text = next(
            str(s.value["value"]) for s in guide_of(name).statements if s.query.text == path
        )
        new = other_value(text, chance)
        if new == text:
            continue
        try:
            change_fact(held, path, new, seen_of(held, path))
            open_book(copy).in_worlds(lambda machine: machine)
        except Problems:
            continue
        made += 1
        yield path, copy


def differing(statements: tuple[Statement, ...], book: Path) -> set[Query]:
    """Return the queries that come out otherwise when every one is answered anew."""
    shared = Shared(open_book(book))
    found = set()
    for statement in statements:
        try:
            same = state(shared, statement.query).value == statement.value
        except Problems:
            same = False
        if not same:
            found.add(statement.query)
    return found


def check(name: str, folder: Path, number: int, seed: int) -> None:
    statements = guide_of(name).statements
    for path, book in changed_books(name, folder, number, seed):
        found = verified(open_book(book), statements)
        assert found.stopped == (), path
        named = {each.statement.query for each in found.failed}
        assert named == differing(statements, book), path
        assert Query("fact", path) in named


def test_a_changed_fact_is_found_with_all_that_hangs_on_it(tmp_path: Path) -> None:
    check("p1", tmp_path, 3, seed=20310701)


@pytest.mark.slow
@pytest.mark.timeout(3600)
@pytest.mark.parametrize(("name", "number", "seed"), [("p1", 70, 1), ("f1", 25, 2), ("f2", 5, 3)])
def test_a_hundred_changed_facts(name: str, number: int, seed: int, tmp_path: Path) -> None:
    check(name, tmp_path, number, seed)
