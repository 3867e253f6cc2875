"""From rows to entries: which cell counts, which names the part, which says where it goes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from baywright.desk.order.words import NUMBER_WORDS, UNITS, folded, key_of, singular
from baywright.exchange.lists.rows import Row

HEADS: Mapping[str, frozenset[str]] = {
    "part": frozenset({"part", "partid", "id", "item", "code", "partnumber", "partno", "article"}),
    "name": frozenset({"name", "description", "text", "designation", "partname", "title"}),
    "count": frozenset({"count", "quantity", "qty", "number", "pieces", "pcs", "amount", "units"}),
    "place": frozenset({"place", "position", "slot", "location", "where"}),
    "value": frozenset({"value", "setting"}),
    "kind": frozenset({"kind", "category", "group"}),
    "remark": frozenset({"remark", "note", "notes", "remarks", "comment", "comments"}),
}
"""Words at the head of a column, by what the column holds."""

WORKED_OUT = re.compile(r"price|cost|sum|total|mass|weight|watt|power|draw|each", re.IGNORECASE)
"""Heads of columns that follow from the parts and are not read."""

MOST = 100_000
"""A larger number of one part is no order."""

_LEADING = re.compile(
    r"^(?P<count>\d+|[a-z]+)(?:\s*(?P<times>x(?=\s)|×|\*|(?:pcs?|pieces?|ea|off)\b\.?)\s*|\s+)"
    r"(?P<rest>\S.*)$"
)
_TRAILING = re.compile(
    r"^(?P<rest>.*[^\s,;])[\s,;]*(?:[:=(×]|\b(?:x|qty:?|quantity:?))\s*(?P<count>\d+)\s*"
    r"(?:pcs?\.?|pieces?|\))?\s*$"
)
_BETWEEN = re.compile(r"[,;+]\s+|\s+(?:and|plus)\s+")
_MARKER = re.compile(r"^\s*(?:\d+[.)]\s+|[-*•·]\s*)")


@dataclass(frozen=True, slots=True)
class Entry:
    """What a row says, before anything is looked up.

    Args:
        row: the row.
        text: the words that name something.
        code: the cell that should hold an id, or empty.
        count: the number as written, or empty where none is.
        place: the cell that says where it goes, or empty.
        value: the cell that holds the value of a setting, or empty.
        ignored: cells that nothing was made of, with the head of their column.
    """

    row: Row
    text: str
    code: str = ""
    count: str = ""
    place: str = ""
    value: str = ""
    ignored: tuple[str, ...] = ()


@dataclass
class _Table:
    """The columns of the sheet that is read, once its heads were met."""

    sheet: str = ""
    columns: Mapping[int, str] = field(default_factory=dict)
    heads: tuple[str, ...] = ()


def entries(rows: Iterable[Row]) -> Iterator[Entry]:
    """Yield an entry for each row; the heads of a table are none."""
    table = _Table()
    for row in rows:
        columns = _columns(row)
        if columns:
            table = _Table(row.sheet, columns, row.cells)
        elif table.columns and row.sheet == table.sheet and len(row.cells) > 1:
            yield _under_heads(row, table)
        else:
            yield from _free(row)


def _columns(row: Row) -> dict[int, str]:
    """Return what each column holds, where a row is the head of a table."""
    found: dict[int, str] = {}
    for at, cell in enumerate(row.cells):
        holds = next((what for what, words in HEADS.items() if key_of(cell) in words), None)
        if holds is not None and holds not in found.values():
            found[at] = holds
    held = set(found.values())
    return found if "count" in held and held & {"part", "name"} else {}


def _under_heads(row: Row, table: _Table) -> Entry:
    cells = {what: row.cells[at] for at, what in table.columns.items() if at < len(row.cells)}
    ignored = tuple(
        f"{table.heads[at] if at < len(table.heads) else 'no head'}: {cell}"
        for at, cell in enumerate(row.cells)
        if cell and at not in table.columns and not _follows(table, at)
    )
    remark = (f"remark: {cells['remark']}",) if cells.get("remark") else ()
    code = cells.get("part", "")
    return Entry(
        row,
        cells.get("name", "") or code,
        code,
        cells.get("count", ""),
        cells.get("place", ""),
        cells.get("value", ""),
        (*remark, *ignored),
    )


def _follows(table: _Table, at: int) -> bool:
    return at < len(table.heads) and bool(WORKED_OUT.search(table.heads[at]))


def _free(row: Row) -> Iterator[Entry]:
    """Read a row without heads: words and a number in cells or in one, or several such parts."""
    filled = [cell for cell in row.cells if cell]
    numbers = [cell for cell in filled if cell.isdigit()]
    if len(filled) > 1 and len(numbers) == 1:
        words = [cell for cell in filled if cell != numbers[0]]
        yield Entry(row, " ".join(words), count=numbers[0])
    else:
        for said in _counted(filled) or (" ".join(filled),):
            yield _sentence(row, said)


def _counted(cells: Iterable[str]) -> tuple[str, ...]:
    """Return the parts of a row such as "4 x cpu-32, 12 x dimm-64" if each begins with a count."""
    parts = tuple(part for cell in cells for part in _BETWEEN.split(cell) if part)
    led = (_LEADING.match(_MARKER.sub("", folded(part)).strip()) for part in parts)
    return parts if all(found and _counts(found) for found in led) else ()


def _sentence(row: Row, text: str) -> Entry:
    said = _MARKER.sub("", folded(text)).strip()
    leading = _LEADING.match(said)
    if leading and _counts(leading):
        return Entry(row, leading["rest"], count=_digits(leading["count"]))
    trailing = _TRAILING.match(said)
    if trailing:
        return Entry(row, trailing["rest"], count=trailing["count"])
    return Entry(row, said)


def _counts(found: re.Match[str]) -> bool:
    """Say whether what a line begins with counts pieces and is not part of a name."""
    count, rest = found["count"], found["rest"]
    if not count.isdigit():
        return count in NUMBER_WORDS
    if found["times"]:
        return True
    # "16-core processor" and "64 GB module" begin with what the part is.
    word = re.match(r"[a-z/]+", rest)
    return rest[0] not in "-.,)" and not (word and _is_unit(word[0]))


def _is_unit(word: str) -> bool:
    return word in UNITS or singular(word) in UNITS


def _digits(count: str) -> str:
    return count if count.isdigit() else str(NUMBER_WORDS[count])
