"""The bench on f2: what is offered is what the session says, and what is said can be done."""

from __future__ import annotations

import itertools
from functools import partial

import pytest

from baywright.desk.bench.bench import Bench, by_parts, without
from baywright.desk.bench.completing import completion
from baywright.desk.bench.keeping import build_text, builds_beside, steps_of_build, steps_of_text
from baywright.desk.bench.limits import BOUND_AT, gauges
from baywright.desk.bench.offers import Offer, offers
from baywright.desk.bench.picture import picture_of, view_of
from baywright.desk.bench.remembering import Remembered
from baywright.desk.bench.standing import Standing, stand
from baywright.desk.bench.steps import MOST_STEPS, Step, after, read_step, read_steps
from baywright.desk.session import Session
from baywright.drawing.reading import shown
from baywright.problems import Problems
from baywright.space import broken

STEPS = ("P1:cpu-32", "P2:cpu-32", "A:S8", "A drives:8 x sas-2400", "O2:net-25")


@pytest.fixture(scope="module")
def standing(bench: Bench) -> Standing:
    return stand(bench, read_steps(bench.machine, STEPS))


def _every_offer(bench: Bench, standing: Standing) -> list[tuple[str, Offer]]:
    choices = [place.choices[0] for place in standing.places]
    return [(name, each) for name in choices for each in offers(bench, standing, name).each]


def test_what_is_left_is_what_the_session_says(bench: Bench, standing: Standing) -> None:
    session = Session(bench.opened, bench.engine, dict(standing.chosen))
    assert standing.options == session.left().options
    assert not broken(bench.machine.space, standing.shown.values)


def test_every_offer_is_true(bench: Bench, standing: Standing) -> None:
    """Free ones fit, those that never fit do not even alone, and the others neither."""
    for choice, offer in _every_offer(bench, standing):
        labels = [option.label for option in bench.machine.frame.options(choice)]
        value = labels.index(offer.label)
        others = without(standing.chosen, (choice,))
        assert bench.possible({**others, choice: value}) == (offer.state in {"now", "free"})
        assert bench.possible({choice: value}) == (offer.state != "never")


def test_what_has_to_change_is_enough_and_no_less_would_do(
    bench: Bench, standing: Standing
) -> None:
    found = [pair for pair in _every_offer(bench, standing) if pair[1].changes]
    assert found
    for choice, offer in found:
        assert bench.possible(after(bench.machine, standing.chosen, offer.step))
        names = [change.choice for change in offer.changes]
        label = (choice, offer.label)
        for fewer in itertools.combinations(names, len(names) - 1):
            step = Step((*((name, "") for name in fewer), label))
            assert not bench.possible(after(bench.machine, standing.chosen, step))


def test_reasons_come_on_request_and_are_kept(bench: Bench, standing: Standing) -> None:
    asked = offers(bench, standing, "C", explain=True)
    again = offers(bench, standing, "C")
    for offer in (*asked.having("if", "never"), *again.having("if", "never")):
        assert offer.reasons, offer.label
    (n8h,) = (each for each in asked.each if each.label == "N8h")
    assert n8h.state == "if"
    assert [change.choice for change in n8h.changes] == ["O2"]


def test_a_step_that_does_not_fit_changes_nothing(bench: Bench, standing: Standing) -> None:
    more = stand(bench, read_steps(bench.machine, (*STEPS, "C:N8h")))
    assert more.chosen == standing.chosen
    assert [str(each.step) for each in more.refused] == ["C:N8h"]


def test_an_empty_label_opens_a_place_again(bench: Bench) -> None:
    found = stand(bench, read_steps(bench.machine, ("A:S8", "A:")))
    place = found.place("A")
    assert place is not None
    assert (place.state, place.words, place.set_in) == ("open", "open", 2)


@pytest.mark.parametrize(
    ("text", "kind"),
    [("A", "not-a-step"), ("Z:S8", "unknown-choice"), ("A:S9", "not-a-value"),
     ("PS capacity:0 W", "unknown-choice")],
)  # fmt: skip
def test_a_step_that_cannot_be_read(bench: Bench, text: str, kind: str) -> None:
    with pytest.raises(Problems) as found:
        read_step(bench.machine, text)
    assert [each.kind for each in found.value.problems] == [kind]


def test_too_many_steps_are_refused(bench: Bench) -> None:
    with pytest.raises(Problems, match="too-many-steps"):
        read_steps(bench.machine, ["A:"] * (MOST_STEPS + 1))


def test_filling_in_keeps_what_was_chosen(bench: Bench, standing: Standing) -> None:
    for objective in (by_parts(bench.machine), bench.by_price):
        values = bench.least(objective, standing.chosen)
        assert values is not None
        step = completion(bench, standing, values)
        full = stand(bench, (*(each.step for each in standing.steps), step))
        assert full.complete
        assert full.refused == ()
        assert standing.chosen.items() <= full.chosen.items()


@pytest.mark.parametrize("name", ["n2", "n4"])
def test_a_build_file_and_its_steps_say_the_same(bench: Bench, name: str) -> None:
    build = builds_beside(bench)[name]
    first = stand(bench, steps_of_build(bench, build))
    text = build_text(bench, first, 'So "called": \\ #1')
    second = stand(bench, steps_of_text(bench, text, "kept"))
    assert second.chosen.items() >= {k: v for k, v in first.chosen.items() if k != "line"}.items()
    assert second.refused == ()


def test_limits_stand_at_one_line_and_one_of_them_binds(bench: Bench, standing: Standing) -> None:
    found = gauges(bench, standing)
    assert sum(gauge.binding for gauge in found) == 1
    for gauge in found:
        assert gauge.over == (gauge.share > BOUND_AT)
        assert gauge.title in gauge.sentence


def test_the_picture_shows_what_was_chosen(bench: Bench, standing: Standing) -> None:
    found = shown(picture_of(bench, standing, "front", 1100, "C"))
    assert found["A"].state == "fitted"
    assert found["B"].state == "open"
    assert view_of(bench, "O2") == "rear"
    with pytest.raises(Problems, match="no-view"):
        picture_of(bench, None, "roof", 1100)


def test_what_was_asked_last_is_remembered() -> None:
    held: Remembered[int] = Remembered(2)
    made = [held.get(key, partial(len, key)) for key in ("a", "bb", "a", "ccc")]
    assert made == [1, 2, 1, 3]
    assert (held.known("a"), held.known("bb"), held.known("ccc")) == (1, None, 3)
