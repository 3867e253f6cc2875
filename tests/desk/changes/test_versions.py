"""Two versions as people name them, and one book at several sites."""

from __future__ import annotations

import datetime

import pytest

from baywright.desk.changes.versions import change, notes_to_carry_out
from baywright.desk.opening import Setting, open_book
from baywright.desk.request import Request
from baywright.problems import Problems
from baywright.units import parse


def problem_of(error: pytest.ExceptionInfo[Problems]) -> tuple[str, str]:
    (problem,) = error.value.problems
    return problem.kind, problem.message


def test_a_book_without_notes_has_nothing_to_be_compared_with() -> None:
    with pytest.raises(Problems) as found:
        notes_to_carry_out("p1")
    assert problem_of(found)[0] == "no-note"


def test_a_revision_alone_has_nothing_to_be_compared_with() -> None:
    with pytest.raises(Problems) as found:
        notes_to_carry_out("f2@v1")
    assert problem_of(found)[0] == "no-note"


def test_notes_beside_a_book_are_carried_out() -> None:
    assert notes_to_carry_out("l4") == ["cn-2", "cn-5"]


def test_a_wrong_day_after_is_said_of_its_option() -> None:
    with pytest.raises(Problems) as found, change("f2", "", Request(), "soon"):
        pass
    assert problem_of(found) == ("not-a-date", "to: 'soon' is not a date.")


def test_a_book_is_the_same_at_a_site_each_time() -> None:
    opened = open_book("p1")
    high = Setting(None, parse("2300 m", "length"))
    assert opened.at(high) is opened.at(Setting(None, parse("2300 m", "length")))
    assert opened.at(high) is not opened
    assert opened.at(Setting(datetime.date(2031, 3, 1))).as_of == datetime.date(2031, 3, 1)
