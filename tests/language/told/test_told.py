"""What books tell word for word."""

from __future__ import annotations

import pytest

from baywright.facts.cautions import CAUTIONS
from baywright.files.books import find_book, read_book
from baywright.language.spoken import spoken
from baywright.language.told.registry import told_by
from baywright.language.told.telling import key_of

BOOKS = ("f2", "f1", "l4", "p1")


@pytest.mark.parametrize("name", BOOKS)
def test_a_sentence_is_known_again_with_its_numbers_in_words(name: str) -> None:
    for told in told_by(read_book(find_book(name))):
        assert key_of(spoken(told.says)) == key_of(told.says)


@pytest.mark.parametrize("name", BOOKS)
def test_every_sentence_is_one_and_quotes_its_facts(name: str) -> None:
    for told in told_by(read_book(find_book(name))):
        assert told.says[0].isupper() or told.says[0].isdigit()
        assert told.says.endswith(".")
        assert told.facts or told.topic.startswith(("caution", "planning-aid"))


def test_every_caution_is_told_whole() -> None:
    said = " ".join(told.says for told in told_by(read_book(find_book("f2"))))
    for caution in CAUTIONS.values():
        for sentence in (caution.hazard[1:], caution.consequence, caution.avoidance):
            assert sentence in said


def test_what_was_measured_on_a_sample_says_so() -> None:
    told = [each.says for each in told_by(read_book(find_book("l4")))]
    assert "Measured on a sample: it makes 57 dB(A) at idle and 74 dB(A) at full speed." in told


def test_what_is_assumed_says_so() -> None:
    told = [each.says for each in told_by(read_book(find_book("l4")))]
    assert any("lid is opened, as far as is known." in each for each in told)
