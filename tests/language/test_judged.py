"""The corpus read and judged: what is called true or false is so, and how much is found.

The held half was not looked at while the grammar was written; only its totals are shown.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from functools import cache

import pytest

from baywright.desk.proofreading.proofreading import Proofreader
from baywright.language.passages import Passage, Place, Remark
from tests.desk.demo import opened
from tests.language.corpus import BOOKS, Half, Statement, all_statements, in_half, statements
from tests.language.mutations import mutations

FIRM = ("true", "false")


@cache
def proofreader(book: str, day: str, altitude: str, inlet: str) -> Proofreader:
    return Proofreader.of(opened(book, day, altitude, inlet))


def remark(entry: Statement) -> Remark:
    held = proofreader(entry.book, entry.as_of, entry.altitude, entry.inlet)
    return held.remark(Passage(entry.text, Place("", 1, 1), 0), correct=False)


@cache
def judged(half: Half) -> Counter[tuple[str, str]]:
    """Return how often a label met a verdict."""
    return Counter((e.verdict, remark(e).kind) for e in in_half(all_statements(), half))


def figures(half: Half) -> dict[str, float]:
    """Return precision and recall of what is called true and false."""
    found = judged(half)
    called = {k: sum(n for (_, kind), n in found.items() if kind == k) for k in FIRM}
    right = {k: found[k, k] for k in FIRM}
    labelled = sum(n for (label, _), n in found.items() if label in FIRM)
    return {
        **{f"precision of {k}": right[k] / called[k] for k in FIRM},
        "recall": sum(right.values()) / labelled,
    }


def wrong(half: Half) -> Iterator[str]:
    for entry in in_half(all_statements(), half):
        kind = remark(entry).kind
        if kind in FIRM and kind != entry.verdict:
            yield f"{entry.text}: {kind} for {entry.verdict}"


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_what_is_called_true_or_false_in_the_tuning_half_is_so() -> None:
    assert list(wrong("tuning")) == []
    sys.stdout.write(f"tuning half: {figures('tuning')}\n")


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_the_held_half_in_totals() -> None:
    shown = figures("held")
    sys.stdout.write(f"held half: {shown}\n")
    assert shown["precision of true"] == 1.0
    assert shown["precision of false"] == 1.0


def passed(entries: Iterable[Statement]) -> Iterator[str]:
    """Yield the changes of true sentences that are called true."""
    for entry in entries:
        if entry.verdict == "true" and remark(entry).kind == "true":
            for each in mutations(entry):
                if remark(each.statement).kind == "true":
                    yield f"{entry.text} -> {each.statement.text}"


@pytest.mark.parametrize("book", ["p1", "f1"])
def test_a_true_sentence_about_a_small_machine_with_one_change_is_not_true(book: str) -> None:
    entries = in_half(statements(book), "tuning")
    assert list(passed(entries[::4])) == []


@pytest.mark.slow
@pytest.mark.timeout(900)
@pytest.mark.parametrize("book", BOOKS)
def test_a_true_sentence_with_one_change_is_never_called_true(book: str) -> None:
    assert list(passed(in_half(statements(book), "tuning"))) == []


@pytest.mark.slow
@pytest.mark.timeout(900)
def test_of_the_held_half_no_change_is_called_true() -> None:
    assert sum(1 for _ in passed(in_half(all_statements(), "held"))) == 0
