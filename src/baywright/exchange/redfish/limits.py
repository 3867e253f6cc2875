"""Limits on what a Redfish source may cost, and the clock that keeps them."""

from __future__ import annotations

import time
from dataclasses import dataclass, field

from baywright.problems import Problems, problem


@dataclass(frozen=True, slots=True)
class Limits:
    """What reading a source may take.

    Args:
        seconds: for all of it.
        reply_seconds: for one reply, from asking to its last byte.
        body: bytes of one resource.
        total: bytes of all resources.
        resources: resources.
        levels: links from the service root to a resource.
    """

    seconds: float = 120.0
    reply_seconds: float = 20.0
    body: int = 4_000_000
    total: int = 48_000_000
    resources: int = 2_000
    levels: int = 12


@dataclass(slots=True)
class Budget:
    """What is left of the limits while a source is read.

    Args:
        limits: the limits.
        started: seconds of the monotonic clock at the start.
    """

    limits: Limits
    started: float = field(default_factory=time.monotonic)
    bytes_read: int = 0
    resources: int = 0

    def seconds_left(self) -> float:
        """Return the seconds left for the next reply."""
        left = self.limits.seconds - (time.monotonic() - self.started)
        return min(left, self.limits.reply_seconds)

    def start(self, path: str) -> None:
        """Count a resource that is about to be read.

        Raises:
            Problems: kinds ``too-slow`` and ``too-many-resources``.
        """
        if self.seconds_left() <= 0:
            raise too_slow(path, self.limits.seconds)
        self.resources += 1
        if self.resources > self.limits.resources:
            message = f"There are more than {self.limits.resources:,} resources; {path} is next."
            hint = "Nothing was read. Check that this is one machine."
            raise problem("too-many-resources", message, None, hint)

    def take(self, path: str, size: int) -> None:
        """Count the bytes of a resource.

        Args:
            path: its path.
            size: its size, in bytes.

        Raises:
            Problems: kind ``too-large``.
        """
        self.bytes_read += size
        if size > self.limits.body:
            raise too_large(path, self.limits.body)
        if self.bytes_read > self.limits.total:
            message = f"All resources up to {path} have more than {self.limits.total:,} bytes."
            raise problem("too-large", message, None, "Nothing was read.")


def too_large(path: str, most: int) -> Problems:
    """Return the problem of a resource that is too large."""
    message = f"{path} has more than {most:,} bytes."
    return problem("too-large", message, None, "No resource of a machine is that large.")


def too_slow(path: str, seconds: float) -> Problems:
    """Return the problem of a source that does not answer in time."""
    message = f"{path} was not there within {seconds:g} s."
    return problem("too-slow", message, None, "Try again, or give more time with --limit.")
