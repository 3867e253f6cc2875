"""What each kind of draft is read as."""

from __future__ import annotations

from pathlib import Path

import docx
import pptx
import pytest
import webvtt
from docx.oxml.ns import qn
from docx.oxml.parser import OxmlElement
from pptx.util import Cm

from baywright.exchange.drafts.draft import read_draft
from baywright.exchange.drafts.timed_text import cues
from tests.exchange.drafts.places import is_at_its_place

CAPTIONS = """WEBVTT - Ferryman F2

NOTE
Not spoken.

STYLE
::cue { color: white }

first
00:00:01.000 --> 00:00:03.000 align:start
<v Ann>The F2 takes up to
24 <b>drives</b> &amp; two

00:03.000 --> 00:05.000
network modules. Now the rear.

00:20.000 --> 00:25.000
- Five USB ports.
- Six fans.
"""


def _read(tmp_path: Path, name: str, text: str | bytes) -> list[tuple[str, str, str]]:
    path = tmp_path / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return [(each.place.where, each.text, each.heading) for each in read_draft(path).passages]


def test_plain_text_has_headings_items_and_quoted_lines(tmp_path: Path) -> None:
    text = "Slots\n=====\n\nIt takes up to\n24. That is all.\n\n- One.\n- Two.\n\n> Quoted.\n"
    assert _read(tmp_path, "a.txt", text) == [
        ("1:1", "Slots", ""),
        ("4:1", "It takes up to 24.", "Slots"),
        ("5:5", "That is all.", "Slots"),
        ("7:3", "One.", "Slots"),
        ("8:3", "Two.", "Slots"),
        ("10:3", "Quoted.", "Slots"),
    ]


def test_markdown_leaves_out_code_and_reads_tables_with_their_heads(tmp_path: Path) -> None:
    text = (
        "---\ntitle: no\n---\n# Ports\n\n```\nno\n```\n\n    no\n\n"
        "| Kind | Rear |\n|---|---|\n| USB | 3 \\| 4 |\n\nSee ![no. no](a.png) this &amp; that.\n"
    )
    assert _read(tmp_path, "a.md", text) == [
        ("4:3", "Ports", ""),
        ("12:3", "Kind", "Ports"),
        ("12:10", "Rear", "Ports"),
        ("14:3", "USB", "Ports | Kind"),
        ("14:9", "3 | 4", "Ports | USB | Rear"),
        ("16:1", "See this & that.", "Ports"),
    ]


def test_a_page_leaves_out_scripts_and_styles(tmp_path: Path) -> None:
    text = (
        "<!doctype html><title>no</title><style>p { no: no }</style><h2>Ports</h2>\n"
        "<table><tr><th>Kind<th>Rear<tr><td><p>USB</p><td>3</table>\n"
        "<script>no('<p>no</p>')</script><p>It has <b>24</b> drives.<br>So &lt; 25.\n<ul><li>One"
    )
    found = _read(tmp_path, "a.html", text)
    assert all(is_at_its_place(each, text) for each in read_draft(tmp_path / "a.html").passages)
    assert found == [
        ("1:64", "Ports", ""),
        ("2:16", "Kind", "Ports"),
        ("2:24", "Rear", "Ports"),
        ("2:39", "USB", "Ports | Kind"),
        ("2:50", "3", "Ports | USB | Rear"),
        ("3:36", "It has 24 drives.", "Ports"),
        ("3:64", "So < 25.", "Ports"),
        ("4:9", "One", "Ports"),
    ]


def test_captions_keep_time_codes_and_split_at_pauses_and_turns(tmp_path: Path) -> None:
    assert [(where, text) for where, text, _ in _read(tmp_path, "a.vtt", CAPTIONS)] == [
        ("00:00:01.000", "The F2 takes up to 24 drives & two network modules."),
        ("00:00:03.000", "Now the rear."),
        ("00:00:20.000", "Five USB ports."),
        ("00:00:20.000", "Six fans."),
    ]


def test_cues_are_those_that_another_reader_finds(tmp_path: Path) -> None:
    path = tmp_path / "a.vtt"
    path.write_text(CAPTIONS, encoding="utf-8")
    ours = [(cue.start, cue.end, len(cue.lines)) for cue in cues(CAPTIONS, path, web=True)]
    theirs = [
        (c.start_in_seconds, c.end_in_seconds, len(c.raw_text.splitlines()))
        for c in webvtt.read(str(path)).captions
    ]
    assert [(int(start), int(end), lines) for start, end, lines in ours] == theirs


def test_subrip_has_numbers_and_commas(tmp_path: Path) -> None:
    text = (
        "1\n00:00:01,000 --> 00:00:02,500\nSix <i>fans</i>,\n\n"
        "2\n00:00:02,500 --> 00:00:04,000\nN+1.\n"
    )
    assert _read(tmp_path, "a.srt", text) == [("00:00:01.000", "Six fans, N+1.", "")]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_encodings_that_are_read(tmp_path: Path, encoding: str) -> None:
    text = "Kühlung: 30 °C.\r\nZone A."
    assert _read(tmp_path, "a.txt", text.encode(encoding)) == [
        ("1:1", "Kühlung: 30 °C.", ""),
        ("2:1", "Zone A.", ""),
    ]


def test_a_document_is_read_with_tables_headers_and_changes(tmp_path: Path) -> None:
    made = docx.Document()
    made.add_heading("Ports", 1)
    paragraph = made.add_paragraph("It has ")
    paragraph.add_run("four").bold = True
    paragraph.add_run(" ports. Two more.")
    gone = OxmlElement("w:del")
    gone.append(paragraph.add_run(" Not read.")._r)
    paragraph._p.append(gone)
    table = made.add_table(2, 2)
    for at, text in enumerate(("Kind", "Rear", "USB", "3")):
        table.cell(at // 2, at % 2).text = text
    made.add_paragraph("One", style="List Bullet")
    made.sections[0].header.paragraphs[0].text = "Draft of May."
    made.save(str(tmp_path / "made.docx"))
    assert _read(tmp_path, "a.docx", (tmp_path / "made.docx").read_bytes()) == [
        ("paragraph 1", "Ports", ""),
        ("paragraph 2", "It has four ports.", "Ports"),
        ("paragraph 2", "Two more.", "Ports"),
        ("paragraph 3", "Kind", "Ports"),
        ("paragraph 4", "Rear", "Ports"),
        ("paragraph 5", "USB", "Ports | Kind"),
        ("paragraph 6", "3", "Ports | USB | Rear"),
        ("paragraph 7", "One", "Ports"),
        ("header, paragraph 8", "Draft of May.", ""),
    ]
    assert gone.tag == qn("w:del")


def test_slides_are_read_with_tables_and_notes(tmp_path: Path) -> None:
    made = pptx.Presentation()
    slide = made.slides.add_slide(made.slide_layouts[1])
    slide.shapes.placeholders[1].text_frame.text = "One point. Two.\nThree."
    assert slide.shapes.title is not None
    slide.shapes.title.text = "Ports"
    notes = slide.notes_slide.notes_text_frame
    assert notes is not None
    notes.text = "Say this."
    table = slide.shapes.add_table(2, 2, Cm(2), Cm(9), Cm(9), Cm(3)).table
    for at, text in enumerate(("Kind", "Rear", "USB", "3")):
        table.cell(at // 2, at % 2).text = text
    made.save(str(tmp_path / "made.pptx"))
    assert _read(tmp_path, "a.pptx", (tmp_path / "made.pptx").read_bytes()) == [
        ("slide 1", "Ports", ""),
        ("slide 1", "One point.", "Ports"),
        ("slide 1", "Two.", "Ports"),
        ("slide 1", "Three.", "Ports"),
        ("slide 1", "Kind", "Ports"),
        ("slide 1", "Rear", "Ports"),
        ("slide 1", "USB", "Ports | Kind"),
        ("slide 1", "3", "Ports | USB | Rear"),
        ("slide 1, notes", "Say this.", "Ports"),
    ]
