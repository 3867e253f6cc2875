"""The sentences planted in the drafts of the demo, as of the day they are set."""

from __future__ import annotations

from functools import cache

import pytest

from baywright.desk.drafts.checking import proofread_passages
from baywright.desk.proofreading.proofreading import Proofreader
from baywright.exchange.drafts.plain_text import text_blocks
from baywright.language.blocks import passages
from baywright.language.passages import Remark
from tests.desk.demo import opened

PLANTED = (
    ("F2 takes up to 24 fast drives and two network modules.", "not-together"),
    ("It has 28 memory sockets.", "false"),
    ("4 TB at 5600 MT/s.", "not-together"),
    ("One controller drives all 24 SAS drives.", "false"),
    ("One processor can drive 16 SAS drives.", "true"),
    ("If one supply fails, the machine keeps running.", "only-if"),
    ("Six fans, N+1.", "only-if"),
    ("Five USB ports in total.", "scope-unclear"),
    ("6 GB drive ports.", "unit"),
    ("Full-length cards in all slots.", "false"),
    ("F1 has DDR5.", "generation"),
    ("128 GB modules are available now.", "not-yet"),
    ("Mixed supplies are fine.", "false"),
)
"""The other two, a caution after its action and a promise, are found without a grammar."""

FOUND = (
    ("Lift out the air guide; it cuts power.", "caution-late", "Caution: when the air guide"),
    ("We will come to the slot widths later.", "promise", "Slots R1a and R3a are x16"),
)

CORRECTED = {
    "F2 takes up to 24 fast drives and two network modules.": "With 2 network modules",
    "It has 28 memory sockets.": "There are 32 memory sockets.",
    "4 TB at 5600 MT/s.": "At 5600 MT/s the Ferryman F2 takes up to 1.5 TB of memory.",
    "One controller drives all 24 SAS drives.": "24 SAS drives need at least 2 controllers.",
    "If one supply fails, the machine keeps running.": "If the peak draw is at most 800 W",
    "Six fans, N+1.": "With two processors, if the peak draw is at most 1300 W",
    "Five USB ports in total.": "Front and rear together, 5 USB ports are possible.",
    "6 GB drive ports.": "6 Gb/s drive ports.",
    "Full-length cards in all slots.": "Slots R1a and R3a are full length.",
    "F1 has DDR5.": "The memory of the Ferryman F1 is DDR4.",
    "128 GB modules are available now.": "The 128 GB module ships from 2031-06-02.",
    "Mixed supplies are fine.": "All supplies must be identical.",
}


@cache
def proofreader() -> Proofreader:
    return Proofreader.of(opened("f2", "2031-03-17"))


@pytest.mark.parametrize(("sentence", "kind"), PLANTED)
def test_each_planted_sentence_has_its_verdict(sentence: str, kind: str) -> None:
    assert proofreader().sentence(sentence).kind == kind


@pytest.mark.parametrize("sentence", sorted(CORRECTED))
def test_a_corrected_sentence_is_given_and_is_true(sentence: str) -> None:
    remark = proofreader().sentence(sentence)
    assert remark.sentence.startswith(CORRECTED[sentence])
    home = Proofreader.of(opened("f1", "2031-03-17")) if "F1" in sentence else proofreader()
    assert home.sentence(remark.sentence).kind == "true"


def test_every_planted_sentence_that_is_not_true_has_a_replacement() -> None:
    assert {sentence for sentence, kind in PLANTED if kind != "true"} == set(CORRECTED)
    assert len(PLANTED) + len(FOUND) == 15


def remarks(text: str) -> tuple[Remark, ...]:
    """Return what is said of a draft of one paragraph, findings included."""
    return proofread_passages(opened("f2", "2031-03-17"), passages(text_blocks(text)))


@pytest.mark.parametrize(("sentence", "kind", "start"), FOUND)
def test_what_is_found_without_a_grammar_has_a_replacement(
    sentence: str, kind: str, start: str
) -> None:
    (remark,) = (each for each in remarks(sentence) if each.kind == kind)
    assert remark.sentence.startswith(start)
    again = {each.kind for each in remarks(remark.sentence)}
    assert kind not in again
    assert "false" not in again


def test_what_is_said_instead_of_a_promise_is_true() -> None:
    (remark,) = remarks("We will come to the slot widths later.")
    assert {each.kind for each in remarks(remark.sentence)} == {"true"}


def test_a_sentence_not_understood_names_the_words() -> None:
    remark = proofreader().sentence("The F2 takes 24 frobnicated drives.")
    assert remark.kind == "not-understood"
    assert remark.not_understood == ("frobnicated",)
