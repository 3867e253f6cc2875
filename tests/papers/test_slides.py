"""Slides: one for each chapter, all inside the page, pictures described, proofs in the notes."""

from __future__ import annotations

import io
from typing import Any

import pytest
from pptx import Presentation

from baywright.desk.sheets.asked import Asked
from baywright.desk.sheets.files import proofs
from baywright.papers.document import Figure, statements_in
from baywright.papers.slides import document_slides, slides_of
from tests.desk.sheets.sheets import sheet

MOST = 10


def written(name: str) -> Any:
    made = sheet(name, Asked("slides"))
    return Presentation(io.BytesIO(document_slides(made.document, proofs(made))))


@pytest.mark.parametrize("name", ["p1", "f1"])
def test_there_are_no_more_than_ten_and_nothing_leaves_the_page(name: str) -> None:
    file = written(name)
    assert 1 < len(file.slides) <= MOST
    for slide in file.slides:
        for shape in slide.shapes:
            assert shape.left >= 0
            assert shape.left + shape.width <= file.slide_width
            assert shape.top + shape.height <= file.slide_height


def test_a_picture_is_described() -> None:
    slides = slides_of(sheet("p1", Asked("slides")).document)
    words = {b.words for slide in slides for b in slide.blocks if isinstance(b, Figure)}
    shapes = [shape for slide in written("p1").slides for shape in slide.shapes]
    pictures = [shape for shape in shapes if hasattr(shape, "image")]
    assert {each._element.nvPicPr.cNvPr.get("descr") for each in pictures} == words


def test_the_notes_of_a_slide_prove_each_of_its_statements() -> None:
    made = sheet("p1", Asked("slides"))
    for slide, page in zip(slides_of(made.document), written("p1").slides, strict=True):
        notes = page.notes_slide.notes_text_frame.text
        for number in (n for block in slide.blocks for n in statements_in(block)):
            assert f"{number}. {made.statements[number - 1].words}" in notes
