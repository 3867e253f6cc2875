"""Reading and compiling the bundled books, and a mixed list of questions to f2.

Opening a book and its first question are measured apart: an engine keeps what it has made of a
space. The last line is the median over the questions of the list, each taken at its own median.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Iterator
from functools import partial

from baywright.desk.asking import ask
from baywright.desk.judging import judge
from baywright.desk.opening import Opened, conditions, open_book
from baywright.files.books import bundled_books, read_book
from baywright.laws.machine import compile_book
from benchmarks.measure import Case

QUESTIONS = (
    'count(drive, interface="fast") == 24',
    'count(drive, interface="fast") == 24 and O2 != empty',
    'most(count(drive, interface="fast"), given=O2 != empty)',
    "most(load)",
    'least(price, given=memory >= 1 TB and count(drive, interface="sas") == 16)',
    "memory == 4 TB and memory_speed == 5600 MT/s",
    "most(memory_speed, given=memory == 4 TB)",
    'arrays(12, 12, interface="sas")',
    "always(supplies_redundant)",
    "always(implies(processors == 2, fans == 6))",
    'ways(processors, A, B, C, O2, given=variant == "hot_swap")',
    'together(count(drive, interface="fast") == 24, O2 != empty, supplies_redundant)',
)
"""A yes, a no, the most and the least, claims about every build, a count, and claims together."""


def cases() -> Iterator[Case]:
    """Return the cases to measure."""
    for name, folder in bundled_books().items():
        yield Case(f"read {name}", partial(read_book, folder), runs=5)
    for name, folder in bundled_books().items():
        book = read_book(folder)
        given = conditions(book, open_book(name).setting)
        yield Case(f"compile {name}", partial(compile_book, book, given), runs=5)
    yield Case("open f2 and ask its first question", _first_question, runs=5)
    yield from _questions(open_book("f2"))
    build = bundled_books()["f2"] / "builds" / "n4.yaml"
    yield Case("judge n4 with its nearest builds", lambda: judge(build), runs=3)


def _first_question() -> object:
    return ask(open_book("f2"), QUESTIONS[0])


def _questions(opened: Opened) -> Iterator[Case]:
    """Yield a case for each question, and print their median once all have been measured."""
    seconds: dict[str, list[float]] = {}
    for question in QUESTIONS:
        yield Case(question[:56], partial(_timed, opened, question, seconds), runs=5)
    median = statistics.median(statistics.median(taken) for taken in seconds.values())
    print(f"  the median question of {len(QUESTIONS)} is answered in {median * 1000:.0f} ms")


def _timed(opened: Opened, question: str, seconds: dict[str, list[float]]) -> None:
    start = time.perf_counter()
    ask(opened, question)
    seconds.setdefault(question, []).append(time.perf_counter() - start)
