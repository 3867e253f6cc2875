"""Builds that people keep. A change is made to a version, and refused once there is a later one."""

from __future__ import annotations

import datetime
import secrets
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from baywright.problems import problem
from baywright.store.audit import Entry, noted
from baywright.store.errors import Conflict
from baywright.store.tables import BuildRow
from baywright.store.texts import MOST_TEXT, checked, is_plain, named
from baywright.store.transactions import Transactions


@dataclass(frozen=True, slots=True)
class Kept:
    """A build as it is kept.

    Args:
        id: what it is found by; made by chance, fit for an address.
        version: 1 for a new build, one more with each change.
        name: what its owner calls it.
        book: name of its book.
        text: the build file, YAML.
        owner: name of the person, or empty where nobody signed in.
        changed: when it was changed last.
        changed_by: who changed it last, or empty where nobody signed in.
    """

    id: str
    version: int
    name: str
    book: str
    text: str
    owner: str
    changed: datetime.datetime
    changed_by: str


class Builds:
    """The builds of a store."""

    def __init__(self, transactions: Transactions) -> None:
        self._transactions = transactions

    def keep(self, name: str, book: str, text: str, owner: str) -> Kept:
        """Keep a new build.

        Args:
            name: what its owner calls it; two builds may have the same name.
            book: name of its book.
            text: the build file, YAML. It is not read here.
            owner: name of the person, or empty where nobody signed in.

        Raises:
            Problems: when a text cannot be kept.
            StoreUnavailable: when nothing can be kept now.
        """
        row = BuildRow(
            id=secrets.token_hex(10),
            version=1,
            name=named(name, "The name of the build"),
            book=named(book, "The name of the book"),
            text=checked(text, "The build", MOST_TEXT),
            owner=checked(owner, "The name of the owner"),
            changed=self._transactions.clock(),
            changed_by=owner,
        )
        with self._transactions.writing() as session:
            session.add(row)
            noted(session, Entry(row.changed, owner, "keep build", row.id, {"name": row.name}))
        return _kept(row)

    def get(self, build: str) -> Kept | None:
        """Return a build by its id, or ``None`` when there is none.

        Raises:
            StoreUnavailable: when it cannot be read now.
        """
        with self._transactions.reading() as session:
            row = _find(session, build)
            return None if row is None else _kept(row)

    def of(self, owner: str | None) -> tuple[Kept, ...]:
        """Return the builds of an owner, or of all for ``None``; changed last comes first.

        Raises:
            StoreUnavailable: when they cannot be read now.
        """
        wanted = select(BuildRow).order_by(BuildRow.changed.desc(), BuildRow.id)
        if owner is not None:
            wanted = wanted.where(BuildRow.owner == checked(owner, "The name of the owner"))
        with self._transactions.reading() as session:
            return tuple(_kept(row) for row in session.scalars(wanted))

    def change(self, build: str, version: int, text: str, by: str) -> Kept:
        """Replace the text of a build.

        Args:
            build: its id.
            version: the version that was read and changed.
            text: the new text.
            by: who changes it, or empty where nobody signed in.

        Raises:
            Conflict: when there is a later version; nothing was written.
            Problems: kind ``no-such-build``, or when the text cannot be kept.
            StoreUnavailable: when nothing can be kept now.
        """
        checked(text, "The build", MOST_TEXT)
        now = self._transactions.clock()
        with self._transactions.writing() as session:
            row = _at_version(session, build, version)
            row.version, row.text, row.changed = version + 1, text, now
            row.changed_by = checked(by, "The name of who changes the build")
            noted(session, Entry(now, by, "change build", build, {"version": row.version}))
            session.flush()
            return _kept(row)

    def remove(self, build: str, version: int, by: str) -> None:
        """Remove a build.

        Args:
            build: its id.
            version: the version that was read; a later one is not removed.
            by: who removes it, or empty where nobody signed in.

        Raises:
            Conflict: when there is a later version; nothing was removed.
            Problems: kind ``no-such-build``.
            StoreUnavailable: when nothing can be changed now.
        """
        with self._transactions.writing() as session:
            session.delete(_at_version(session, build, version))
            now = self._transactions.clock()
            noted(session, Entry(now, by, "remove build", build, {"version": version}))


def _find(session: Session, build: str, *, to_change: bool = False) -> BuildRow | None:
    """Look a build up; one that is going to be changed is held until the transaction ends."""
    if not is_plain(build):
        return None
    wanted = select(BuildRow).where(BuildRow.id == build)
    return session.scalar(wanted.with_for_update() if to_change else wanted)


def _at_version(session: Session, build: str, version: int) -> BuildRow:
    row = _find(session, build, to_change=True)
    if row is None:
        message = f"There is no build {build!r}."
        raise problem("no-such-build", message, None, "It may have been removed.")
    if row.version != version:
        raise Conflict(row.changed_by, row.text, row.version)
    return row


def _kept(row: BuildRow) -> Kept:
    return Kept(
        row.id,
        row.version,
        row.name,
        row.book,
        row.text,
        row.owner,
        row.changed,
        row.changed_by,
    )
