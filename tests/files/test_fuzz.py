"""Books damaged at random give problems and nothing else."""

from __future__ import annotations

import contextlib
from collections.abc import Mapping

from hypothesis import given
from hypothesis import strategies as st

from baywright.facts.references import check_build
from baywright.files.books import book_from, build_from
from baywright.problems import Problem, Problems
from tests.files.example import example, example_book

_PIECES = [
    "\n",
    "  ",
    ":",
    ": ",
    "- ",
    "{",
    "}",
    "[",
    "]",
    "'",
    '"',
    "#",
    "&a",
    "*a",
    "!t",
    "~",
    "x",
]
_PIECES += [
    "\t",
    "\0",
    "é",
    "value",
    "could_be",
    "5 W",
    "kind: fan",
    "type: slot",
    "null",
    "-1",
    "%",
]


@st.composite
def _mutated(draw: st.DrawFn, names: list[str]) -> tuple[str, str]:
    name = draw(st.sampled_from(names))
    text = example()[name]
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = min(len(text), start + draw(st.sampled_from([0, 0, 1, 3, 10, 60])))
        text = text[:start] + draw(st.sampled_from(["", *_PIECES])) + text[end:]
    return name, text


def _found(files: Mapping[str, bytes]) -> tuple[Problem, ...]:
    try:
        book_from(files)
    except Problems as error:
        return error.problems
    return ()


@given(_mutated([name for name in example() if "/builds/" not in name]))
def test_a_damaged_book_gives_nothing_but_problems(change: tuple[str, str]) -> None:
    name, text = change
    for problem in _found({**example_book(), name: text.encode()}):
        assert problem.mark is not None or problem.kind in ("missing", "no-book")
        assert "Input should" not in problem.message


@given(_mutated(["t1/builds/first.yaml"]))
def test_a_damaged_build_gives_nothing_but_problems(change: tuple[str, str]) -> None:
    name, text = change
    with contextlib.suppress(Problems):
        check_build(build_from(text.encode(), name), book_from(example_book()))
