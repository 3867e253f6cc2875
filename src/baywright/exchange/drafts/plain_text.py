"""Plain text: paragraphs between empty lines, items of lists, headings over a line of signs."""

from __future__ import annotations

import re
from collections.abc import Iterator

from baywright.language.blocks import Block, Piece, Role, text_of

_QUOTED = re.compile(r"[ \t]*(?:>[ \t]?)+")
_BULLET = re.compile(r"[ \t]*[-*•·–+][ \t]+")
_NUMBERED = re.compile(r"[ \t]*(?:\d{1,3}[.)]|\(?[a-z]\))[ \t]+")
_RULE = re.compile(r"[ \t]*(?:={3,}|-{3,}|\*{3,}|_{3,}|~{3,})[ \t]*$")


def text_blocks(text: str) -> Iterator[Block]:
    """Yield the blocks of a plain text."""
    heading = ""
    for block in _blocks(text):
        if block.role == "heading":
            yield block
            heading = text_of(block.pieces)
        else:
            yield Block(block.pieces, heading, block.role)


def _blocks(text: str) -> Iterator[Block]:
    waiting: list[Piece] = []
    role: Role = "paragraph"
    for number, line in enumerate(text.split("\n"), 1):
        if _RULE.match(line):
            # One line over a line of signs is a heading; more lines are a paragraph.
            yield from _block(waiting, "heading" if len(waiting) == 1 else role)
            waiting, role = [], "paragraph"
            continue
        # Inside a paragraph a line may start with the number that ends a sentence.
        item, start = _starts(line, numbered=not waiting or role == "item")
        if item or not line[start:].strip():
            yield from _block(waiting, role)
            waiting, role = [], "item" if item else "paragraph"
        if line[start:].strip():
            waiting.append(Piece(line[start:], number, start + 1))
    yield from _block(waiting, role)


def _starts(line: str, *, numbered: bool) -> tuple[bool, int]:
    """Return whether a line starts an item of a list, and where its own text starts."""
    quoted = _QUOTED.match(line)
    start = quoted.end() if quoted else 0
    item = _BULLET.match(line, start) or (_NUMBERED.match(line, start) if numbered else None)
    return bool(item), item.end() if item else start


def _block(lines: list[Piece], role: Role) -> Iterator[Block]:
    """Yield a block of some lines, with a space between any two."""
    if lines:
        pieces: list[Piece] = []
        for line in lines:
            pieces += [line, Piece(" ", line.line, line.column + len(line.text))]
        yield Block(tuple(pieces[:-1]), "", role)
