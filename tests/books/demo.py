"""The bundled books and builds, read once."""

from __future__ import annotations

from collections import Counter
from functools import cache
from pathlib import Path

from baywright.facts.book import Book, ReadyMade
from baywright.facts.build import Build
from baywright.files.books import bundled_books, read_book, read_build

BOOKS = ("f1", "f2", "l4", "p1")
BUILDS: tuple[Path, ...] = tuple(
    path for name in BOOKS for path in sorted(bundled_books()[name].glob("builds/*.yaml"))
)


@cache
def book(name: str) -> Book:
    return read_book(bundled_books()[name])


def build(name: str) -> Build:
    return read_build(next(path for path in BUILDS if path.stem == name))


def parts_of(built: Build | ReadyMade) -> Counter[str]:
    """Return how many of each part a build or a ready-made model has."""
    counts: Counter[str] = Counter()
    for fitted in built.places.values():
        for item in fitted.items:
            counts[str(item.part)] += item.count
    return counts
