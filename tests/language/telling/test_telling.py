"""Told facts: what a family of statements reads, and what it must not pass as true."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.language.passages import Passage, Place
from tests.language.test_judged import proofreader

READ = [
    # amounts
    ("f2", "A single fan pushes 32 CFM.", "true"),
    ("f2", "The rails extend from 620 to 880 mm.", "true"),
    ("f2", "The rails extend from 620 to 900 mm.", "false"),
    ("f2", "The best efficiency of the 800 W supply is 96 %.", "true"),
    ("f2", "At full load the 2000 W supply has an efficiency of 95 %.", "false"),
    ("f2", "Every supply leaks 1.2 A.", "unit"),
    ("f2", "The 1300 W supply gives its full output at 230 V.", "true"),
    ("f2", "The 1300 W supply gives its full output at 120 V.", "false"),
    ("p1", "The P1 measures 210 × 300 × 42 mm.", "true"),
    ("p1", "The P1 measures 210 × 300 × 42 cm.", "unit"),
    # wiring
    ("f2", "Riser 3 is fed by the first processor.", "false"),
    ("f2", "Zones A and B are cabled to riser 1.", "true"),
    ("f2", "Zone C can be cabled to a controller in riser 1.", "false"),
    ("f2", "O2 shares 16 lanes with zone C.", "true"),
    # locks, interlocks, lights
    ("f2", "The power button cannot be reached when the lock is closed.", "true"),
    ("f2", "The front lock also secures the power supplies.", "false"),
    ("f2", "The machine starts without the air guide.", "false"),
    ("p1", "Opening the cover cuts power at once.", "false"),
    ("f2", "Each supply has a light of its own.", "true"),
    # service
    ("f2", "Take the cords out first.", "true"),
    ("f2", "After the air guide comes the cover.", "false"),
    ("f2", "Supplies are hot-swappable.", "true"),
    ("f2", "Memory can be changed while the machine is running.", "false"),
    ("f2", "Drives carry the mark RUNNING OK.", "only-if"),
    # likeness and ports
    ("f2", "Only R1a and R3a are full length.", "true"),
    ("f2", "Only R1a and R1b are full length.", "false"),
    ("f2", "The slots are fourth-generation PCIe.", "generation"),
    ("f2", "O1 provides two ports of 25 Gb/s.", "true"),
    ("f2", "An array can span two controllers.", "false"),
    # occasions
    ("f1", "The last day for orders is 30 September 2031.", "true"),
    ("f2", "Reedbed 8 to 11 run on it.", "true"),
    ("f2", "Reedbed 8 to 12 run on it.", "false"),
    ("f2", "With Reedbed 11 firmware 2.1 of the C16 is enough.", "false"),
    # comparison
    ("f2", "It is 20 mm deeper than its predecessor.", "true"),
    ("f2", "The F1 is 20 mm deeper than the F2.", "false"),
    ("f2", "The F2 supports twice as many drives as the F1.", "false"),
]

NOT_TRUE = [
    ("f2", "Memory modules run at 5600 MT/s."),
    ("f2", "Sales of the F2 end on 17 March 2031."),
    ("f2", "Processor 1 blocks zone A."),
    ("f2", "Processor 2 needs zone B."),
    ("f2", "The last order of the F2 is 17 March 2031."),
    ("f1", "The F1 can be ordered until the end of 2031."),
    ("f1", "Orders for the F1 open on 30 September 2031."),
    ("f2", "The pack lasts five years at 25 °C."),
    ("f2", "The F2 weighs 15 kg."),
    ("f1", "The last day for orders is 31 August 2031."),
    ("f2", "The noise of the depth is 760 mm."),
    ("f2", "The front lock covers the zones and the supplies."),
    ("f2", "Lift out the air guide after the board."),
]

TRUE = [(book, text) for book, text, label in READ if label == "true"]

STRANGE = ("velvet", "Tuesday", "quickly", "violet", "rarely", "hydraulic", "legally")


def kind(book: str, text: str) -> str:
    held = proofreader(book, "", "", "")
    return held.remark(Passage(text, Place("", 1, 1), 0), correct=False).kind


@pytest.mark.parametrize(("book", "text", "label"), READ)
def test_what_is_told_has_its_verdict(book: str, text: str, label: str) -> None:
    assert kind(book, text) == label


@pytest.mark.parametrize(("book", "text"), NOT_TRUE)
def test_what_is_not_so_or_not_said_is_never_true(book: str, text: str) -> None:
    assert kind(book, text) != "true"


@settings(deadline=None, max_examples=80)
@given(told=st.sampled_from(TRUE), word=st.sampled_from(STRANGE), at=st.integers(0, 12))
def test_a_strange_word_makes_nothing_true(told: tuple[str, str], word: str, at: int) -> None:
    book, text = told
    words = text.split()
    words.insert(min(at, len(words)), word)
    assert kind(book, " ".join(words)) != "true"
