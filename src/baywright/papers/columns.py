"""Widths of the columns of a table, by what its cells need."""

from __future__ import annotations

from baywright.papers.document import Table, plain

WIDEST = 34
"""Letters after which a cell is broken rather than made wider."""

LONGEST_WORD = 26
"""Letters of a word that a column makes room for; a longer one is broken."""

MARGIN = 3
"""Letters that the edges of a cell take up."""

LETTERS = 10
"""Letters that one share of a column stands for."""


def shares(table: Table) -> tuple[int, ...]:
    """Return the share of the width that each column gets, in letters where none is wanted."""
    found = []
    for at, column in enumerate(table.columns):
        if column.share:
            found.append(column.share * LETTERS)
            continue
        cells = [column.title, *(plain(row[at]) for row in table.rows)]
        head = max(map(len, column.title.split()), default=0)
        found.append(max(head, *(_needed(cell) for cell in cells[1:] or [""])) + MARGIN)
    return tuple(found)


def _needed(cell: str) -> int:
    word = max(map(len, cell.split()), default=0)
    return max(min(len(cell), WIDEST), min(word, LONGEST_WORD))
