"""Tables in files: one file or a folder of them, read part by part in bounded memory."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import pyarrow as pa
from pyarrow import ipc, parquet

from baywright.problems import problem

ENDINGS = (".parquet", ".arrow")
"""Endings of the files that are read: Parquet, and Arrow as its file format has it."""

BATCH = 1 << 17
"""Rows that are in memory at a time."""

PART = 1 << 22
"""Rows of a part of a table that is worked on by itself, about."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a table: some pieces of one file that follow one another.

    Args:
        file: the file.
        pieces: numbers of its row groups, or of its record batches.
        row: number of its first row in the file, counted from 1.
        rows: how many rows it has.
    """

    file: Path
    pieces: tuple[int, ...]
    row: int
    rows: int


@dataclass(frozen=True, slots=True)
class Batch:
    """Some rows of a table.

    Args:
        rows: the rows.
        file: where they stand.
        row: number of the first of them in the file, counted from 1.
    """

    rows: pa.RecordBatch
    file: Path
    row: int


def files_of(path: Path) -> tuple[Path, ...]:
    """Return the files of a table: the file itself, or those of a folder by name.

    Files of a folder whose names begin with a dot are left out: they are not complete.

    Raises:
        Problems: when there is none.
    """
    hint = f"Give a file ending in {' or '.join(ENDINGS)}, or a folder of such files."
    if path.is_dir():
        shown = (each for each in path.iterdir() if not each.name.startswith("."))
        found = tuple(sorted(each for each in shown if each.suffix in ENDINGS))
        if not found:
            raise problem("no-table", f"{path} holds no table.", None, hint)
        return found
    if not path.is_file():
        raise problem("no-table", f"{path} does not exist.", None, hint)
    if path.suffix not in ENDINGS:
        raise problem("no-table", f"{path} is not known to be a table by its name.", None, hint)
    return (path,)


def column_names(file: Path) -> tuple[str, ...]:
    """Return the names of the columns of a file.

    Raises:
        Problems: when the file cannot be read, or two columns share a name.
    """
    names: list[str] = list(_schema(file).names)
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        message = f"{file} has more than one column {twice[0]!r}."
        raise problem("column-twice", message, None, "Name each column once.")
    return tuple(names)


def parts_of(files: Sequence[Path], most: int = PART) -> Iterator[Part]:
    """Yield the parts of a table in order.

    Args:
        files: its files.
        most: rows of a part, unless one piece of a file has more.

    Raises:
        Problems: when a file cannot be read.
    """
    for file in files:
        pieces: list[int] = []
        row, rows = 1, 0
        for piece, length in enumerate(_lengths(file)):
            if pieces and rows + length > most:
                yield Part(file, tuple(pieces), row, rows)
                row, rows, pieces = row + rows, 0, []
            pieces.append(piece)
            rows += length
        yield Part(file, tuple(pieces), row, rows)


def batches(part: Part, columns: Sequence[str], most: int = BATCH) -> Iterator[Batch]:
    """Yield the rows of a part, some at a time; a part without rows gives one batch without any.

    Args:
        part: the part.
        columns: names of the columns to read.
        most: rows of a batch.

    Raises:
        Problems: when the file cannot be read.
    """
    row = part.row
    reader = _parquet_batches if part.file.suffix == ".parquet" else _arrow_batches
    try:
        for rows in reader(part, columns, most):
            yield Batch(rows, part.file, row)
            row += rows.num_rows
        if row == part.row:
            yield Batch(_no_rows(part.file, columns), part.file, row)
    except (pa.ArrowException, OSError) as error:
        raise _unreadable(part.file, error) from error


def _parquet_batches(part: Part, columns: Sequence[str], most: int) -> Iterator[pa.RecordBatch]:
    # Texts stay the short list of different ones and a number for each row, as they are stored.
    with parquet.ParquetFile(part.file, read_dictionary=list(columns), pre_buffer=False) as source:
        if part.pieces:
            yield from source.iter_batches(most, row_groups=list(part.pieces), columns=columns)


def _arrow_batches(part: Part, columns: Sequence[str], most: int) -> Iterator[pa.RecordBatch]:
    with _opened(part.file) as source:
        for piece in part.pieces:
            batch = source.get_batch(piece).select(list(columns))
            for begin in range(0, batch.num_rows, most):
                yield batch.slice(begin, most)


def _no_rows(file: Path, columns: Sequence[str]) -> pa.RecordBatch:
    schema = _schema(file)
    return pa.RecordBatch.from_pylist([], pa.schema([schema.field(name) for name in columns]))


def _schema(file: Path) -> pa.Schema:
    with _opened(file) as source:
        return source.schema_arrow if file.suffix == ".parquet" else source.schema


def _lengths(file: Path) -> list[int]:
    """Return how many rows each piece of a file has."""
    with _opened(file) as source:
        if file.suffix == ".parquet":
            return [source.metadata.row_group(n).num_rows for n in range(source.num_row_groups)]
        return [source.get_batch(n).num_rows for n in range(source.num_record_batches)]


def _opened(file: Path) -> parquet.ParquetFile | ipc.RecordBatchFileReader:
    try:
        if file.suffix == ".parquet":
            return parquet.ParquetFile(file)
        return ipc.open_file(pa.memory_map(str(file)))
    except (pa.ArrowException, OSError) as error:
        raise _unreadable(file, error) from error


def _unreadable(file: Path, error: Exception) -> Exception:
    first = str(error).partition("\n")[0].rstrip(".")
    hint = "Write the file again, or check that it is complete."
    return problem("unreadable-table", f"{file} cannot be read: {first}.", None, hint)
