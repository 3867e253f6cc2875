"""Passwords: what may be one, and the digests that are kept in their place."""

from __future__ import annotations

import secrets
import threading
import unicodedata
from functools import cached_property

from pwdlib import PasswordHash
from pwdlib.hashers.argon2 import Argon2Hasher

from baywright.problems import problem
from baywright.store.texts import is_plain

LEAST_PASSWORD = 12
"""Characters a password must have."""
MOST_PASSWORD = 1024
"""Characters it may have; without an end, digesting one could keep the server busy."""
MOST_AT_ONCE = 4
"""Digests made at the same time. Each takes 64 MiB, and anybody may try to sign in."""


class Passwords:
    """Digests of passwords by Argon2id.

    Args:
        hasher: how a digest is made; the standard costs about 64 MiB and some tens of
            milliseconds, which is what makes guessing slow.
    """

    def __init__(self, hasher: Argon2Hasher | None = None) -> None:
        self._hash = PasswordHash((hasher or Argon2Hasher(),))
        self._turns = threading.BoundedSemaphore(MOST_AT_ONCE)

    def digest(self, password: str) -> str:
        """Return the digest to keep of a new password.

        Raises:
            Problems: kind ``password``, when it is too short, too long or no text.
        """
        if not is_plain(password):
            raise problem("password", "The password has signs that are not text.")
        if not LEAST_PASSWORD <= len(password) <= MOST_PASSWORD:
            message = f"The password has {len(password):,} characters."
            hint = f"Give {LEAST_PASSWORD} to {MOST_PASSWORD:,}; a few words are a good one."
            raise problem("password", message, None, hint)
        with self._turns:
            return self._hash.hash(_normal(password))

    def check(self, password: str, digest: str | None) -> tuple[bool, str | None]:
        """Say whether a password is right, and give a better digest where there is one.

        Args:
            password: what somebody typed.
            digest: the digest that is kept, or ``None`` when there is no such person; that
                takes as long as a wrong password, so that nobody finds out who there is.

        Returns:
            Whether it is right, and the digest to keep from now on or ``None``.
        """
        if len(password) > MOST_PASSWORD or not is_plain(password):
            return False, None
        with self._turns:
            right, better = self._hash.verify_and_update(_normal(password), digest or self._nobody)
        return right and digest is not None, better if digest is not None else None

    @cached_property
    def _nobody(self) -> str:
        return self._hash.hash(secrets.token_urlsafe(32))


def _normal(password: str) -> str:
    """Return a password so that keyboards which write a letter in two ways agree."""
    return unicodedata.normalize("NFKC", password)
