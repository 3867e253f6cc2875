"""DOCX documents: body, tables and text boxes, then headers, footers, footnotes and endnotes."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import docx
from docx.document import Document
from docx.oxml.ns import qn
from docx.oxml.parser import parse_xml

from baywright.exchange.drafts.refusing import UNREADABLE, damaged, wrong_parts
from baywright.exchange.drafts.tables import Heads
from baywright.exchange.drafts.word_runs import Element, paragraphs, runs
from baywright.language.blocks import Block, Piece, Role, text_of

BESIDE = ("header", "footer", "footnotes", "endnotes")
"""Parts that are read after the body, by the end of their type."""

_HEADING = re.compile(r"(?:heading ([1-9])|(title))$", re.IGNORECASE)


def opened(data: bytes, path: Path) -> Document:
    """Return a document.

    Raises:
        Problems: kind ``damaged``.
    """
    try:
        document = docx.Document(io.BytesIO(data))
    except UNREADABLE as error:
        raise wrong_parts(path, error) from error
    if document.element.tag != qn("w:document") or document.element.find(qn("w:body")) is None:
        raise damaged(path, "its main part is no document")
    return document


def document_blocks(document: Document) -> Iterator[Block]:
    """Yield the blocks of a document; paragraphs are counted through all of it from 1."""
    reader = _Reader({style.style_id: style.name or "" for style in document.styles})
    yield from reader.blocks(document.element.body, "")
    for name, root in _beside(document):
        yield from reader.blocks(root, name)


def numbered(document: Document) -> Iterator[tuple[int, Element]]:
    """Yield the paragraphs of the body with the numbers that places give."""
    return enumerate(paragraphs(document.element.body), 1)


def _beside(document: Document) -> Iterator[tuple[str, Element]]:
    for relation in document.part.rels.values():
        name = relation.reltype.rpartition("/")[2]
        if name in BESIDE and not relation.is_external:
            yield name, parse_xml(relation.target_part.blob)


@dataclass
class _Table:
    """A table that is being read: where it stands now."""

    element: Element
    heads: Heads = field(default_factory=Heads)
    row: Element = None
    cell: Element = None

    def enter(self, row: Element, cell: Element) -> None:
        """Go on to the cell of the next paragraph."""
        if row is not self.row:
            self.heads.next_row()
            self.row = row
        if cell is not self.cell:
            span = cell.find(f"{qn('w:tcPr')}/{qn('w:gridSpan')}")
            self.heads.next_cell(int(span.get(qn("w:val"))) if span is not None else 1)
            self.cell = cell


class _Reader:
    """Reads paragraphs and remembers what they stand below."""

    def __init__(self, styles: dict[str, str]) -> None:
        self._styles = styles
        self._number = 0
        self._heading = ""
        self._tables: list[_Table] = []

    def blocks(self, root: Element, beside: str) -> Iterator[Block]:
        """Yield the blocks below an element.

        Args:
            root: the element.
            beside: what it is, or empty for the body.
        """
        for paragraph in paragraphs(root):
            self._number += 1
            where = f"{beside + ', ' if beside else ''}paragraph {self._number}"
            pieces = tuple(_pieces(paragraph, self._number, where))
            yield from self._block(paragraph, pieces, beside)

    def _block(self, paragraph: Element, pieces: tuple[Piece, ...], beside: str) -> Iterator[Block]:
        said = text_of(pieces)
        heads = self._heads(paragraph, said)
        role, level = self._role(paragraph)
        if beside:
            role = "note"
        elif heads is not None:
            role = "cell"
        above = "" if role in ("heading", "note") else self._heading
        if said:
            heading = " | ".join(part for part in (above, heads) if part)
            yield Block(pieces, heading, role, level)
        if said and role == "heading":
            self._heading = said

    def _heads(self, paragraph: Element, said: str) -> str | None:
        """Return the heads of a cell, or ``None`` outside of tables."""
        above = {each.tag: each for each in reversed(list(paragraph.iterancestors()))}
        cell, row, table = (above.get(qn(f"w:{name}")) for name in ("tc", "tr", "tbl"))
        if cell is None or row is None or table is None:
            return None
        known = next((each for each in self._tables if each.element is table), None)
        if known is None:
            known = _Table(table)
            self._tables.append(known)
        known.enter(row, cell)
        return known.heads.take(said)

    def _role(self, paragraph: Element) -> tuple[Role, int]:
        properties = paragraph.find(qn("w:pPr"))
        if properties is None:
            return "paragraph", 1
        style = properties.find(qn("w:pStyle"))
        name = self._styles.get(style.get(qn("w:val")), "") if style is not None else ""
        heading = _HEADING.match(name)
        if heading:
            return "heading", int(heading.group(1) or 1)
        is_item = properties.find(qn("w:numPr")) is not None or name.startswith("List")
        return ("item" if is_item else "paragraph"), 1


def _pieces(paragraph: Element, number: int, where: str) -> Iterator[Piece]:
    column = 1
    for _, text in runs(paragraph):
        if text:
            yield Piece(text, number, column, where)
        column += len(text)
