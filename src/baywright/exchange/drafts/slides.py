"""PPTX slides: titles, text, tables and notes, with the number of their slide."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator

import pptx
from pptx.shapes.base import BaseShape
from pptx.shapes.graphfrm import GraphicFrame
from pptx.shapes.group import GroupShape
from pptx.slide import Slide
from pptx.table import Table
from pptx.text.text import TextFrame

from baywright.exchange.drafts.tables import Heads
from baywright.language.blocks import Block, Piece, Role, folded, text_of


def slide_blocks(data: bytes) -> Iterator[Block]:
    """Yield the blocks of slides; what pictures and charts show is not read."""
    for number, slide in enumerate(pptx.Presentation(io.BytesIO(data)).slides, 1):
        yield from _Slide(number, slide).blocks()


class _Slide:
    """One slide."""

    def __init__(self, number: int, slide: Slide) -> None:
        self._number = number
        self._slide = slide
        title = slide.shapes.title
        self._title = title.shape_id if title is not None else None
        self._heading = folded(title.text_frame.text) if title is not None else ""

    def blocks(self) -> Iterator[Block]:
        """Yield its blocks, the title first."""
        shapes = list(_flat(self._slide.shapes))
        for shape in sorted(shapes, key=lambda each: each.shape_id != self._title):
            yield from self._shape(shape)
        if self._slide.has_notes_slide:
            notes = self._slide.notes_slide.notes_text_frame
            if notes is not None:
                where = f"slide {self._number}, notes"
                yield from self._frame(notes, "note", self._heading, where)

    def _shape(self, shape: BaseShape) -> Iterator[Block]:
        if isinstance(shape, GraphicFrame):
            if shape.has_table:
                yield from self._table(shape.table)
        elif shape.has_text_frame:
            is_title = shape.shape_id == self._title
            role: Role = "heading" if is_title else "item"
            frame: TextFrame = shape.text_frame  # type: ignore[attr-defined]
            yield from self._frame(frame, role, "" if is_title else self._heading)

    def _table(self, table: Table) -> Iterator[Block]:
        heads = Heads()
        for row in table.rows:
            heads.next_row()
            for cell in row.cells:
                heads.next_cell()
                above = heads.take(folded(cell.text_frame.text))
                heading = " | ".join(part for part in (self._heading, above) if part)
                yield from self._frame(cell.text_frame, "cell", heading)

    def _frame(
        self, frame: TextFrame, role: Role, heading: str, where: str = ""
    ) -> Iterator[Block]:
        for paragraph in frame.paragraphs:
            piece = Piece(paragraph.text, self._number, 1, where or f"slide {self._number}")
            if text_of((piece,)):
                yield Block((piece,), heading, role, paragraph.level + 1)


def _flat(shapes: Iterable[BaseShape]) -> Iterator[BaseShape]:
    """Yield shapes in their order, those of groups in place of the group."""
    for shape in shapes:
        if isinstance(shape, GroupShape):
            yield from _flat(shape.shapes)
        else:
            yield shape
