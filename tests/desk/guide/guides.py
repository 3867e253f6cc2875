"""Guides for tests: each made once in a run."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from baywright.desk.guide.chapters import chapters
from baywright.desk.guide.making import Guide, make_guide
from baywright.desk.opening import Opened, open_book
from baywright.desk.request import Request, opened


@cache
def book(name: str) -> Opened:
    """Return a book, opened once."""
    return open_book(name)


@cache
def guide_of(name: str, as_of: str = "") -> Guide:
    """Return the guide of a book by our own templates."""
    return make_guide(opened(name, Request(as_of)) if as_of else book(name), chapters())


def copied(name: str, folder: Path) -> Path:
    """Copy a bundled book with its builds, and return the copy."""
    target = folder / name
    for path in sorted(book(name).folder.rglob("*.yaml")):
        copy = target / path.relative_to(book(name).folder)
        copy.parent.mkdir(parents=True, exist_ok=True)
        copy.write_bytes(path.read_bytes())
    return target
