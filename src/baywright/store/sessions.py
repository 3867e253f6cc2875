"""Sessions: who is signed in, and until when."""

from __future__ import annotations

import datetime

from sqlalchemy import delete, select

from baywright.store.audit import Entry, noted
from baywright.store.keys import digest_of, new_key
from baywright.store.people import existing_person, person_of_row
from baywright.store.person import Person
from baywright.store.tables import PersonRow, SessionRow
from baywright.store.transactions import Transactions


class Sessions:
    """The sessions of a store. What is kept of one does not open it."""

    def __init__(self, transactions: Transactions) -> None:
        self._transactions = transactions

    def open(self, person: Person, seconds: int) -> str:
        """Begin a session.

        Args:
            person: who signed in.
            seconds: how long the session lasts, 1 or more.

        Returns:
            The token, for a cookie.

        Raises:
            Problems: kind ``no-such-person``, when the person was removed meanwhile.
            StoreUnavailable: when nothing can be kept now.
        """
        token, now = new_key(), self._transactions.clock()
        ends = now + datetime.timedelta(seconds=seconds)
        with self._transactions.writing() as session:
            row = existing_person(session, person.name)
            session.execute(delete(SessionRow).where(SessionRow.ends <= now))
            session.add(SessionRow(digest=digest_of(token), person=row.key, opened=now, ends=ends))
            noted(session, Entry(now, row.name, "sign in", row.name, {}))
        return token

    def person_of(self, token: str) -> Person | None:
        """Return who is signed in with a token, with the roles of today, or ``None``.

        Raises:
            StoreUnavailable: when it cannot be looked up now.
        """
        wanted = (
            select(PersonRow)
            .join(SessionRow, SessionRow.person == PersonRow.key)
            .where(SessionRow.digest == digest_of(token))
            .where(SessionRow.ends > self._transactions.clock())
        )
        with self._transactions.reading() as session:
            row = session.scalar(wanted)
            return None if row is None else person_of_row(row)

    def close(self, token: str) -> None:
        """End a session; one that has ended already stays so.

        Raises:
            StoreUnavailable: when it cannot be ended now.
        """
        with self._transactions.writing() as session:
            row = session.get(SessionRow, digest_of(token))
            if row is None:
                return
            name = session.get_one(PersonRow, row.person).name
            session.delete(row)
            noted(session, Entry(self._transactions.clock(), name, "sign out", name, {}))
