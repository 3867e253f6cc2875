"""Sheets for tests: each made once in a run."""

from __future__ import annotations

from functools import cache

from baywright.desk.guide.making import Guide
from baywright.desk.opening import Opened, open_book
from baywright.desk.sheets.asked import Asked
from baywright.desk.sheets.making import make_sheet


@cache
def book(name: str) -> Opened:
    """Return a book, opened once."""
    return open_book(name)


@cache
def sheet(name: str, asked: Asked) -> Guide:
    """Return a sheet."""
    return make_sheet(book(name), asked)
