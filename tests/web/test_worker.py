"""Work in a process of its own: its words, its result, its problems, and its end."""

from __future__ import annotations

import os
import sys

import pytest

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.problems import Problems, problem
from baywright.web.runs import Tell
from baywright.web.worker import in_process


def doubled(number: int, tell: Tell) -> int:
    tell("doubling")
    sys.stdout.write("what a library prints stands between no messages")
    return 2 * number


def refused(kind: str, _: Tell) -> int:
    raise {
        "problem": problem("odd", "It is odd.", None, "Give an even one."),
        "stopped": StoppedError("all of it"),
        "recheck": RecheckError("a sum is wrong"),
    }[kind]


def ended(code: int, _: Tell) -> int:
    os._exit(code)


def test_the_result_comes_back_and_words_on_the_way() -> None:
    words: list[str] = []
    assert in_process(doubled, 21, words.append) == 42
    assert words == ["doubling"]


@pytest.mark.parametrize(
    ("kind", "says"),
    [("problem", "It is odd."), ("stopped", "Not decided: all of it."), ("recheck", "withheld")],
)
def test_what_is_raised_there_is_told_here(kind: str, says: str) -> None:
    with pytest.raises(Problems, match=says):
        in_process(refused, kind, lambda _: None)


def test_work_that_is_ended_is_told_as_broken_off() -> None:
    with pytest.raises(Problems) as found:
        in_process(ended, 9, lambda _: None)
    assert [each.kind for each in found.value.problems] == ["broken-off"]
