"""Tables as people paste them: from a file or a clipboard, whatever parts their columns."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from baywright.exchange.lists.rows import MOST_BYTES, MOST_ROWS, Row
from baywright.problems import Mark, problem

SEPARATORS = ("\t", ";", "|", ",")
"""Signs between columns; where several would do, the earlier one is taken."""


def pasted_rows(text: str, name: str) -> tuple[Row, ...]:
    """Return the rows of a pasted table that are not empty, in their order.

    The separator is the sign that gives most lines as many columns as the widest line. Lines
    around a table drawn with bars, and those that rule it, are left out.

    Args:
        text: the table.
        name: the name it has in problems.

    Raises:
        Problems: kinds ``too-large`` and ``not-a-table``.
    """
    if len(text) > MOST_BYTES:
        hint = f"Paste at most {MOST_BYTES:,} signs."
        raise problem("too-large", f"{name} has {len(text):,} signs.", None, hint)
    separator, rows = max(
        ((sign, _split(text, sign)) for sign in SEPARATORS),
        key=lambda split: (_likeness(split[1]), -SEPARATORS.index(split[0])),
    )
    found = tuple(
        Row(Mark(name, line, 1), cells)
        for line, cells in (_without_bars(rows, separator) if separator == "|" else rows)
        if any(cells)
    )
    if not found:
        raise problem("not-a-table", f"{name} has no rows.", None, "Paste the headings as well.")
    if len(found) > MOST_ROWS:
        hint = f"Give at most {MOST_ROWS:,} rows."
        raise problem("too-large", f"{name} has {len(found):,} rows.", None, hint)
    return found


def _split(text: str, separator: str) -> list[tuple[int, tuple[str, ...]]]:
    """Return line and cells of each row; none where the separator makes no sense of the quotes."""
    reader = csv.reader(io.StringIO(text), delimiter=separator, strict=True)
    rows, line = [], 1
    try:
        for cells in reader:
            rows.append((line, tuple(cell.strip() for cell in cells)))
            line = reader.line_num + 1
    except csv.Error:
        return []
    return rows


def _likeness(rows: Sequence[tuple[int, tuple[str, ...]]]) -> int:
    """Return how many rows have as many cells as the first that has several."""
    widths = [len(cells) for _, cells in rows if len(cells) > 1]
    return widths.count(widths[0]) if widths else 0


def _without_bars(
    rows: Sequence[tuple[int, tuple[str, ...]]], separator: str
) -> list[tuple[int, tuple[str, ...]]]:
    """Take off what a table drawn with bars has around it, and the lines that rule it."""
    drawn = all(cells[0] == "" and cells[-1] == "" for _, cells in rows if len(cells) > 1)
    inside = [(line, cells[1:-1] if drawn else cells) for line, cells in rows]
    return [(line, cells) for line, cells in inside if set("".join(cells)) - set("-:=+ ")]
