"""A draft on the desk: remarks in the order of the draft, each thing said once."""

from __future__ import annotations

from pathlib import Path

import pytest

from baywright.desk.drafts.checking import ordered, proofread_file, proofread_passages
from baywright.desk.opening import Opened, open_book
from baywright.exchange.drafts.plain_text import text_blocks
from baywright.language.blocks import passages
from baywright.language.passages import Remark


@pytest.fixture(scope="module")
def f2() -> Opened:
    return open_book("f2")


def test_the_number_of_layouts_is_counted_when_it_is_spoken_of(f2: Opened) -> None:
    text = passages(
        text_blocks("Various combinations exist. Various combinations of drives exist.")
    )
    (remark,) = [each for each in proofread_passages(f2, text) if each.kind == "vague"]
    # 75 skeletons of the hot-swap variant, as the scenario counts them, and those of fixed drives.
    assert remark.sentence == "100 combinations of processors, A, B, C and O2 exist."


def test_remarks_follow_the_draft_and_are_said_once() -> None:
    one, two = passages(text_blocks("It has fans. It has slots."))
    first, second = Remark(one, "vague", said="a"), Remark(two, "promise", said="b")
    nothing = Remark(two, "nothing")
    assert ordered((one, two), (nothing, second, first, second)) == (first, second)
    assert ordered((one, two), (nothing,)) == (nothing,)


def test_sentences_that_read_the_same_are_told_apart_by_their_place(f2: Opened) -> None:
    text = passages(text_blocks("It has many memory sockets. It has many memory sockets."))
    places = [e.passage.place.where for e in proofread_passages(f2, text) if e.kind == "vague"]
    assert places == ["1:1", "1:29"]


def test_a_file_is_proofread_against_an_open_book(f2: Opened, tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    path.write_text("Lift out the air guide; it cuts power.", encoding="utf-8")
    found = proofread_file(f2, path)
    assert "caution-late" in {remark.kind for remark in found.remarks}
    assert found.words_per_minute is None


def test_a_promise_is_understood_as_one(f2: Opened) -> None:
    text = passages(text_blocks("We will come to the slot widths later."))
    assert [remark.kind for remark in proofread_passages(f2, text)] == ["promise"]


def test_a_sentence_that_is_judged_stands_beside_its_findings(f2: Opened) -> None:
    text = passages(text_blocks("It has 28 memory sockets. It has several memory sockets."))
    kinds = {remark.passage.text: remark.kind for remark in proofread_passages(f2, text)}
    assert kinds["It has 28 memory sockets."] == "false"
    assert kinds["It has several memory sockets."] == "vague"
