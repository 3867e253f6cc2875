"""Conditions of the bench: day, site and musts count as laws do, and go into a kept build."""

from __future__ import annotations

import pytest

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.conditions import FREE, Conditions, conditions_of, under
from baywright.desk.bench.keeping import build_text
from baywright.desk.bench.limits import gauges
from baywright.desk.bench.offers import offers
from baywright.desk.bench.standing import stand
from baywright.desk.bench.steps import read_steps
from baywright.desk.counting import builds
from baywright.desk.opening import open_book
from baywright.files.books import build_from
from baywright.problems import Problems

LOW = Conditions(volts="120 V", must=("supplies_redundant",))


@pytest.fixture(scope="module")
def low(bench: Bench) -> Bench:
    return under(bench, LOW)


def test_what_is_left_under_conditions_is_what_a_question_counts(low: Bench) -> None:
    asked = "voltage == 120 V and supplies_redundant"
    assert builds(open_book("f2"), asked).numbers == {low.count({})}


def test_options_are_coloured_by_conditions(bench: Bench, low: Bench) -> None:
    """With nothing given high line is free; at 120 V it cannot, and the reason is the wish."""
    free = {each.label: each.state for each in offers(bench, stand(bench, ()), "line").each}
    found = offers(low, stand(low, ()), "line", explain=True)
    assert "never" not in free.values()
    closed = found.having("never")
    assert closed
    assert any("120 V" in reason for each in closed for reason in each.reasons)


def test_a_limit_that_is_asked_for_has_to_hold(bench: Bench, low: Bench) -> None:
    def must(book: Bench) -> set[str]:
        return {gauge.title for gauge in gauges(book, stand(book, ())) if gauge.must}

    assert must(bench) == {"Power", "Air", "Lanes"}
    assert must(low) == must(bench) | {"Power, redundant"}


def test_a_hot_and_high_site_closes_options(bench: Bench) -> None:
    """300 W processors take 30 °C at most, so at 33 °C there is none of them."""
    hot = under(bench, Conditions(inlet="33 °C"))
    labels = [each.label for each in hot.machine.frame.options("P1")]
    assert labels.index("cpu-48") not in hot.free["P1"]
    assert labels.index("cpu-48") in bench.free["P1"]


def test_a_day_closes_what_is_not_out_yet(bench: Bench) -> None:
    early = under(bench, Conditions(day="2031-05-01"))
    labels = [each.label for each in early.machine.frame.options("M1")]
    late = [value for value, label in enumerate(labels) if "dimm-128" in label]
    assert late
    assert not early.free["M1"] & set(late)
    assert bench.free["M1"] & set(late)


def test_conditions_are_kept_with_a_build_and_found_again(low: Bench) -> None:
    standing = stand(low, read_steps(low.machine, ("P1:cpu-32",)))
    written = build_text(low, standing, "Low line", LOW)
    assert conditions_of(build_from(written.encode(), "kept")) == LOW


@pytest.mark.parametrize(
    ("given", "kind"),
    [
        (Conditions(must=("processors == 1", "processors == 2")), "no-build"),
        (Conditions(altitude="high"), "not-a-number"),
        (Conditions(must=("nonsense (",)), "syntax"),
        (Conditions(must=("processors == 1",) * 20), "too-many-musts"),
    ],
)
def test_conditions_that_cannot_be_are_refused(bench: Bench, given: Conditions, kind: str) -> None:
    with pytest.raises(Problems) as told:
        under(bench, given)
    assert told.value.problems[0].kind == kind


def test_nothing_given_is_nothing_said() -> None:
    assert not FREE.any
    assert FREE.words == ""
    assert LOW.words == "120 V at the feeds, must hold: supplies_redundant"
