"""Blocks of a draft: runs of text that keep the place of every sign, and their sentences."""

from __future__ import annotations

import itertools
import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from baywright.language.passages import Passage, Place
from baywright.language.sentences import sentence_spans

Role: TypeAlias = Literal["heading", "paragraph", "item", "cell", "note", "cue"]
"""What a block is in its draft; a note is what stands beside the text: headers, speaker's notes."""

_UNSEEN = re.compile("[\u00ad\u200b\u200c\u200d\u2060\ufeff]")


@dataclass(frozen=True, slots=True)
class Piece:
    """Text that stands in one line of a draft, sign by sign as written.

    Args:
        text: the text.
        line: line, counted from 1, or what a kind of draft has in place of lines.
        column: sign of that line, counted from 1, at which the text starts.
        where: the place as people say it; line and column unless given.
        start: when it starts to be spoken, in seconds, or ``None``.
        end: when it has been spoken, in seconds, or ``None``.
    """

    text: str
    line: int
    column: int
    where: str = ""
    start: float | None = None
    end: float | None = None


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph, a heading, a cell or a run of cues.

    Args:
        pieces: its text in order; spaces between lines are pieces too.
        heading: the nearest heading above it, or the heads of a cell.
        role: what it is.
        level: depth of a heading or of a list, counted from 1.
    """

    pieces: tuple[Piece, ...]
    heading: str = ""
    role: Role = "paragraph"
    level: int = 1


def folded(text: str) -> str:
    r"""Return a text with every run of white space as one space, and without unseen signs.

    >>> folded("  two\n lines\u200b ")
    'two lines'
    """
    return " ".join(_UNSEEN.sub("", text).split())


def text_of(pieces: Iterable[Piece]) -> str:
    """Return the folded text of some pieces."""
    return folded("".join(piece.text for piece in pieces))


def passages(blocks: Iterable[Block]) -> tuple[Passage, ...]:
    """Return the sentences of a draft in their order, each with the place where it starts.

    Args:
        blocks: its blocks; they are numbered from 1.
    """
    return tuple(
        passage for number, block in enumerate(blocks, 1) for passage in _passages(block, number)
    )


def _passages(block: Block, number: int) -> Iterator[Passage]:
    text = "".join(piece.text for piece in block.pieces)
    starts = list(itertools.accumulate((len(piece.text) for piece in block.pieces), initial=0))
    for begin, end in sentence_spans(text):
        said = folded(text[begin:end])
        if not said:
            continue
        first = bisect_right(starts, begin) - 1
        last = bisect_right(starts, end - 1) - 1
        piece = block.pieces[first]
        yield Passage(
            said,
            _place(piece, begin - starts[first]),
            number,
            block.heading,
            piece.start,
            block.pieces[last].end,
        )


def _place(piece: Piece, offset: int) -> Place:
    column = piece.column + offset
    return Place(piece.where or f"{piece.line}:{column}", piece.line, column)
