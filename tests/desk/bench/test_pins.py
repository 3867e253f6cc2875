"""Pins hold a place as it is, whatever else is changed or filled in."""

from __future__ import annotations

import pytest

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.completing import around_pins, completion, numbers_left
from baywright.desk.bench.offers import offers
from baywright.desk.bench.standing import Standing, stand
from baywright.desk.bench.steps import after, read_steps
from baywright.engines.contract import OutOfTime
from baywright.engines.diagram import Diagram
from baywright.problems import Problems
from baywright.space import broken

STEPS = ("P1:cpu-48", "P2:cpu-48", "O2:net-25", "A:S8")


def _stand(bench: Bench, *pins: str) -> Standing:
    return stand(bench, read_steps(bench.machine, STEPS), pins)


def test_a_change_that_goes_through_a_pin_is_not_offered(bench: Bench) -> None:
    """Zone C takes fast drives only when O2 goes; with O2 pinned it cannot, and says so."""
    free = {each.label: each for each in offers(bench, _stand(bench), "C").each}
    assert free["N8h"].state == "if"
    held = offers(bench, _stand(bench, "O2"), "C", explain=True)
    pinned = {each.label: each for each in held.each}
    assert pinned["N8h"].state == "never"
    assert any("You pinned network module O2" in reason for reason in pinned["N8h"].reasons)


def test_every_change_offered_leaves_pins_as_they_are(bench: Bench) -> None:
    standing = _stand(bench, "P1", "O2", "line")
    for place in standing.places:
        for offer in offers(bench, standing, place.choices[0]).having("if"):
            assert not {change.choice for change in offer.changes} & standing.held.keys()


def test_the_cheapest_around_pins_keeps_them_and_nothing_else(bench: Bench) -> None:
    standing = _stand(bench, "A")
    found = bench.least(bench.by_price, standing.held)
    assert found is not None
    made = after(bench.machine, standing.chosen, around_pins(bench, standing, found))
    assert not broken(bench.machine.space, found)
    assert {name: made[name] for name in standing.held} == standing.held
    assert made["P1"] != standing.chosen["P1"]


def test_a_place_pinned_open_stays_open(bench: Bench) -> None:
    standing = _stand(bench, "C")
    step = completion(bench, standing, standing.shown.values)
    places = {choice.partition(" ")[0] for choice, _ in step.values}
    assert "C" not in places
    assert "B" in places


def test_a_pin_in_a_place_that_there_is_not(bench: Bench) -> None:
    with pytest.raises(Problems, match="no-place"):
        _stand(bench, "Z9")


def test_the_number_of_builds_left_falls_with_each_step(bench: Bench) -> None:
    """The first number is that of the whole book; the last is that of all that are left of B."""
    standing = _stand(bench)
    numbers = [number or 0 for number in numbers_left(bench, standing)]
    assert numbers == sorted(numbers, reverse=True)
    assert numbers[0] == bench.engine.count(bench.machine.space)
    left = (bench.count({**standing.chosen, "B": value}) for value in standing.options["B"])
    assert numbers[-1] == sum(number or 0 for number in left)


def test_a_count_that_takes_too_long_is_left_out_and_not_tried_again(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    tried: list[int] = []

    def late(*given: object) -> int:
        tried.append(len(given))
        raise OutOfTime

    fresh = Bench(bench.opened, bench.engine)
    with monkeypatch.context() as patched:
        patched.setattr(Diagram, "count", late)
        assert [fresh.count({}), fresh.count({}), fresh.count({"O2": 0})] == [None] * 3
    assert len(tried) == 2
    assert fresh.count({"O2": 0, "B": 0}) is not None
