"""Words of the book that stand for two things."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.review.finding import Finding, line_of
from baywright.desk.review.subject import Reviewed
from baywright.facts.fact import mark_of
from baywright.language.tokens import tokens
from baywright.laws.wording import listed


def ambiguous_words(book: Reviewed) -> Iterator[Finding]:
    """Find phrases that the book gives to two things, by its words or its names.

    A word for something that is not in the book is found when the book is read.
    """
    meant: dict[tuple[str, ...], dict[str, str]] = {}
    for key, phrases in book.book.words.items():
        for phrase in phrases:
            meant.setdefault(_folded(phrase), {})[str(key)] = phrase
    named = {**book.book.parts, **book.book.places}
    for key, thing in named.items():
        folded = _folded(thing.name)
        if folded in meant:
            meant[folded].setdefault(str(key), thing.name)
    for things in meant.values():
        if len(things) > 1:
            phrase = next(iter(things.values()))
            says = f"{str(phrase)!r} stands for {listed(things)}."
            yield Finding("ambiguous-word", says, (), line_of(mark_of(phrase)))


def _folded(phrase: str) -> tuple[str, ...]:
    return tuple(token.folded for token in tokens(phrase))
