"""Walkthroughs of the books: as long as asked, cautions first, every number proven."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction
from functools import cache

import pytest

from baywright.desk.opening import Opened, Setting, open_book
from baywright.desk.walk.audience import AUDIENCES, Audience
from baywright.desk.walk.lines import Line
from baywright.desk.walk.pace import pace_of
from baywright.desk.walk.planning import walk
from baywright.desk.walk.walk import OFF_BY, Asked, Walk
from baywright.drawing.orientation import stance_of
from baywright.files.books import find_book, read_build
from baywright.language.spoken import spoken
from baywright.language.tokens import tokens
from baywright.problems import Problems


@cache
def opened(book: str, as_of: str = "") -> Opened:
    return open_book(book, Setting(date.fromisoformat(as_of)) if as_of else None)


@cache
def planned(
    book: str, minutes: float = 12, audience: Audience = "sellers", build: str = "", as_of: str = ""
) -> Walk:
    held = opened(book, as_of)
    shown = read_build(find_book(book) / "builds" / f"{build}.yaml") if build else None
    stance = stance_of(held.book, shown)
    return walk(held, shown, Asked(minutes, audience, pace_of(140), stance, at_most=book != "f2"))


def lines_of(made: Walk) -> list[Line]:
    return [line for shot in made.shots for line in shot.lines]


def said(made: Walk) -> list[str]:
    """Return everything that is said, in order."""
    found = []
    for shot in made.shots:
        for act in shot.acts:
            found += [*(line.says for line in act.before), act.says]
        found += [shot.opening, *(line.says for line in shot.lines)]
    return [*found, *made.closing]


@pytest.mark.parametrize("audience", AUDIENCES)
def test_it_takes_the_minutes_that_were_asked_for(audience: Audience) -> None:
    made = planned("f2", 12, audience)
    assert abs(made.seconds / 60 - 12) <= 12 * OFF_BY


def test_what_must_be_said_is_said_however_short() -> None:
    made = planned("f2", 6)
    assert abs(made.seconds / 60 - 6) <= 6 * OFF_BY
    text = said(made)
    for needed in made.opened.book.must_say.values():
        assert needed.says.known in text


def test_too_short_a_time_is_refused_with_the_time_it_takes() -> None:
    with pytest.raises(Problems) as raised:
        planned("f2", 0.5)
    problem = raised.value.problems[0]
    assert problem.kind == "too-short"
    assert re.search(r"Ask for [\d.]+ or more", str(problem.hint))


def test_too_long_a_time_is_refused_with_the_time_there_is() -> None:
    with pytest.raises(Problems) as raised:
        planned("f2", 60)
    assert raised.value.problems[0].kind == "too-few-lines"


@pytest.mark.parametrize("book", ["f2", "l4", "p1"])
def test_every_caution_comes_before_its_act_and_once(book: str) -> None:
    made = planned(book)
    text = said(made)
    cautions = [each for each in text if each.startswith(("Warning:", "Caution:", "Note:"))]
    assert len(cautions) == len(set(cautions))
    acts = {
        "Stop the system": "Warning: the machine has more than one cord",
        "Now open": "Caution: without its covers and guides",
        "Now take out the air guide": "Caution: while the machine runs, power is off at once",
    }
    for act, caution in acts.items():
        done = next((at for at, each in enumerate(text) if each.startswith(act)), None)
        if done is not None:
            assert any(each.startswith(caution) for each in text[:done])


def test_an_act_that_is_left_out_leaves_its_caution_out() -> None:
    made = planned("f2", 6)
    deepest = max(shot.station.off for shot in made.shots)
    assert deepest == 0 or any("cords" in act.what for shot in made.shots for act in shot.acts)


NUMBER = re.compile(r"\d+(?:\.\d+)?")


def numbers(text: str) -> set[Fraction]:
    """Return the numbers of a text, in digits and in words."""
    found = {token.number for token in tokens(text) if token.kind in ("number", "amount")}
    return found | {Fraction(each) for each in NUMBER.findall(text.replace(",", ""))}


def grounds(line: Line) -> set[Fraction]:
    """Return the numbers of what a line stands on."""
    return numbers(" ".join([line.reading, *(f"{fact.text} {fact.path}" for fact in line.facts)]))


@pytest.mark.parametrize("audience", AUDIENCES)
def test_every_spoken_number_stands_in_what_was_proven(audience: Audience) -> None:
    made = planned("f2", 12, audience)
    names = numbers(" ".join(place.name for place in made.opened.book.places.values()))
    names |= numbers(" ".join(part.name for part in made.opened.book.parts.values()))
    for line in lines_of(made):
        if line.topic.startswith("caution ") or line.topic in ("promise", "where"):
            assert numbers(line.says) <= names | {1}
            continue
        assert line.reading or line.facts, line.says
        # One, none and all are words of their own; a day and a memory size are written otherwise.
        loose = {0, 1, 2} | names
        missing = numbers(line.says) - grounds(line) - loose
        assert not missing or line.topic in DATED, (line.says, line.reading, missing)


DATED = ("dates", "announced", "later parts")
"""Topics whose number is a day, which the reading has in ISO form."""


def test_a_promise_is_kept_by_a_station_that_comes() -> None:
    made = planned("f2")
    promised = next(line for line in lines_of(made) if line.topic == "promise")
    title = promised.says.removeprefix("We will come to ").removesuffix(" later.")
    assert title in [shot.station.title for shot in made.shots[1:]]


def test_a_build_is_shown_with_what_it_has() -> None:
    text = said(planned("f2", 12, "engineers", "n2"))
    assert "Here we fit two 48-core processors." in text
    assert any("7.68 TB fast drives in zone A" in each for each in text)


def test_a_build_that_is_not_legal_is_not_shown() -> None:
    held = opened("f2")
    build = read_build(find_book("f2") / "builds" / "n4.yaml")
    with pytest.raises(Problems) as raised:
        walk(held, build, Asked(12, "sellers", pace_of(140), stance_of(held.book, build)))
    assert raised.value.problems[0].kind == "not-legal"


def test_a_machine_that_is_there_as_a_sample_is_said_to_be_one() -> None:
    text = said(planned("l4", as_of="2031-04-01"))
    assert text[1] == "Until 2031-05-12 there are only samples of Longstrand L4."


def test_a_rate_nobody_speaks_at_is_refused() -> None:
    with pytest.raises(Problems) as raised:
        pace_of(500)
    assert raised.value.problems[0].kind == "rate"


def test_time_counts_words_as_they_are_spoken() -> None:
    sentence = "Memory runs at 5600 MT/s."
    assert pace_of(120).speech(sentence) == 60 * len(spoken(sentence).split()) / 120
