"""Tables of a draft: which heads a cell stands under and beside."""

from __future__ import annotations


class Heads:
    """Gathers the cells of one table, row by row.

    The first row is the heads of the columns, and the first cell of any other row is its head.
    """

    def __init__(self) -> None:
        self._above: dict[int, str] = {}
        self._beside = ""
        self._row = -1
        self._column = -1
        self._next = 0

    def next_row(self) -> None:
        """Start a row."""
        self._row += 1
        self._next = 0
        self._beside = ""

    def next_cell(self, columns: int = 1) -> None:
        """Start a cell.

        Args:
            columns: how many columns it is wide.
        """
        self._row = max(self._row, 0)
        self._column = self._next
        self._next += columns

    def take(self, text: str) -> str:
        """Take a text of the open cell and return its heads: that of its row, of its column.

        Args:
            text: folded text of the cell, or of a paragraph in it.
        """
        column = max(self._column, 0)
        if self._row <= 0:
            self._above.setdefault(column, text)
            return ""
        if column == 0:
            self._beside = self._beside or text
            return self._above.get(0, "")
        return " | ".join(part for part in (self._beside, self._above.get(column, "")) if part)
