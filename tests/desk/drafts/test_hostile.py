"""Sentences built to harm are not understood, soon, and the rest of their draft is judged."""

from __future__ import annotations

import time

import pytest

from baywright.desk.drafts.checking import proofread_passages
from baywright.exchange.drafts.plain_text import text_blocks
from baywright.language.blocks import passages
from tests.desk.demo import opened

SOON = 2.0
"""Seconds of a processor, with a book that is open."""

KNOWN = "It has 28 memory sockets."

SENTENCES = {
    "a sentence without end": "the F2 takes up to 24 fast drives and " * 5_000 + "more.",
    "commas": "," * 100_000,
    "brackets": "(" * 20_000 + "24 fast drives" + ")" * 20_000 + ".",
    "accents": "T\u0301" * 50_000 + " drives.",
    "alternatives": f"The F2 takes {', '.join(['16 SAS drives or 8 fast drives'] * 55)}.",
    "claims": f"The F2 has {' and '.join(f'{n} fans' for n in range(1, 150))}.",
    "numbers": f"The F2 takes {'12 ' * 600}drives.",
    "a number of 5,000 digits": f"The F2 takes 1{'0' * 5_000} drives.",
    "a number of 1,500 digits": f"Peak draw goes up to 1{'0' * 1_500} W.",
    "a fraction of 1,500 digits": f"It has 1.{'3' * 1_500} fans.",
    "a site in space": "At 99,999,999 m the F2 has six fans.",
    "a site too cold": "At -500 °C the F2 has six fans.",
    "signs of a program": "The F2 takes count('); import os 24 fast drives.",
    "a division": "It has 1/0 fans.",
}


@pytest.mark.parametrize("name", SENTENCES)
def test_a_hostile_sentence_is_never_true_and_costs_little(name: str) -> None:
    book = opened("f2")
    draft = passages(text_blocks(f"{SENTENCES[name]}\n\n{KNOWN}"))
    proofread_passages(book, passages(text_blocks(KNOWN)))
    start = time.process_time()
    remarks = proofread_passages(book, draft)
    assert time.process_time() - start < SOON
    said = {each.passage.text: each.kind for each in remarks}
    assert said[KNOWN] == "false"
    assert "true" not in said.values()


def test_sites_do_not_pile_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("baywright.desk.proofreading.proving.MOST_SITES", 2)
    text = " ".join(f"At {metres} m the F2 has six fans." for metres in (100, 200, 300, 100))
    remarks = proofread_passages(opened("f2"), passages(text_blocks(text)))
    assert [each.kind for each in remarks] == ["only-if"] * 4
