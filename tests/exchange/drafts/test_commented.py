"""Comments stand beside their sentences, and the text of the document stays as it was."""

from __future__ import annotations

import io
from pathlib import Path

import docx
import pytest
from docx.oxml.ns import qn

from baywright.exchange.drafts.commented import Note, commented
from baywright.exchange.drafts.draft import Draft, read_draft
from baywright.exchange.drafts.word_runs import Element
from baywright.language.passages import Place
from baywright.problems import Problems


@pytest.fixture
def draft(tmp_path: Path) -> Draft:
    made = docx.Document()
    paragraph = made.add_paragraph("The F2 is our host. It has ")
    paragraph.add_run("28 memory").bold = True
    paragraph.add_run(" sockets. All are DDR5.")
    made.add_table(1, 1).cell(0, 0).text = "Six fans. N+1."
    made.sections[0].header.paragraphs[0].text = "For May."
    made.save(str(tmp_path / "a.docx"))
    return read_draft(tmp_path / "a.docx")


def _marked(paragraphs: list[Element]) -> dict[str, str]:
    """Return the text between start and end of each comment, by its id."""
    open_: dict[str, str] = {}
    told: dict[str, str] = {}
    for element in (each for paragraph in paragraphs for each in paragraph.iter()):
        name = element.get(qn("w:id"))
        if element.tag == qn("w:commentRangeStart"):
            open_[name] = ""
        elif element.tag == qn("w:commentRangeEnd"):
            told[name] = open_.pop(name)
        elif element.tag == qn("w:t"):
            open_ = {key: text + element.text for key, text in open_.items()}
    return told


def test_a_comment_covers_its_sentence_alone(draft: Draft) -> None:
    notes = [Note(passage.place, passage.text) for passage in draft.passages]
    made = docx.Document(io.BytesIO(commented(draft, notes)))
    marked = _marked(list(made.element.body.iter(qn("w:p"))))
    said = {str(comment.comment_id): comment.text for comment in made.comments}
    beside = said.popitem()[1]
    assert {marked[key].strip() for key in said} == set(said.values())
    assert len(said) == 5
    assert beside == "header, paragraph 3: For May."


def test_the_text_of_the_document_stays(draft: Draft, tmp_path: Path) -> None:
    notes = [Note(passage.place, "Why.") for passage in draft.passages]
    path = tmp_path / "b.docx"
    path.write_bytes(commented(draft, notes))
    assert read_draft(path).passages == draft.passages
    first = docx.Document(str(path)).paragraphs[0]
    assert [run.text for run in first.runs if run.bold] == ["28 memory"]


def test_a_text_holds_no_comments(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    path.write_text("It has 28 sockets.", encoding="utf-8")
    with pytest.raises(Problems, match="is no DOCX document"):
        commented(read_draft(path), [Note(Place("1:1", 1, 1), "Why.")])
