"""Two versions as people name them, and one book at several sites."""

from __future__ import annotations

import datetime

import pytest

from baywright.desk.changes.dates import shipping_parts
from baywright.desk.changes.versions import change, notes_to_carry_out
from baywright.desk.changes.watched import Versions, Watched
from baywright.desk.opening import Setting, open_book
from baywright.desk.request import Request
from baywright.desk.statements.shared import Shared
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


def test_a_part_that_ships_between_two_days_flips() -> None:
    """The 128 GB module ships from 2031-06-02 (demo scenario)."""
    with change("p1", "", Request("2031-06-01"), "2031-06-02") as asked:
        pairs = shipping_parts(Versions(Shared(asked.old), Shared(asked.new)), Watched())
        assert [pair for pair in pairs if pair.flips] == []
    with change("f2", "", Request("2031-06-01"), "2031-06-02") as asked:
        pairs = shipping_parts(Versions(Shared(asked.old), Shared(asked.new)), Watched())
        (found,) = [pair for pair in pairs if pair.flips]
    assert found.before.words.startswith("On 2031-06-01 it does not ship yet;")
    assert found.after.words == "On 2031-06-02 it ships; the first day is 2031-06-02."


def test_a_book_is_the_same_at_a_site_each_time() -> None:
    opened = open_book("p1")
    high = Setting(None, parse("2300 m", "length"))
    assert opened.at(high) is opened.at(Setting(None, parse("2300 m", "length")))
    assert opened.at(high) is not opened
    assert opened.at(Setting(datetime.date(2031, 3, 1))).as_of == datetime.date(2031, 3, 1)
