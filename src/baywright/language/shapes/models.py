"""Ready-made models: what is said of one is said of it as it is delivered, without options."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from baywright.facts.book import Book

COUNTED = (
    "processor", "memory", "cage", "drive", "controller", "pack", "accelerator", "card", "network",
    "supply", "boot", "display", "media",
)  # fmt: skip
"""Kinds of part that a model fixes the number of."""


def as_delivered(book: Book, given: Sequence[str]) -> tuple[str, ...]:
    """Return conditions with those of a model sharpened: its parts, and no options added.

    Args:
        book: the book.
        given: conditions, among them perhaps ``from_model("F2-b")``.
    """
    named = [each.split('"')[1] for each in given if each.startswith('from_model("')]
    counts = [text for name in named for text in _counts(book, name)]
    return (*given, *counts)


def _counts(book: Book, model: str) -> list[str]:
    held: Counter[str] = Counter()
    for fitted in book.models[model].places.values():
        for item in fitted.items:
            held[book.parts[str(item.part)].kind] += item.count
    kinds = {part.kind for part in book.parts.values()}
    return [f"count({kind}) == {held[kind]}" for kind in COUNTED if kind in kinds]
