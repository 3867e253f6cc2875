"""Limits of use: so many requests of one address in a minute, and so many bytes in one."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field

MINUTE = 60.0

MOST_KEPT = 10_000
"""Addresses that are remembered; beyond that the ones seen longest ago are forgotten."""


@dataclass
class Rate:
    """Lets so many requests of each address through in a minute, evenly after a first burst.

    Args:
        most: requests in a minute.
        clock: seconds that never go back.
    """

    most: int
    clock: Callable[[], float] = time.monotonic
    _left: dict[str, tuple[float, float]] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def allows(self, address: str) -> bool:
        """Count a request, and say whether it may be answered."""
        now = self.clock()
        with self._lock:
            left, seen = self._left.pop(address, (float(self.most), now))
            left = min(float(self.most), left + (now - seen) * self.most / MINUTE)
            allowed = left >= 1
            self._left[address] = (left - 1 if allowed else left, now)
            while len(self._left) > MOST_KEPT:
                del self._left[next(iter(self._left))]
        return allowed
