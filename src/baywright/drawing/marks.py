"""What is said about places: highlights with a word, a sign and a hatch of their own."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Said(Enum):
    """Kinds of highlight."""

    FREE = "free"
    IF = "if"
    CANNOT = "cannot"
    UNDECIDED = "undecided"
    PREVIEW = "preview"
    PICKED = "picked"


WORDS = {
    Said.FREE: "free to fit",
    Said.IF: "fits if something else changes",
    Said.CANNOT: "cannot",
    Said.UNDECIDED: "not decided",
    Said.PREVIEW: "shown",
    Said.PICKED: "picked",
}


@dataclass(frozen=True, slots=True)
class Highlight:
    """A highlight of a place.

    Args:
        said: its kind.
        words: what is written beside the sign, the words of its kind unless given.
    """

    said: Said
    words: str = ""

    @property
    def text(self) -> str:
        """What is written beside its sign."""
        return self.words or WORDS[self.said]
