"""Tokens: a program acts for a person, within the scopes of its token."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from baywright.problems import problem
from baywright.store.audit import Entry, noted
from baywright.store.keys import TOKEN_START, digest_of, new_key
from baywright.store.people import existing_person, person_of_row
from baywright.store.person import Person, checked_roles, person_key, roles_of, roles_text
from baywright.store.tables import PersonRow, TokenRow
from baywright.store.texts import is_plain, named
from baywright.store.transactions import Transactions


@dataclass(frozen=True, slots=True)
class Issued:
    """A token as it is kept, without the secret.

    Args:
        name: what the person calls it.
        scopes: the roles it gives, as far as the person still has them.
        issued: when it was issued.
    """

    name: str
    scopes: frozenset[str]
    issued: datetime.datetime


class Tokens:
    """The tokens of a store. The secret of one is shown once and kept nowhere."""

    def __init__(self, transactions: Transactions) -> None:
        self._transactions = transactions

    def issue(self, person: Person, name: str, scopes: Iterable[str]) -> str:
        """Issue a token.

        Args:
            person: for whom a program is to act.
            name: what the person calls it, such as the name of the program.
            scopes: the roles it gives, each within what the person may do.

        Returns:
            The secret.

        Raises:
            Problems: for the name or the scopes; kind ``beyond-roles``, ``token-exists`` or
                ``no-such-person``.
            StoreUnavailable: when nothing can be kept now.
        """
        secret, now = new_key(TOKEN_START), self._transactions.clock()
        called, wanted = named(name, "The name of the token"), checked_roles(scopes)
        with self._transactions.writing() as session:
            owner = existing_person(session, person.name)
            _refuse_beyond(person_of_row(owner), wanted)
            row = TokenRow(
                digest=digest_of(secret),
                person=owner.key,
                name=called,
                scopes=roles_text(wanted),
                issued=now,
            )
            _insert(session, row)
            details = {"person": owner.name, "scopes": row.scopes}
            noted(session, Entry(now, owner.name, "issue token", called, details))
        return secret

    def person_of(self, secret: str) -> Person | None:
        """Return the person a program acts for, with no more roles than the scopes give.

        A role that the person has lost since gives nothing. ``None`` for an unknown secret.

        Raises:
            StoreUnavailable: when it cannot be looked up now.
        """
        with self._transactions.reading() as session:
            row = session.get(TokenRow, digest_of(secret))
            if row is None:
                return None
            owner = person_of_row(session.get_one(PersonRow, row.person))
            return owner.within(roles_of(row.scopes))

    def of(self, person: Person) -> tuple[Issued, ...]:
        """Return the tokens of a person by name.

        Raises:
            StoreUnavailable: when they cannot be read now.
        """
        wanted = select(TokenRow).where(TokenRow.person == person_key(person.name))
        with self._transactions.reading() as session:
            rows = session.scalars(wanted.order_by(TokenRow.name))
            return tuple(Issued(row.name, roles_of(row.scopes), row.issued) for row in rows)

    def revoke(self, person: Person, name: str) -> None:
        """Revoke a token; the program that has its secret is shut out from now on.

        Args:
            person: whose token it is.
            name: what the person calls it.

        Raises:
            Problems: kind ``no-such-token``.
            StoreUnavailable: when nothing can be changed now.
        """
        with self._transactions.writing() as session:
            row = _find(session, person, name)
            if row is None:
                raise problem("no-such-token", f"{person.name} has no token {name!r}.")
            session.delete(row)
            now, details = self._transactions.clock(), {"person": person.name}
            noted(session, Entry(now, person.name, "revoke token", row.name, details))


def _find(session: Session, person: Person, name: str) -> TokenRow | None:
    if not is_plain(name):
        return None
    of_person = select(TokenRow).where(TokenRow.person == person_key(person.name))
    return session.scalar(of_person.where(TokenRow.name == name.strip()))


def _refuse_beyond(person: Person, scopes: frozenset[str]) -> None:
    beyond = scopes - person.within(scopes).roles
    if beyond:
        message = f"{person.name} has no role {', '.join(sorted(beyond))}."
        raise problem("beyond-roles", message, None, "Leave it out of the scopes.")


def _insert(session: Session, row: TokenRow) -> None:
    session.add(row)
    try:
        session.flush()
    except IntegrityError as error:
        hint = "Give another name, or revoke that one first."
        raise problem("token-exists", f"There is a token {row.name!r}.", None, hint) from error
