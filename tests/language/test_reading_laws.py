"""Laws of reading: nothing is called true that was not understood word by word."""

from __future__ import annotations

from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.desk.proofreading.proofreading import Proofreader
from baywright.language.passages import Passage, Place
from tests.desk.demo import opened
from tests.language.corpus import in_half, statements

TRUE = tuple(e.text for e in in_half(statements("f2"), "tuning") if e.verdict == "true")
UNKNOWN = st.from_regex(r"[b-z]{3}qx[a-z]{2}", fullmatch=True)
HERE = Place("", 1, 1)


@cache
def proofreader() -> Proofreader:
    return Proofreader.of(opened("f2"))


def kind(text: str) -> str:
    return proofreader().remark(Passage(text, HERE, 0), correct=False).kind


@settings(deadline=None, max_examples=200)
@given(text=st.sampled_from(TRUE), word=UNKNOWN, at=st.integers(0, 20))
def test_an_unknown_word_put_in_makes_nothing_true(text: str, word: str, at: int) -> None:
    words = text.split()
    words.insert(min(at, len(words)), word)
    assert kind(" ".join(words)) in ("not-understood", "nothing")


@settings(deadline=None, max_examples=100)
@given(text=st.text(max_size=200))
def test_any_text_has_a_verdict(text: str) -> None:
    assert kind(text)


@settings(deadline=None, max_examples=60)
@given(text=st.sampled_from(TRUE), shift=st.sampled_from(("  ", "\n")))
def test_white_space_changes_nothing(text: str, shift: str) -> None:
    assert kind(text.replace(" ", shift)) == kind(text)
