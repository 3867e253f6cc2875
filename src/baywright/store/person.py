"""People and what they may do."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from baywright.problems import problem
from baywright.store.texts import named

READ, WORK, OWN = "read", "work", "own:"
"""Roles: read what is there; keep builds and change them; own a book, with its name after it."""

MOST_PERSON = 64
"""Characters in the name of a person."""

_BOOK = re.compile(r"[\w.-]{1,64}")


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who may use the workbench.

    Args:
        name: the name to sign in with.
        roles: what the person may do, as given: ``read``, ``work``, ``own:BOOK``.
    """

    name: str
    roles: frozenset[str]

    @property
    def may_read(self) -> bool:
        """Whether the person may read; every role lets one."""
        return bool(self.roles)

    @property
    def may_work(self) -> bool:
        """Whether the person may keep builds and change them; owners of a book may too."""
        return WORK in self.roles or any(role.startswith(OWN) for role in self.roles)

    def may_own(self, book: str) -> bool:
        """Say whether the person may change the facts of a book."""
        return f"{OWN}{book}" in self.roles

    def within(self, scopes: Iterable[str]) -> Person:
        """Return the person with no more rights than the scopes give."""
        return Person(self.name, frozenset(role for role in scopes if self._has(role)))

    def _has(self, role: str) -> bool:
        """Say whether a role is the person's, by itself or within a larger one."""
        larger = {READ: self.may_read, WORK: self.may_work}
        return role in self.roles or larger.get(role, False)


def person_key(name: str) -> str:
    """Return what tells people apart: capitals and ways of writing a letter do not.

    >>> person_key("Anna") == person_key("ANNA")
    True
    """
    return unicodedata.normalize("NFKC", name).casefold()


def checked_person(name: str) -> str:
    """Return a name that a person may have, without the space around it.

    Raises:
        Problems: kind ``no-name``, ``person-name``, or as for any text.
    """
    found = unicodedata.normalize("NFC", named(name, "The name of the person"))
    if len(found) > MOST_PERSON or not found.isprintable():
        message = f"The name {found[:MOST_PERSON]!r} cannot be used."
        hint = f"Give up to {MOST_PERSON} letters, digits, signs and spaces."
        raise problem("person-name", message, None, hint)
    return found


def checked_roles(roles: Iterable[str]) -> frozenset[str]:
    """Return roles after checking each.

    Raises:
        Problems: kind ``no-role`` or ``unknown-role``.
    """
    found = frozenset(roles)
    hint = f"Roles are {READ}, {WORK} and {OWN}BOOK, such as {OWN}f2."
    if not found:
        raise problem("no-role", "No role is given.", None, hint)
    for role in sorted(found - {READ, WORK}):
        if not (role.startswith(OWN) and _BOOK.fullmatch(role.removeprefix(OWN))):
            raise problem("unknown-role", f"There is no role {role!r}.", None, hint)
    return found


def roles_text(roles: Iterable[str]) -> str:
    """Return roles as they are kept; none has a space in it."""
    return " ".join(sorted(roles))


def roles_of(text: str) -> frozenset[str]:
    """Return roles that were kept."""
    return frozenset(text.split())
