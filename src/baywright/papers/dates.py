"""Dates on a page: never broken across lines."""

from __future__ import annotations

import re

_DATE = re.compile(r"\b(\d{4}-\d{2}-\d{2})\b")


def with_dates(text: str) -> list[tuple[str, bool]]:
    """Return a text in parts, each with whether it is a date in ISO form.

    >>> with_dates("since 2031-07-01.")
    [('since ', False), ('2031-07-01', True), ('.', False)]
    """
    parts = enumerate(_DATE.split(text))
    return [(part, number % 2 == 1) for number, part in parts if part]
