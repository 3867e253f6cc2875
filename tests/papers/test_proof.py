"""The proof of a draft: every sentence is on the page, every mark has its note and its word."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser

from hypothesis import given
from hypothesis import strategies as st

from baywright.language.blocks import Block, Piece, passages
from baywright.language.kind_words import KIND_WORDS, UNMARKED, counts, message
from baywright.language.passages import KINDS, Kind, Remark
from baywright.papers.environment import environment
from baywright.papers.proof import ProofPaper, parts_put_in, proof_page

KIND = st.sampled_from(KINDS)
TEXTS = st.lists(
    st.sampled_from(("It has 28 sockets.", "N+1 <b> & more.", "Six fans.")), min_size=1
)


def _paper(texts: list[str], kinds: list[Kind]) -> ProofPaper:
    blocks = (
        Block((Piece("Ports", 1, 1),), role="heading"),
        Block((Piece(" ".join(texts), 2, 1),), "Ports"),
    )
    found = passages(blocks)
    remarks = tuple(
        Remark(passage, kind, "memory == 1 TB", ("clever",), "It has 32 sockets.", "Counted.")
        for passage, kind in zip(found, kinds, strict=False)
    )
    return ProofPaper("a.md", "Ferryman F2", "2031-07-01", blocks, found, remarks, 150.4)


class _Page(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.text = ""
        self.classes: list[str] = []
        self.ids: set[str] = set()
        self.links: set[str] = set()

    def handle_starttag(
        self,
        tag: str,  # noqa: ARG002 - the base class hands it over
        attrs: list[tuple[str, str | None]],
    ) -> None:
        held = dict(attrs)
        self.classes.append(held.get("class") or "")
        self.ids.add(held.get("id") or "")
        self.links.add((held.get("href") or "#").removeprefix("#"))

    def handle_data(self, data: str) -> None:
        self.text += data


def _read(paper: ProofPaper) -> _Page:
    page = _Page()
    page.feed(proof_page(paper))
    return page


@given(TEXTS, st.lists(KIND, min_size=1, max_size=12))
def test_every_sentence_and_every_note_is_on_the_page(texts: list[str], kinds: list[Kind]) -> None:
    paper = _paper(texts, kinds)
    page = _read(paper)
    assert all(passage.text in page.text for passage in paper.passages)
    for kind in {remark.kind for remark in paper.remarks} - UNMARKED:
        assert page.classes.count(f"marked {kind}") >= 3  # the draft, its note, the list of marks
        assert KIND_WORDS[kind] in page.text
    assert page.links <= page.ids


def test_every_kind_has_a_word_and_every_mark_a_line_of_its_own() -> None:
    assert set(KIND_WORDS) == set(KINDS)
    style, _, _ = environment().loader.get_source(environment(), "proof.css")  # type: ignore[union-attr]
    rules = dict(re.findall(r"\.marked\.([\w-]+) \{([^}]*)\}", style))
    shared = {"not-yet", "no-longer"}  # drawn like sample: all three are about dates
    assert set(KINDS) - UNMARKED - shared <= set(rules)
    assert len(set(rules.values())) == len(rules)


def test_a_mark_is_no_colour_alone() -> None:
    style, _, _ = environment().loader.get_source(environment(), "proof.css")  # type: ignore[union-attr]
    assert not re.search(r"(red|green|amber|#[0-9a-f]{3})", style)


def test_dates_stay_whole() -> None:
    paper = _paper(["It ships."], [])
    remark = Remark(paper.passages[1], "not-yet", sentence="It ships on 2031-06-02.")
    page = proof_page(replace(paper, remarks=(remark,)))
    assert '<span class="date">2031-06-02.</span>' not in page
    assert '<span class="date">2031-06-02</span>' in page


def test_what_was_put_in_is_told_apart() -> None:
    assert parts_put_in("It has 28 sockets.", "It has 32 sockets, 16 each.") == (
        ("It has ", False),
        ("32 sockets, 16 each.", True),
    )
    assert parts_put_in("", "All new.") == (("All new.", True),)


@given(st.text(max_size=60), st.text(max_size=60))
def test_the_parts_are_the_corrected_sentence(before: str, after: str) -> None:
    held = "".join(text for text, _ in parts_put_in(before, after))
    assert held.split() == after.split()


def test_a_message_tells_word_sentence_reason_and_what_was_not_understood() -> None:
    (remark,) = _paper(["It has 28 sockets."], ["true", "false"]).remarks[1:]
    assert message(remark) == "False: It has 32 sockets. Counted. Not understood: clever."
    assert counts([remark]) == {"false": 1}
