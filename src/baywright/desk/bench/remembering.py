"""Remembering: what was worked out before, so much of it and no more, for several at a time."""

from __future__ import annotations

import threading
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

ValueT = TypeVar("ValueT")


@dataclass
class Remembered(Generic[ValueT]):
    """Values by key; beyond the most, what was not asked for the longest is forgotten.

    Args:
        most: how many values are kept.
    """

    most: int
    _values: dict[Hashable, ValueT] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def get(self, key: Hashable, make: Callable[[], ValueT]) -> ValueT:
        """Return a value, made where it is not known; two who ask at once may both make it."""
        found = self.known(key)
        if found is None:
            found = make()
            with self._lock:
                self._values[key] = found
                while len(self._values) > self.most:
                    del self._values[next(iter(self._values))]
        return found

    def known(self, key: Hashable) -> ValueT | None:
        """Return a value that is known, or ``None``."""
        with self._lock:
            found = self._values.pop(key, None)
            if found is not None:
                self._values[key] = found
            return found
