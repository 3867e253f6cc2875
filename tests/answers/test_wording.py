"""Verdicts in words: the right word, numbers with units, nothing that reads as something else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from baywright.answers.verdicts import Figure, Stopped, Tally
from baywright.answers.wording import AID, Names, Sheet, told
from baywright.answers.wording.numbers import against, total_words
from baywright.answers.wording.ranges import ranges
from baywright.desk.asking import ask
from baywright.desk.checking import check
from baywright.desk.judging import judge_build
from baywright.desk.opening import Opened, open_book
from baywright.desk.telling import answer_sheet, checked_sheet, judgement_sheet
from baywright.files.books import bundled_books, read_build
from tests.files.example import write_example


@cache
def f2() -> Opened:
    return open_book("f2")


@cache
def asked(question: str) -> Sheet:
    return answer_sheet(f2(), ask(f2(), question))


def texts(value: object) -> Iterator[str]:
    """Yield every text of a sheet."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for inner in value:
            yield from texts(inner)
    elif is_dataclass(value):
        for each in fields(value):
            yield from texts(getattr(value, each.name))


QUESTIONS = (
    ('count(drive, interface="sas") == 24', "Yes"),
    ('arrays(12, 12, interface="sas")', "No"),
    ('most(count(drive, interface="fast"), given=O2 == "net-25")', "At most 16"),
    ("least(load)", "At least 323 W"),
    ('list(processors, A, B, C, O2, given=variant == "hot_swap")', "75 combinations"),
    ('together(count(drive, interface="fast") == 24, O2 == "net-25")', "Not together"),
    ("always(fans >= 4)", "Yes"),
    ("always(fans >= 5)", "No"),
)


@pytest.mark.parametrize(("question", "word"), QUESTIONS)
def test_the_word_of_a_verdict(question: str, word: str) -> None:
    assert asked(question).word == word


@pytest.mark.parametrize("question", [question for question, _ in QUESTIONS])
def test_no_text_shouts_or_waves_through(question: str) -> None:
    for text in texts(asked(question)):
        assert "!" not in text
        assert "OK" not in text
        assert "invalid" not in text.casefold()


@pytest.mark.parametrize("question", [question for question, _ in QUESTIONS])
def test_it_says_who_answered_and_for_which_day(question: str) -> None:
    sheet = asked(question)
    assert sheet.proof.startswith("Answered by ")
    assert "re-checked by " in sheet.proof
    assert "as of 2031-07-01" in sheet.standing


def test_a_no_gives_reasons_that_are_needed_and_builds_nearby() -> None:
    sheet = asked('arrays(12, 12, interface="sas")')
    assert {ground.kind for ground in sheet.grounds} == {"law", "asked"}
    assert sheet.needed == "Without any one of the three a build exists."
    assert str(sheet.nearest[0].turns[0]) == "arrays: 12 + 12 becomes 16 + 8"
    quotes = [quote for ground in sheet.grounds for quote in ground.quotes]
    assert all(quote.source and ":" in quote.where for quote in quotes)


def test_a_build_is_grouped_and_named_by_the_book() -> None:
    (fitted,) = asked('count(drive, interface="sas") == 24').fitted
    titles = [group.title for group in fitted.groups]
    assert titles[:4] == ["Processors", "Memory", "Drives", "Slots"]
    drives = {row.label: row.says for row in fitted.groups[2].rows}
    assert drives["Zone C"].startswith("cage for eight SAS drives (S8), 8 × ")
    assert drives["Zone C"].endswith(("driven from slot R3a", "driven from slot R3b"))


def test_a_total_over_its_bound_is_told_with_its_load_line() -> None:
    """1,159 W for this build is set by the demo scenario."""
    build = read_build(bundled_books()["f2"] / "builds" / "n4.yaml")
    sheet = judgement_sheet(f2(), judge_build(f2(), build))
    assert sheet.word == "No"
    assert "1,159 W against 1,000 W: 159 W over" in sheet.sentence
    assert sheet.load is not None
    assert sheet.load.used == 1159
    assert sheet.load.bound == 1000
    assert sheet.load.margin == "159 W over"
    assert len(sheet.nearest) >= 3
    assert sheet.aid == AID
    limits = {row.label: row.says for note in sheet.notes for row in note.rows}
    assert limits["The supplies when redundant"].endswith("159 W over")


def test_stopped_never_reads_as_no() -> None:
    best, bound = (Figure("load", "the peak draw", Fraction(n), "power") for n in (900, 950))
    sheet = told(Stopped("cpsat worked for 20 s", best, bound), f2().machine)
    assert sheet.word == "Stopped"
    assert "this is no answer" in sheet.sentence
    assert "Best found so far: the peak draw 900 W." in sheet.sentence
    assert "No build can pass: the peak draw 950 W." in sheet.sentence


def test_what_depends_on_unknown_facts_is_not_decided(tmp_path: Path) -> None:
    folder = write_example(tmp_path)
    places = folder / "places.yaml"
    places.write_text(places.read_text().replace("takes: [S4]", "takes: [S4, S2]"))
    opened = open_book(folder)
    sheet = answer_sheet(opened, ask(opened, 'least(price, given=A == "S2")'))
    assert sheet.word == "Not decided"
    assert "parts.S2.price" in sheet.sentence
    assert len({outcome.sheet.word for outcome in sheet.outcomes}) == 2


def test_a_check_says_what_a_book_holds() -> None:
    sheet = checked_sheet(f2(), check(f2()))
    assert sheet.word == "No problems"
    assert "18 places and 35 parts" in sheet.sentence


def test_a_margin_is_that_of_the_numbers_shown() -> None:
    """Load up, bound down: 1,159 from 1,672 leaves 513, though 514.5 are left exactly."""
    assert against(Fraction(11583, 10), Fraction(16728, 10), "power").endswith("513 W left")


def test_shares_that_are_no_places_are_not_told() -> None:
    tally = Tally(Fraction(24), Fraction(18), "", (("array 1 of 12", Fraction(24)),))
    assert total_words("wish:1", tally, Names(f2().book)) == ""
    lanes = Tally(Fraction(32), Fraction(16), "", (("C", Fraction(16)), ("O2", Fraction(16))))
    said = total_words("lanes.shared/x", lanes, Names(f2().book))
    assert said == "Here 32 lanes are used against 16: 16 over."


def test_long_lists_of_values_are_drawn_together() -> None:
    assert ranges(["empty", "1 x a", "2 x a", "4 x a", "1 x a + 1 x b"]) == (
        "empty",
        "1 to 2 or 4 x a",
        "1 x a + 1 x b",
    )
