"""HTML: paragraphs, headings, items and cells; scripts, styles and code are left out."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import TypeAlias

from baywright.exchange.drafts.tables import Heads
from baywright.language.blocks import Block, Piece, Role, text_of
from baywright.language.word_forms import several

_LEFT_OUT = several("script style template pre textarea svg math noscript select title")
_WITHIN_TEXT = several(
    "a abbr b bdi bdo big cite code data del dfn em font i ins kbd label mark q s samp small span "
    "strike strong sub sup time tt u var wbr"
)
_HEADING = re.compile(r"h([1-6])")
Attributes: TypeAlias = list[tuple[str, str | None]]

_CELLS = ("td", "th")


def page_blocks(text: str, line: int = 1, heading: str = "") -> Iterator[Block]:
    """Return the blocks of a page.

    Args:
        text: the page, or a piece of one.
        line: the line of the draft on which it starts.
        heading: the nearest heading above it.
    """
    reader = _Reader(line, heading)
    # Behind the last tag stands text alone; the parser would look for the end of each tag in it.
    last = text.rfind(">") + 1
    reader.feed(text[:last])
    reader.close()
    reader.handle_data(text[last:])
    reader.end_block()
    return iter(reader.blocks)


class _Reader(HTMLParser):
    """Gathers blocks; what a tag holds that is not known to stand within text is a block."""

    def __init__(self, line: int, heading: str) -> None:
        super().__init__(convert_charrefs=False)
        self.blocks: list[Block] = []
        self._line = line
        self._pieces: list[Piece] = []
        self._left_out: list[str] = []
        self._role: tuple[Role, int] = ("paragraph", 1)
        self._heading = heading
        self._heads: list[Heads] = []
        self._in_cell = False

    def handle_starttag(
        self,
        tag: str,
        attrs: Attributes,
    ) -> None:
        if tag in _LEFT_OUT:
            self._left_out.append(tag)
        if self._left_out or tag in _WITHIN_TEXT:
            return
        if tag in ("br", "img"):
            self._add(" ")
            return
        self.end_block()
        self._open_table(tag, attrs)
        self._role = self._role_of(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag in self._left_out:
            del self._left_out[self._left_out.index(tag) :]
        elif not self._left_out and tag not in _WITHIN_TEXT:
            self.end_block()
            self._in_cell = self._in_cell and tag not in (*_CELLS, "tr", "table")
            self._role = self._role_of("")
            if tag == "table" and self._heads:
                self._heads.pop()

    def handle_startendtag(self, tag: str, attrs: Attributes) -> None:
        # A tag that ends itself holds nothing, so nothing is left out after it.
        if tag not in _LEFT_OUT:
            self.handle_starttag(tag, attrs)

    def parse_marked_section(self, i: int, report: int = 1) -> int:  # noqa: ARG002 - as in the base
        """Go past a section of old SGML, on which the base class raises an error."""
        end = self.rawdata.find(">", i)
        return end + 1 if end >= 0 else -1

    def handle_data(self, data: str) -> None:
        if not self._left_out:
            self._add(data)

    def handle_entityref(self, name: str) -> None:
        self._reference(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self._reference(f"&#{name};")

    def _reference(self, written: str) -> None:
        """Add the sign that a reference stands for; it starts where the reference does."""
        if not self._left_out:
            self._add(html.unescape(written))

    def _add(self, data: str) -> None:
        line, column = self.getpos()
        for number, part in enumerate(data.split("\n")):
            at = self._line + line - 1 + number
            start = column + 1 if number == 0 else 1
            if number:
                self._pieces.append(Piece(" ", at, 1))
            if part:
                self._pieces.append(Piece(part, at, start))

    def end_block(self) -> None:
        """Close the block that is open, if it holds any text."""
        pieces, self._pieces = tuple(self._pieces), []
        said = text_of(pieces)
        if not said:
            return
        role, level = self._role
        heads = self._heads[-1].take(said) if role == "cell" and self._heads else ""
        above = "" if role == "heading" else self._heading
        heading = " | ".join(part for part in (above, heads) if part)
        self.blocks.append(Block(pieces, heading, role, level))
        if role == "heading":
            self._heading = said

    def _open_table(self, tag: str, attrs: Attributes) -> None:
        if tag == "table":
            self._heads.append(Heads())
        elif tag == "tr" and self._heads:
            self._heads[-1].next_row()
        elif tag in _CELLS and self._heads:
            self._heads[-1].next_cell(_columns(attrs))
            self._in_cell = True

    def _role_of(self, tag: str) -> tuple[Role, int]:
        heading = _HEADING.fullmatch(tag)
        if heading:
            return "heading", int(heading.group(1))
        if self._in_cell:
            return "cell", 1
        return ("item" if tag in ("li", "dt", "dd") else "paragraph"), 1


def _columns(attrs: Attributes) -> int:
    """Return how many columns a cell is wide."""
    said = dict(attrs).get("colspan") or ""
    return max(1, int(said)) if said.isascii() and said.isdigit() and len(said) < 4 else 1
