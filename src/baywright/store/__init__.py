"""The store keeps builds, questions with their answers, people and what was done.

It keeps texts and JSON, in SQLite or PostgreSQL, and knows nothing of machines.
"""

from __future__ import annotations

from baywright.store.answers import Answered
from baywright.store.audit import Entry
from baywright.store.builds import Kept
from baywright.store.connecting import standard_url
from baywright.store.errors import Conflict, StoreUnavailable
from baywright.store.passwords import Passwords
from baywright.store.person import Person
from baywright.store.store import Store, open_store
from baywright.store.tokens import Issued

__all__ = [
    "Answered",
    "Conflict",
    "Entry",
    "Issued",
    "Kept",
    "Passwords",
    "Person",
    "Store",
    "StoreUnavailable",
    "open_store",
    "standard_url",
]
