"""Whether a passage is found at its place."""

from __future__ import annotations

from baywright.language.blocks import folded
from baywright.language.passages import Passage


def is_at_its_place(passage: Passage, text: str) -> bool:
    """Say whether the first word of a passage stands where the passage says it starts."""
    line = text.split("\n")[passage.place.line - 1]
    return folded(line[passage.place.column - 1 :]).startswith(passage.text.split()[0])
