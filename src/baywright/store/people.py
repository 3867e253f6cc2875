"""People who may sign in, with their passwords and roles."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import delete, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from baywright.problems import Problems, problem
from baywright.store.audit import Entry, noted
from baywright.store.passwords import Passwords
from baywright.store.person import (
    Person,
    checked_person,
    checked_roles,
    person_key,
    roles_of,
    roles_text,
)
from baywright.store.tables import PersonRow, SessionRow
from baywright.store.texts import is_plain
from baywright.store.transactions import Transactions


class People:
    """The people of a store. Whoever asks for a change here stands in the audit trail.

    Args:
        transactions: transactions on the store.
        passwords: how digests of passwords are made.
    """

    def __init__(self, transactions: Transactions, passwords: Passwords) -> None:
        self._transactions = transactions
        self._passwords = passwords

    def add(self, name: str, password: str, roles: Iterable[str], by: str = "") -> Person:
        """Add a person.

        Args:
            name: the name to sign in with; capitals do not tell two people apart.
            password: the password, of which only a digest is kept.
            roles: ``read``, ``work``, ``own:BOOK``.
            by: who adds the person, or empty.

        Raises:
            Problems: for the name, the password or the roles; kind ``person-exists``.
            StoreUnavailable: when nothing can be kept now.
        """
        person = Person(checked_person(name), checked_roles(roles))
        row = PersonRow(
            key=person_key(person.name),
            name=person.name,
            password=self._passwords.digest(password),
            roles=roles_text(person.roles),
            added=self._transactions.clock(),
        )
        with self._transactions.writing() as session:
            _insert(session, row)
            noted(session, Entry(row.added, by, "add person", row.name, {"roles": row.roles}))
        return person

    def check(self, name: str, password: str) -> Person | None:
        """Return the person whose name and password these are, or ``None``.

        Raises:
            StoreUnavailable: when it cannot be looked up now.
        """
        with self._transactions.reading() as session:
            row = find_person(session, name)
        right, better = self._passwords.check(password, None if row is None else row.password)
        if row is None or not right:
            return None
        if better is not None:
            self._renew(row, better)
        return person_of_row(row)

    def get(self, name: str) -> Person | None:
        """Return a person by name, or ``None`` when there is none.

        Raises:
            StoreUnavailable: when it cannot be looked up now.
        """
        with self._transactions.reading() as session:
            row = find_person(session, name)
            return None if row is None else person_of_row(row)

    def existing(self, name: str) -> Person:
        """Return a person who has to be there.

        Raises:
            Problems: kind ``no-such-person``.
            StoreUnavailable: when it cannot be looked up now.
        """
        with self._transactions.reading() as session:
            return person_of_row(existing_person(session, name))

    def list(self) -> tuple[Person, ...]:
        """Return all people by name.

        Raises:
            StoreUnavailable: when they cannot be read now.
        """
        with self._transactions.reading() as session:
            rows = session.scalars(select(PersonRow).order_by(PersonRow.key))
            return tuple(person_of_row(row) for row in rows)

    def set_password(self, name: str, password: str, by: str = "") -> None:
        """Give a person another password; whoever is signed in as that person is no more.

        Raises:
            Problems: kind ``no-such-person``, or for the password.
            StoreUnavailable: when nothing can be kept now.
        """
        digest = self._passwords.digest(password)
        with self._transactions.writing() as session:
            row = existing_person(session, name)
            row.password = digest
            session.execute(delete(SessionRow).where(SessionRow.person == row.key))
            noted(session, Entry(self._transactions.clock(), by, "set password", row.name, {}))

    def set_roles(self, name: str, roles: Iterable[str], by: str = "") -> Person:
        """Give a person other roles, at once and in every session.

        Raises:
            Problems: kind ``no-such-person``, or for the roles.
            StoreUnavailable: when nothing can be kept now.
        """
        found = roles_text(checked_roles(roles))
        with self._transactions.writing() as session:
            row = existing_person(session, name)
            details = {"roles": found, "before": row.roles}
            row.roles = found
            noted(session, Entry(self._transactions.clock(), by, "set roles", row.name, details))
            return person_of_row(row)

    def remove(self, name: str, by: str = "") -> None:
        """Remove a person with sessions and tokens; builds and answers stay.

        Raises:
            Problems: kind ``no-such-person``.
            StoreUnavailable: when nothing can be changed now.
        """
        with self._transactions.writing() as session:
            row = existing_person(session, name)
            session.delete(row)
            noted(session, Entry(self._transactions.clock(), by, "remove person", row.name, {}))

    def _renew(self, row: PersonRow, digest: str) -> None:
        """Keep a digest made as digests are made today, unless the password changed meanwhile."""
        with self._transactions.writing() as session:
            found = find_person(session, row.name)
            if found is not None and found.password == row.password:
                found.password = digest


def find_person(session: Session, name: str) -> PersonRow | None:
    """Look a person up by name."""
    if not is_plain(name):
        return None
    return session.get(PersonRow, person_key(name.strip()))


def existing_person(session: Session, name: str) -> PersonRow:
    """Look a person up who has to be there.

    Raises:
        Problems: kind ``no-such-person``.
    """
    row = find_person(session, name)
    if row is None:
        hint = "The command 'baywright people list' shows who there is."
        raise problem("no-such-person", f"There is no person {name!r}.", None, hint)
    return row


def person_of_row(row: PersonRow) -> Person:
    """Return the person that a row holds."""
    return Person(row.name, roles_of(row.roles))


def _insert(session: Session, row: PersonRow) -> None:
    session.add(row)
    try:
        session.flush()
    except IntegrityError as error:
        raise _exists(row.name) from error


def _exists(name: str) -> Problems:
    hint = "Give another name; capitals make no difference."
    return problem("person-exists", f"There is a person {name!r} already.", None, hint)
