"""Citations: how an answer points back at the facts it stands on."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from baywright.problems import Mark


@dataclass(frozen=True, slots=True)
class Citation:
    """A fact as it is quoted beside an answer.

    Args:
        path: dotted path of the fact in its book, such as ``parts.ps-1300.rating.low``.
        text: the value as written, with its unit.
        mark: file, line and column of the value, or ``None`` for a derived fact.
        source: title of the source, or an empty string when the book names none.
        date: date of the source, or ``None``.
        status: ``stated``, ``derived``, ``assumed``, ``pre-release`` or ``withdrawn``.
    """

    path: str
    text: str
    mark: Mark | None = None
    source: str = ""
    date: datetime.date | None = None
    status: str = "stated"

    def as_json(self) -> dict[str, object]:
        """Return the citation as plain JSON values."""
        return {
            "fact": self.path,
            "value": self.text,
            "where": str(self.mark) if self.mark else None,
            "source": self.source or None,
            "date": self.date.isoformat() if self.date else None,
            "status": self.status,
        }
