"""Each passage is found at the line and column it gives, in every kind of text."""

from __future__ import annotations

import html
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from baywright.exchange.drafts.marked_text import marked_blocks
from baywright.exchange.drafts.page import page_blocks
from baywright.exchange.drafts.plain_text import text_blocks
from baywright.exchange.drafts.timed_text import caption_blocks, time_code
from baywright.language.blocks import folded, passages
from tests.exchange.drafts.places import is_at_its_place

WORDS = st.sampled_from(
    ("It", "takes", "24", "drives", "and", "2.4", "kW", "zone", "A", "N+1", "été", "O2", "64 GB")
)
SENTENCES = st.lists(WORDS, min_size=1, max_size=12).map(lambda words: f"So {' '.join(words)}.")
PARAGRAPHS = st.lists(SENTENCES, min_size=1, max_size=4)
DRAFTS = st.lists(PARAGRAPHS, min_size=1, max_size=5)
SPACES = st.sampled_from((" ", "  ", "\n", " \n", "\n  "))


@given(DRAFTS, st.data())
def test_a_plain_text_gives_back_its_sentences_at_their_places(
    draft: list[list[str]], data: st.DataObject
) -> None:
    text = "\n\n".join(
        "".join(sentence.replace(" ", data.draw(SPACES)) + " " for sentence in paragraph)
        for paragraph in draft
    )
    found = passages(text_blocks(text))
    assert [each.text for each in found] == [folded(s) for paragraph in draft for s in paragraph]
    assert all(is_at_its_place(each, text) for each in found)
    # From its place on, the draft reads as the passage does.
    for each in found:
        lines = text.split("\n")[each.place.line - 1 :]
        rest = folded("\n".join([lines[0][each.place.column - 1 :], *lines[1:]]))
        assert rest.startswith(each.text)


@given(DRAFTS, st.sampled_from(("**{}**", "*{}*", "[{}](a_b.md 'So So')", "`{}`", "{}", "~~{}~~")))
def test_markdown_keeps_places_through_its_marks(draft: list[list[str]], mark: str) -> None:
    text = "\n\n".join(
        "> - " + "\n>   ".join(s.replace("takes", mark.format("takes")) for s in paragraph)
        for paragraph in draft
    )
    found = passages(marked_blocks(text))
    assert [each.text for each in found] == [s for paragraph in draft for s in paragraph]
    assert all(is_at_its_place(each, text) for each in found)


@given(DRAFTS, st.sampled_from(("<b>{}</b>", "<a href='So.'>{}</a>", "{}<!-- So -->", "{}")))
def test_a_page_keeps_places_through_its_tags(draft: list[list[str]], mark: str) -> None:
    text = "\n".join(
        f"<p>{' '.join(html.escape(s).replace('takes', mark.format('takes')) for s in p)}</p>"
        for p in draft
    )
    found = passages(page_blocks(text))
    assert [each.text for each in found] == [s for paragraph in draft for s in paragraph]
    assert all(is_at_its_place(each, text) for each in found)


@given(DRAFTS)
def test_captions_join_sentences_over_cues(draft: list[list[str]]) -> None:
    words = [word for paragraph in draft for sentence in paragraph for word in sentence.split(" ")]
    cues = [words[at : at + 5] for at in range(0, len(words), 5)]
    text = "WEBVTT\n\n" + "\n".join(
        f"{time_code(2.0 * n)} --> {time_code(2.0 * n + 2)}\n{' '.join(cue)}\n"
        for n, cue in enumerate(cues)
    )
    found = passages(caption_blocks(text, Path("a.vtt"), web=True))
    assert [each.text for each in found] == [s for paragraph in draft for s in paragraph]
    assert all(is_at_its_place(each, text) for each in found)
    for each in found:
        assert each.start is not None
        assert each.end is not None
        assert each.place.where == time_code(each.start)
        assert each.start < each.end
