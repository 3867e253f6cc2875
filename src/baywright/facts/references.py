"""Whether what a book or a build refers to exists, and whether its numbers fit each other."""

from __future__ import annotations

from baywright.facts.book import Book
from baywright.facts.build import Build
from baywright.problems import Problem


def check_references(book: Book) -> list[Problem]:
    """Return what does not fit together in a book that is well formed by itself."""
    return []


def check_build(build: Build, book: Book) -> list[Problem]:
    """Return what a build names and its book does not have."""
    return []
