"""Marks of forms: who sends a form has read a page of ours in the same browser."""

from __future__ import annotations

import hashlib
import hmac
import re
import secrets

VISIT = "visit"
SESSION = "session"
MARK = "mark"
"""Names of the two cookies, and of the field of forms."""

_VISIT = re.compile(r"[0-9a-f]{32}")


def new_visit() -> str:
    """Return the name of a new visit."""
    return secrets.token_hex(16)


def is_visit(text: str) -> bool:
    """Say whether a text is the name of a visit.

    >>> is_visit("0" * 32), is_visit("x")
    (True, False)
    """
    return _VISIT.fullmatch(text) is not None


def mark_for(secret: bytes, visit: str, session: str) -> str:
    """Return the mark that forms of a visit carry; another one after signing in."""
    said = f"{visit}\0{session}".encode()
    return hmac.new(secret, said, hashlib.sha256).hexdigest()


def is_mark(secret: bytes, visit: str, session: str, given: str) -> bool:
    """Say whether a form carries the mark of its visit."""
    return hmac.compare_digest(mark_for(secret, visit, session).encode(), given.encode())
