"""The audit trail: who did what to which thing, and when. Entries are only ever added."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from baywright.store.tables import AuditRow
from baywright.store.texts import as_json, as_text, checked
from baywright.store.transactions import Transactions


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that was done.

    Args:
        at: when.
        by: name of the person, or empty where nobody signed in.
        act: what was done, such as ``change build``.
        thing: to what: id of a build, name of a person, name of a book.
        details: what else is worth knowing.
    """

    at: datetime.datetime
    by: str
    act: str
    thing: str
    details: Mapping[str, object]


class Audit:
    """The audit trail of a store. What the store itself changes is in it already."""

    def __init__(self, transactions: Transactions) -> None:
        self._transactions = transactions

    def note(
        self, by: str, act: str, thing: str, details: Mapping[str, object] | None = None
    ) -> None:
        """Add an entry.

        Args:
            by: name of the person, or empty where nobody signed in.
            act: what was done.
            thing: to what.
            details: what else is worth knowing, as JSON.

        Raises:
            StoreUnavailable: when it cannot be kept now.
        """
        with self._transactions.writing() as session:
            noted(session, Entry(self._transactions.clock(), by, act, thing, details or {}))

    def read(self, limit: int = 100) -> tuple[Entry, ...]:
        """Return the last entries, newest first.

        Args:
            limit: how many, 1 or more.

        Raises:
            StoreUnavailable: when they cannot be read now.
        """
        wanted = select(AuditRow).order_by(AuditRow.number.desc()).limit(limit)
        with self._transactions.reading() as session:
            return tuple(_entry(row) for row in session.scalars(wanted))


def noted(session: Session, entry: Entry) -> None:
    """Add an entry in the transaction of the change that it tells of."""
    act, thing = (checked(each, "An entry of the audit trail") for each in (entry.act, entry.thing))
    details = as_text(entry.details, "An entry of the audit trail")
    session.add(
        AuditRow(at=entry.at, by=checked(entry.by, "A name"), act=act, thing=thing, details=details)
    )


def _entry(row: AuditRow) -> Entry:
    return Entry(row.at, row.by, row.act, row.thing, as_json(row.details))
