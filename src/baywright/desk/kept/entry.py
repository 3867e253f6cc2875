"""A kept answer: book and question, its statement with a seal, who asked and when."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from baywright.desk.statements.seals import Seal
from baywright.desk.statements.statement import Statement, statement_from


@dataclass(frozen=True, slots=True)
class Entry:
    """A question with its answer.

    Args:
        asked: the question as it was asked.
        statement: the answer with its reading, its proof and the facts it stands on.
        seal: what its proof stands on, or ``None`` where it has to be found again.
        by: who asked, or empty.
        when: when it was asked.
        book: id of the book it was asked of, or empty where the file does not tell.
    """

    asked: str
    statement: Statement
    seal: Seal | None
    by: str
    when: datetime.datetime
    book: str = ""

    def as_json(self) -> dict[str, Any]:
        """Return the entry as JSON values."""
        return {
            "book": self.book,
            "asked": self.asked,
            "by": self.by,
            "when": self.when.isoformat(),
            "seal": self.seal.as_json() if self.seal else None,
            "statement": self.statement.as_json(),
        }


def entry_from(written: Mapping[str, Any]) -> Entry:
    """Return the entry that ``as_json`` wrote.

    Raises:
        KeyError: when something of it is missing.
        ValueError: for a moment that is none.
        Problems: for a query that is none.
    """
    seal = written["seal"]
    return Entry(
        str(written["asked"]),
        statement_from(written["statement"]),
        Seal.from_json(seal) if seal else None,
        str(written["by"]),
        datetime.datetime.fromisoformat(written["when"]),
        str(written.get("book", "")),
    )
