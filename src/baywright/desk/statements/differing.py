"""How two statements that answer the same query differ, in words."""

from __future__ import annotations

from collections.abc import Sequence

from baywright.desk.statements.statement import Statement

MOST_ROWS = 3
"""Rows that are quoted of a table or a list on each side."""


def difference(before: Statement, now: Statement) -> str:
    """Return what is otherwise now: of tables and lists the rows, of all else the words."""
    if now.value == before.value:
        return f"{before.engine} finds what was recorded, another engine does not."
    rows = before.value.get("rows"), now.value.get("rows")
    if rows[0] is not None and rows[1] is not None:
        gone = [row for row in rows[0] if row not in rows[1]]
        new = [row for row in rows[1] if row not in rows[0]]
        said = filter(None, (_quoted("No longer", gone), _quoted("Now", new)))
        return f"{before.query.text}: {' '.join(said) or 'the rows stand in another order.'}"
    if now.words != before.words:
        return f"Recorded: {before.words} Now: {now.words}"
    return f"Recorded: {before.words} Now another value, said in the same words."


def _quoted(word: str, rows: Sequence[Sequence[str]]) -> str:
    if not rows:
        return ""
    shown = "; ".join(" | ".join(row) for row in rows[:MOST_ROWS])
    more = f"; and {len(rows) - MOST_ROWS} more rows" if len(rows) > MOST_ROWS else ""
    return f"{word}: {shown}{more}."
