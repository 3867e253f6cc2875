"""What findings find, and what they leave alone, in sentences of the invented scenario."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.facts.book import Book
from baywright.files.books import find_book, read_book
from baywright.language.findings.grounds import Exact, Grounds
from baywright.language.findings.of_book import SIGNS, grounds_of
from baywright.language.findings.pace import words_per_minute
from baywright.language.findings.promises import is_only_promise
from baywright.language.findings.registry import findings
from baywright.language.passages import Passage, Place
from tests.language.findings.drafts import draft, found

NOTHING = Grounds()


@pytest.fixture(scope="module", params=["f2", "f1", "l4", "p1"])
def book(request: pytest.FixtureRequest) -> Book:
    return read_book(find_book(str(request.param)))


@pytest.fixture(scope="module")
def f2() -> Grounds:
    return grounds_of(read_book(find_book("f2")))


@pytest.mark.parametrize(
    ("text", "open_"),
    [
        ("We will come to the slot widths later.", 1),
        ("We'll get to the slot widths in a moment. All slots are x16.", 1),
        ("We'll get to the slot widths in a moment. Each slot has a width of 16 lanes.", 0),
        ("We will come to the slot widths later.\n\nSlot width\n-----\n\nAll are x16.", 0),
        ("Slot widths are covered below.\n\nIt has fans.", 1),
        ("Slot widths are covered below.\n\nThe slots differ in width.", 0),
        ("More on memory speed later. Memory speed is covered below.", 2),
        ("The width of a slot is 16 lanes. We will come to the slot widths later.", 1),
        ("We will get to that later.", 1),
        ("The machine ships later.", 0),
        ("Later we will look at the air guide.\n\nThe air guide lifts out.", 0),
        ("I will explain the zones shortly.", 1),
    ],
)
def test_a_promise_is_kept_by_what_comes_after_it(text: str, open_: int) -> None:
    assert len(found(text, NOTHING, "promise")) == open_


@pytest.mark.parametrize(
    ("text", "alone"),
    [
        ("We will come to the slot widths later.", True),
        ("More on memory speed later.", True),
        ("We will come to the slots later, which hold ninety cards.", False),
        ("It has ninety slots, and we will come to the widths later.", False),
        ("It has ninety slots.", False),
        ("The ninety slots are covered below.", False),
        ("The 90 slots are covered below.", False),
    ],
)
def test_a_promise_that_says_more_is_not_only_a_promise(text: str, alone: bool) -> None:
    assert is_only_promise(text) == alone


def test_a_promise_about_slots_is_answered_at_once(f2: Grounds) -> None:
    (remark,) = found("We will come to the slot widths later.", f2, "promise")
    assert remark.sentence == (
        "Slots R1a and R3a are x16 and full-length. Slots R1b and R3b are x16 and half-length."
    )
    assert remark.proof is not None
    assert "places.R1a.lanes" in remark.proof.sentences[0]


@pytest.mark.parametrize(
    ("text", "late"),
    [
        ("Lift out the air guide; it cuts power.", True),
        ("Lift out the air guide. Power is off at once.", True),
        ("Then take out the air guide.", True),
        ("You can remove the air guide, then the risers.", True),
        ("Pulling it cuts power at once. Lift out the air guide.", False),
        ("Shut the machine down first. Then lift out the air guide.", False),
        ("Pulling out the air guide cuts power at once.", False),
        ("If you pull the air guide, power is off.", False),
        ("The air guide can be lifted out.", False),
        ("Lift out the riser.", False),
    ],
)
def test_the_caution_of_an_interlock_comes_before_its_act(
    f2: Grounds, text: str, late: bool
) -> None:
    remarks = found(text, f2, "caution-late")
    assert bool(remarks) == late
    for remark in remarks:
        assert remark.sentence.startswith("Caution: when the air guide is pulled out while")
        assert "air guide" in remark.sentence.rpartition("Then ")[2]
        # The corrected sentence has its caution where it belongs.
        assert found(remark.sentence, f2, "caution-late") == []


def test_work_on_a_part_has_the_cautions_of_the_book(f2: Grounds) -> None:
    said = {r.sentence.partition(".")[0] for r in found("Pull out the CPU.", f2, "caution-late")}
    assert said == {
        "Caution: Heat sinks and cards stay hot after power is off",
        "Caution: Static electricity destroys parts without a spark that you notice",
    }
    told = "The heat sink is hot, so wait 5 min. Wear a grounded strap. Pull out the CPU."
    assert found(told, f2, "caution-late") == []


@pytest.mark.parametrize(
    "text",
    [
        "You can fit sixteen SAS drives with a single processor.",
        "You can fit a second processor.",
        "Fit drives behind the controller.",
        "It can pull the load.",
    ],
)
def test_what_can_be_had_is_no_act(f2: Grounds, text: str) -> None:
    assert found(text, f2, "caution-late") == []


def test_every_caution_of_the_books_has_its_signs(book: Book) -> None:
    named = {str(name) for work in book.service.work.values() for name in work.cautions}
    assert named <= set(SIGNS)


@pytest.mark.parametrize(
    ("text", "points"),
    [
        ("This one here is the riser.", True),
        ("Over there is the other fan.", True),
        ("As you can see here, it is full.", True),
        ("These ports right here are fast.", True),
        ("Over there is zone A.", False),
        ("There are four fans.", False),
        ("This one rule holds there.", True),
        ("The drives go into zone B.", False),
    ],
)
def test_words_that_point_are_found(f2: Grounds, text: str, points: bool) -> None:
    assert bool(found(text, f2, "pointing")) == points


def test_the_place_named_last_is_offered(f2: Grounds) -> None:
    (remark,) = found("Slot R1a is free. This one here is not.", f2, "pointing")
    assert "slot R1a was named last" in remark.said


@pytest.mark.parametrize(
    ("text", "varies"),
    [
        ("It has two supplies. Each PSU is hot-swap.", True),
        ("It has two power supplies. Each supply is hot-swap.", False),
        ("It has two supplies. A supply carries it.", False),
        ("One processor is fitted. The second CPU adds lanes. A CPU draws 150 W.", True),
        ("Each module has a fan. The network module has none.", False),
        ("Two CPUs are fitted. Both processors are identical.", True),
    ],
)
def test_one_thing_keeps_one_name(f2: Grounds, text: str, varies: bool) -> None:
    assert len(found(text, f2, "name")) == varies


def test_a_vague_amount_gives_way_to_the_exact_one(f2: Grounds) -> None:
    (remark,) = found("It has plenty of memory sockets, and room.", f2, "vague")
    assert remark.sentence == "It has 32 memory sockets, and room."
    (remark,) = found("There are several USB ports.", f2, "vague")
    assert remark.sentence == "There are 4 USB ports (3 at the rear and 1 inside)."
    assert found("There are several reasons, and many drives.", f2, "vague") == []


def test_exact_amounts_are_those_that_were_given() -> None:
    def amounts(words: Sequence[str]) -> Exact | None:
        return Exact("75 layouts", 1) if words[:1] == ["combinations"] else None

    (remark,) = found("Various combinations exist.", Grounds(amounts=amounts), "vague")
    assert remark.sentence == "75 layouts exist."


def test_what_must_be_said_is_missed_once(f2: Grounds) -> None:
    text = "If one supply fails, it keeps running. It is redundant."
    (remark,) = found(text, f2, "must-say")
    assert remark.passage.text == "If one supply fails, it keeps running."
    assert found(f"{text} {remark.sentence}", f2, "must-say") == []
    assert found(f"{text} That holds up to one rating.", f2, "must-say") == []
    assert found("It has six fans.", f2, "must-say") == []


def test_nothing_is_said_of_an_empty_draft(f2: Grounds) -> None:
    assert findings((), f2) == ()


def _spoken(words: int, start: float, end: float) -> Passage:
    return Passage(" ".join(["word"] * words), Place("", 1, 1), 1, "", start, end)


def test_pace_is_measured_over_stretches_of_ten_seconds() -> None:
    slow = [_spoken(10, 5.0 * n, 5.0 * n + 5) for n in range(4)]
    fast = [_spoken(20, 5.0 * n, 5.0 * n + 5) for n in range(4)]
    assert words_per_minute(slow) == 120
    assert [r.kind for r in findings(slow, NOTHING)] == []
    assert [r.kind for r in findings(fast, NOTHING)] == ["pace", "pace"]
    assert findings(fast, Grounds(words_per_minute=240)) == ()
    assert words_per_minute(draft("It is not spoken.")) is None


def test_cues_that_sentences_share_count_once() -> None:
    shared = [_spoken(10, 0.0, 5.0), _spoken(10, 0.0, 5.0)]
    assert words_per_minute(shared) == 240


@cache
def _grounds() -> Grounds:
    return grounds_of(read_book(find_book("p1")))


@given(st.text(max_size=400))
def test_any_text_can_be_looked_at(text: str) -> None:
    assert all(remark.said for remark in findings(draft(text), _grounds()))
