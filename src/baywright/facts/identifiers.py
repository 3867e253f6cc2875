"""Whether the ids of a book can be told apart and used in expressions."""

from __future__ import annotations

import keyword
from collections.abc import Iterator

from baywright.facts.book import Book
from baywright.facts.fact import mark_of
from baywright.facts.parts import KINDS
from baywright.facts.readers import shown
from baywright.problems import Problem

RESERVED = frozenset({"true", "false", "empty", "blank"})
"""Words that expressions and builds use themselves."""


def check_ids(book: Book) -> Iterator[Problem]:
    """Yield what is wrong with the ids of places, settings and parts."""
    for noun, ids in (("place", book.places), ("setting", book.settings)):
        for word in ids:
            yield from _check_name(word, noun)
    for word in book.settings:
        if word in book.places:
            message = f"{shown(word)} is a place and a setting."
            yield Problem("clash", message, mark_of(word), "Give one of them another id.")
    for word, part in book.parts.items():
        yield from _check_part(word, part.kind)


def _check_name(word: str, noun: str) -> Iterator[Problem]:
    mark = mark_of(word)
    if not (word.isascii() and word.isidentifier()) or keyword.iskeyword(word):
        message = f"{shown(word)} cannot be the id of a {noun}."
        hint = "Expressions use it: take letters, digits and underscores, a letter first."
        yield Problem("not-an-id", message, mark, hint)
    elif word in KINDS or word in RESERVED:
        message = f"{shown(word)} means something else in expressions."
        yield Problem("clash", message, mark, f"Give the {noun} another id.")


def _check_part(word: str, kind: str) -> Iterator[Problem]:
    if any(character.isspace() for character in word) or word in RESERVED:
        message = f"{shown(word)} cannot be the id of a part."
        hint = "Take one word without spaces, such as dimm-64."
        yield Problem("not-an-id", message, mark_of(word), hint)
    elif word in KINDS and word != kind:
        message = f"{shown(word)} is the name of a kind of part, and this part is a {kind}."
        yield Problem("clash", message, mark_of(word), "Give the part another id.")
