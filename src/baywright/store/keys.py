"""Keys made by chance that open something, and the digests that are kept in their place."""

from __future__ import annotations

import hashlib
import secrets

TOKEN_START = "baywright_"  # noqa: S105 - how a token begins, so that one left in a text is found


def new_key(start: str = "") -> str:
    """Return a key of 256 random bits, in letters, digits, ``-`` and ``_``."""
    return start + secrets.token_urlsafe(32)


def digest_of(key: str) -> str:
    """Return what is kept of a key.

    One pass of SHA-256 is enough here: nobody can try 2**256 keys, however quick one is.
    """
    return hashlib.sha256(key.encode("utf-8", "surrogatepass")).hexdigest()
