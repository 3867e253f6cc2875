"""What is said of something under two versions of a book, and whether it flips."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Said:
    """What is said of something.

    Args:
        value: the outcome as JSON values; two outcomes are the same when these are equal.
        words: the outcome in words.
        facts: paths of the facts it stands on.
    """

    value: Any
    words: str
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pair:
    """What is said of something before and after.

    Args:
        kind: what it is, such as ``answer`` or ``build``.
        name: what it is called: the question, the file.
        before: under the old version.
        after: under the new one.
        anew: whether it had to be found anew under the new version.
    """

    kind: str
    name: str
    before: Said
    after: Said
    anew: bool = True

    @property
    def flips(self) -> bool:
        """Whether the outcome is another."""
        return bool(self.before.value != self.after.value)
