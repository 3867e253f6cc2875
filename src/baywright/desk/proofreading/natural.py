"""Conditions people drop from a sentence because they go without saying, until they do not."""

from __future__ import annotations

from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Supply
from baywright.language.things import written


def natural_conditions(book: Book) -> list[str]:
    """Return conditions people drop from a sentence, the lightest first."""
    lines = [f'line == "{name}"' for name in book.power.lines]
    settings = [
        f'{key} == "{value}"'
        for key, setting in book.settings.items()
        for value in setting.values
        if key != "system"
    ]
    parts = [f'count("{name}") >= 1' for name, part in book.parts.items() if part.kind != "kit"]
    return [*processor_counts(book), *settings, *lines, *supply_loads(book), *parts]


def processor_counts(book: Book) -> list[str]:
    """Return, as conditions, the numbers of processors there can be."""
    return [f"processors == {count.known}" for count in book.processors.counts]


def supply_loads(book: Book) -> list[str]:
    """Return, as conditions, that the draw is within the rating of a supply, the highest first."""
    return [f"load <= {written(rating, 'W')}" for rating in _ratings(book)]


def _ratings(book: Book) -> list[Fraction]:
    """Return the ratings of supplies in watts, the highest first."""
    found = {
        rating.known.to("W")
        for part in book.parts.values()
        if isinstance(part, Supply)
        for rating in part.ratings.values()
    }
    return sorted(found, reverse=True)
