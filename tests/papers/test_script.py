"""A script as Markdown, captions, DOCX and cards."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from itertools import pairwise

import docx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.papers.as_docx import document_docx
from baywright.papers.cards import cards_page, cards_pdf
from baywright.papers.script import Answered, CallOut, Part, Script, Spoken, clock, paragraphs
from baywright.papers.script_captions import LINES, WIDTH, script_captions
from baywright.papers.script_document import script_document
from baywright.papers.script_markdown import notes_markdown, script_markdown

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 40" width="100" height="40">'
    '<title>the tray</title><desc>the tray</desc><rect width="100" height="40"/></svg>'
)
SAID = (
    Spoken("Caution: the tray is hot.", "Caution: the tray is hot.", "caution", 0, 3),
    Spoken("Touching it burns.", "Touching it burns.", "caution", 3, 5),
    Spoken("Wait 5 min.", "Wait five minutes.", "caution", 5, 7),
    Spoken("Now open the tray.", "Now open the tray.", "act", 7, 9),
    Spoken("It holds 96 plates.", "It holds ninety-six plates.", "line", 9, 12, "plates == 96"),
)
SCRIPT = Script(
    machine="Tiller T1",
    maker="Brackenmoor Works",
    standing="Tiller T1 (book t1), as of 2031-07-01: shipping.",
    build="",
    stance="",
    audience="sellers",
    rate=140,
    planning_aid="Planning aid.",
    tour="covers off and on 2",
    parts=(Part(1, "the tray", "front", ("cords",), 0, 12, SAID,
                (CallOut(1, "tray A", "at the left"),), SVG),),
    closing=(Spoken("Thank you for watching.", "Thank you for watching.", "talk", 12, 14),),
    kit=(("a torque driver", "for the tray"),),
    numbers=(("96", "ninety-six"),),
    questions=(Answered("How many plates?", "At most 96.", "shares words", "most(plates)"),),
    left_out=(),
)  # fmt: skip


def test_a_caution_is_a_paragraph_before_its_act() -> None:
    kinds = [(kind, len(held)) for kind, held in paragraphs(SCRIPT.parts[0])]
    assert kinds == [("caution", 3), ("act", 1), ("line", 1)]


def test_directions_are_code_and_what_is_spoken_is_text() -> None:
    text = script_markdown(SCRIPT)
    spoken = re.sub(r"```.*?```", "", text.partition("---\n\n")[2], flags=re.DOTALL)
    assert "tray A, at the left" in text
    assert "tray A" not in spoken
    assert spoken.index("> Caution: the tray is hot.") < spoken.index("**Now open the tray.**")


def test_notes_hold_kit_numbers_questions_and_proofs() -> None:
    notes = notes_markdown(SCRIPT)
    for held in (
        "a torque driver",
        "ninety-six",
        "**How many plates?** At most 96.",
        "plates == 96",
    ):
        assert held in notes


CUE = re.compile(r"(\d\d):(\d\d\.\d{3}) --> (\d\d):(\d\d\.\d{3})\n(.*?)(?:\n\n|\n\Z)", re.DOTALL)


def cues(text: str) -> list[tuple[float, float, list[str]]]:
    found = []
    for match in CUE.finditer(re.sub(r"\b00:(?=\d\d:\d\d\.)", "", text)):
        start, end = (60 * int(match[at]) + float(match[at + 1]) for at in (1, 3))
        found.append((start, end, match[5].split("\n")))
    return found


@given(st.lists(st.lists(st.from_regex(r"[a-z]{1,14}", fullmatch=True), min_size=1), min_size=1))
def test_cues_are_short_and_follow_one_another(sentences: list[list[str]]) -> None:
    told, now = [], 0.0
    for words in sentences:
        text = f"{' '.join(words)}."
        told.append(Spoken(text, text, "line", now, now + len(words) / 2))
        now += len(words) / 2 + 0.3
    part = Part(1, "the tray", "front", (), 0, now, tuple(told), (), SVG)
    held = cues(script_captions(replace(SCRIPT, parts=(part,), closing=())))
    assert all(len(lines) <= LINES for _, _, lines in held)
    assert all(len(line) <= WIDTH for _, _, lines in held for line in lines)
    assert all(end > start for start, end, _ in held)
    assert all(one[1] <= two[0] + 1e-3 for one, two in pairwise(held))
    said = [word for _, _, lines in held for line in lines for word in line.split()]
    assert said == [word for each in told for word in each.aloud.split()]


def test_the_docx_says_what_the_script_says() -> None:
    file = docx.Document(io.BytesIO(document_docx(script_document(SCRIPT))))
    text = "\n".join(paragraph.text for paragraph in file.paragraphs)
    assert "The tray is hot. Touching it burns. Wait 5 min." in text
    assert text.index("Touching it burns.") < text.index("Now open the tray.")
    assert [cell.text for cell in file.tables[0].rows[1].cells] == ["1", "tray A", "at the left"]


def test_cards_have_one_for_each_station_and_one_for_what_is_at_hand() -> None:
    page = cards_page(SCRIPT)
    assert page.count('<section class="card') == 2
    assert page.index("the tray is hot") < page.index("Now open the tray.")
    assert cards_pdf(SCRIPT).startswith(b"%PDF")


@pytest.mark.parametrize(("seconds", "shown"), [(0, "0:00"), (59.6, "1:00"), (724.6, "12:05")])
def test_times_are_minutes_and_seconds(seconds: float, shown: str) -> None:
    assert clock(seconds) == shown
