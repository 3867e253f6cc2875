"""Markdown to blocks: text, lists and headings, with marks in it that stand for pieces.

A mark is a number between two private characters. It stands for a run of text where it is part of
a line, and for a block where it is a paragraph of its own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from markdown_it import MarkdownIt
from markdown_it.token import Token

from baywright.papers.document import Block, Bullets, Heading, Line, Paragraph, Run, Style

OPENING, CLOSING = "\ue000", "\ue001"
_MARK = re.compile(f"{OPENING}(\\d+){CLOSING}")


class Pieces:
    """What marks stand for, in the order in which they were made."""

    def __init__(self) -> None:
        self._lines: dict[int, Line] = {}
        self._blocks: dict[int, tuple[Block, ...]] = {}

    def line(self, *runs: Run) -> str:
        """Return a mark that stands for text."""
        number = self._next()
        self._lines[number] = runs
        return f"{OPENING}{number}{CLOSING}"

    def blocks(self, *blocks: Block) -> str:
        """Return a mark that stands for blocks; it has to be a paragraph of its own."""
        number = self._next()
        self._blocks[number] = blocks
        return f"\n\n{OPENING}{number}{CLOSING}\n\n"

    def _next(self) -> int:
        return len(self._lines) + len(self._blocks)

    def line_of(self, number: int) -> Line:
        """Return the text a mark stands for; of blocks none."""
        return self._lines.get(number, ())

    def blocks_of(self, number: int) -> tuple[Block, ...] | None:
        """Return the blocks a mark stands for, or ``None`` when it stands for text."""
        return self._blocks.get(number)


def blocks_of(text: str, pieces: Pieces) -> tuple[Block, ...]:
    """Return a text in Markdown as blocks.

    Args:
        text: headings, paragraphs, lists, strong and emphasised words, code, and marks.
        pieces: what the marks stand for.
    """
    tokens = MarkdownIt("commonmark", {"html": False}).parse(text)
    return tuple(_blocks(tokens, pieces))


def _blocks(tokens: Sequence[Token], pieces: Pieces) -> Iterator[Block]:
    items: list[Line] | None = None
    for at, token in enumerate(tokens):
        match token.type:
            case "bullet_list_open" | "ordered_list_open":
                items = []
            case "bullet_list_close" | "ordered_list_close":
                yield Bullets(tuple(items or ()), ordered=token.type.startswith("ordered"))
                items = None
            case "inline" if items is not None:
                items.append(_line(token, pieces))
            case "inline" if tokens[at - 1].type == "heading_open":
                words = "".join(run.text for run in _line(token, pieces))
                yield Heading(int(tokens[at - 1].tag[1:]), words)
            case "inline":
                yield from _paragraph(token, pieces)
            case _:
                continue


def _paragraph(token: Token, pieces: Pieces) -> Iterator[Block]:
    alone = _MARK.fullmatch(token.content.strip())
    blocks = pieces.blocks_of(int(alone[1])) if alone else None
    if blocks is not None:
        yield from blocks
        return
    line = _line(token, pieces)
    if any(run.text.strip() for run in line):
        yield Paragraph(line)


def _line(token: Token, pieces: Pieces) -> Line:
    style: Style = "plain"
    runs: list[Run] = []
    for child in token.children or ():
        match child.type:
            case "strong_open":
                style = "strong"
            case "em_open":
                style = "emphasis"
            case "strong_close" | "em_close":
                style = "plain"
            case "code_inline":
                runs.append(Run(child.content, "code"))
            case "softbreak" | "hardbreak":
                runs.append(Run(" ", style))
            case _:
                runs += _runs(child.content, style, pieces)
    return tuple(run for run in runs if run.text)


def _runs(text: str, style: Style, pieces: Pieces) -> Iterator[Run]:
    for at, part in enumerate(_MARK.split(text)):
        if at % 2 == 0:
            yield Run(part, style)
        else:
            for run in pieces.line_of(int(part)):
                yield replace(run, style=style) if run.style == "plain" else run
