"""Sentences end where a reader would end them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.language.sentences import sentence_spans


def _sentences(text: str) -> list[str]:
    return [text[begin:end] for begin, end in sentence_spans(text)]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("It draws 225 W. The limit is 2.4 kW.", 2),
        ("It stands in zone C. Drives go there.", 2),
        ("Ask M. Aldous about it. He knows.", 2),
        ("Memory, e.g. 64 GB, fits. Two more fit.", 2),
        ("See fig. 3 and No. 5. That is all.", 2),
        ("It holds max. 24 drives, approx. 31 kg.", 1),
        ("Wait 5 min. Then go on.", 2),
        ("The answer is no. It does not fit.", 2),
        ("From 3 Mar. 2031 it ships. Before, it does not.", 2),
        ("Six fans, N+1 … and more.", 1),
        ("Can it? Yes! It can.", 3),
        ("does it fit? is there room?", 2),
        ("“It fits.” That was the answer.", 2),
        ("1. Pull the cords.", 1),
        ("Lift out the air guide; it cuts power.", 1),
        ("Update firmware v2.4.1 first. Then go.", 2),
        ("", 0),
        ("   ", 0),
    ],
)
def test_a_stop_ends_a_sentence_only_where_one_ends(text: str, parts: int) -> None:
    assert len(_sentences(text)) == parts


@given(st.text(alphabet="aB1. !?\n“”(", max_size=80))
def test_nothing_is_lost_but_white_space(text: str) -> None:
    assert "".join("".join(_sentences(text)).split()) == "".join(text.split())


@given(st.text(max_size=200))
def test_sentences_follow_one_another(text: str) -> None:
    edges = [edge for span in sentence_spans(text) for edge in span]
    assert edges == sorted(edges)
