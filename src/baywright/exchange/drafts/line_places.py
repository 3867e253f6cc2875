"""Lines and columns of the signs of a text."""

from __future__ import annotations

import itertools
from bisect import bisect_right


class LinePlaces:
    """Where the signs of a text stand.

    Args:
        text: the text; its lines end in line feeds.
    """

    def __init__(self, text: str) -> None:
        ends = (len(line) + 1 for line in text.split("\n"))
        self._starts = list(itertools.accumulate(ends, initial=0))

    def place(self, at: int) -> tuple[int, int]:
        """Return line and column of a sign, both counted from 1."""
        line = bisect_right(self._starts, at)
        return line, at - self._starts[line - 1] + 1

    def start(self, line: int) -> int:
        """Return where a line starts; one behind the last starts at the end.

        Args:
            line: line, counted from 1.
        """
        return self._starts[min(line, len(self._starts)) - 1]
