"""Fleets in tables: which builds stand where, how many of each, read from CSV or Parquet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import pyarrow as pa
from pyarrow import parquet

from baywright.exchange.lists.rows import read_rows
from baywright.problems import Mark, Problem, Problems, problem, suggestion

COLUMNS = ("book", "build", "count", "depot", "sites")
"""Columns that are read; all but the count may be missing."""

ENDINGS = (".csv", ".parquet")
"""Endings of the files that are read."""

MOST_MACHINES = 10_000_000
"""A larger number of machines in one row is taken for a slip."""


@dataclass(frozen=True, slots=True)
class Row:
    """Machines alike in one row of a fleet.

    Args:
        book: book of the machines, or empty.
        build: build file, or empty.
        count: how many machines.
        depot: name of the depot that serves them, or empty.
        sites: sites they stand at, or 0 where that is not said.
        mark: where the row stands.
    """

    book: str
    build: str
    count: int
    depot: str
    sites: int
    mark: Mark


def read_fleet(path: Path) -> tuple[Row, ...]:
    """Return the rows of a fleet.

    Args:
        path: a file that ends in .csv or .parquet, with a column ``count`` and, where they differ
            from what is given beside it, ``book``, ``build``, ``depot`` and ``sites``.

    Raises:
        Problems: for a file that cannot be read, and for every row that makes no sense.
    """
    suffix = path.suffix.lower()
    if suffix not in ENDINGS:
        hint = f"Give a file ending in {' or '.join(ENDINGS)}."
        raise problem("no-fleet", f"{path} is not known to be a fleet by its name.", None, hint)
    texts = list(_of_csv(path) if suffix == ".csv" else _of_parquet(path))
    found: list[Problem] = []
    rows = [row for mark, cells in texts for row in _row(found, mark, cells)]
    if not rows and not found:
        hint = "Write a head with the column count, and a row for each build."
        found.append(Problem("no-fleet", f"{path} has no machines.", None, hint))
    if found:
        raise Problems(found)
    return tuple(rows)


def _of_csv(path: Path) -> Iterator[tuple[Mark, Mapping[str, str]]]:
    head, *rows = read_rows(path) or (None,)
    if head is None:
        return
    names = [cell.casefold() for cell in head.cells]
    _check(names, head.mark)
    for row in rows:
        yield row.mark, dict(zip(names, row.cells, strict=False))


def _of_parquet(path: Path) -> Iterator[tuple[Mark, Mapping[str, str]]]:
    try:
        table = parquet.read_table(path)
    except (pa.ArrowException, OSError) as error:
        first = str(error).partition("\n")[0].rstrip(".")
        hint = "Write the file again, or check that it is complete."
        raise problem("no-fleet", f"{path} cannot be read: {first}.", None, hint) from error
    names = [name.casefold() for name in table.column_names]
    _check(names, Mark(str(path), 1, 1))
    for number, row in enumerate(table.rename_columns(names).to_pylist(), 1):
        cells = {name: "" if cell is None else str(cell) for name, cell in row.items()}
        yield Mark(str(path), number, 1), cells


def _check(names: Iterable[str], mark: Mark) -> None:
    unknown = [name for name in names if name not in COLUMNS]
    if "count" not in names or unknown:
        wrong = f"There is no column {unknown[0]!r}." if unknown else "A column is missing: count."
        hint = suggestion(unknown[0] if unknown else "", COLUMNS)
        raise problem("no-column", wrong, mark, hint or f"Columns: {', '.join(COLUMNS)}.")


def _row(found: list[Problem], mark: Mark, cells: Mapping[str, str]) -> Iterator[Row]:
    count = _whole(found, mark, cells, "count")
    sites = _whole(found, mark, cells, "sites") if cells.get("sites") else 0
    if count is None or sites is None:
        return
    if sites > count:
        message = f"{count:,} machines cannot stand at {sites:,} sites."
        found.append(Problem("sites", message, mark, "Give at most one site for each machine."))
        return
    book, build, depot = (cells.get(name, "").strip() for name in ("book", "build", "depot"))
    yield Row(book, build, count, depot, sites, mark)


def _whole(found: list[Problem], mark: Mark, cells: Mapping[str, str], name: str) -> int | None:
    text = cells.get(name, "").strip().replace(",", "")
    if text.isascii() and text.isdigit() and 1 <= int(text) <= MOST_MACHINES:
        return int(text)
    message = f"{name}: {cells.get(name, '')!r} is not a number of machines or sites."
    hint = f"Write a whole number from 1 to {MOST_MACHINES:,}."
    found.append(Problem("not-a-count", message, mark, hint))
    return None
