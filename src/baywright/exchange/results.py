"""Tables with their verdicts, written batch by batch; a file appears when it is complete."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Protocol

import numpy as np
import pyarrow as pa
from numpy.typing import NDArray
from pyarrow import ipc, parquet

from baywright.exchange.coding import Indices
from baywright.exchange.sources import ENDINGS, Batch
from baywright.problems import problem
from baywright.space import Space


class Writer(Protocol):
    """Takes batches one after the other."""

    def write_batch(self, batch: pa.RecordBatch) -> None:
        """Write one batch."""

    def close(self) -> None:
        """Finish the file."""


class ResultFile:
    """A file of builds with their verdicts.

    Args:
        space: the space.
        given: the choices that are written, as they were given.
        kept: columns that are carried along.
        keys: keys of the laws.
        path: where the file is written to; its ending says how.
    """

    def __init__(
        self,
        space: Space,
        given: Sequence[str],
        kept: Sequence[str],
        keys: Sequence[str],
        path: Path,
    ) -> None:
        self._choices = [
            (at, choice.name, pa.array(choice.values, pa.string()))
            for at, choice in enumerate(space.choices)
            if choice.name in given
        ]
        self._kept = tuple(kept)
        self._keys = pa.array(keys, pa.string())
        self._path = path
        self._writer: Writer | None = None

    def write(
        self,
        batch: Batch,
        codes: Indices,
        legal: NDArray[np.bool_],
        first: NDArray[np.int32],
        broken: NDArray[np.bool_] | None,
        undecided: NDArray[np.bool_],
    ) -> None:
        """Write a batch.

        Args:
            batch: the rows as they were read.
            codes: the builds.
            legal: which of them are legal.
            first: for each, the place of the key of the first broken law, -1 for none.
            broken: for each, which keys it breaks, or ``None`` to leave that out.
            undecided: for which ones no verdict holds whatever the unknown facts are.
        """
        columns = {name: _labelled(codes[at], labels) for at, name, labels in self._choices}
        columns |= {name: _plain(batch.rows.column(name)) for name in self._kept}
        columns["legal"] = pa.array(legal, mask=undecided)
        none = undecided | (first < 0)
        columns["broken"] = pa.DictionaryArray.from_arrays(
            pa.array(np.where(none, 0, first), pa.int32(), mask=none), self._keys
        )
        if broken is not None:
            columns["all_broken"] = self._lists(broken & ~undecided[:, None])
        rows = pa.RecordBatch.from_pydict(columns)
        if self._writer is None:
            self._writer = _writer(self._path, rows.schema)
        self._writer.write_batch(rows)

    def close(self) -> None:
        """Finish the file."""
        if self._writer is not None:
            self._writer.close()

    def _lists(self, broken: NDArray[np.bool_]) -> pa.Array:
        """Return a list of keys for each build."""
        ends = np.cumsum(broken.sum(axis=1), dtype=np.int32)
        places = pa.array(np.nonzero(broken)[1].astype(np.int32))
        offsets = pa.array(np.append(np.int32(0), ends))
        return pa.ListArray.from_arrays(offsets, pa.DictionaryArray.from_arrays(places, self._keys))


def check_target(path: Path, sources: Sequence[Path]) -> None:
    """Refuse to write over the table that is read, or into a folder that holds something else.

    Raises:
        Problems: when it would.
    """
    hint = "Give another place with --out."
    if path.resolve() in {source.resolve() for source in sources}:
        raise problem("same-file", f"{path} is read from and cannot be written to.", None, hint)
    if is_folder(path) and path.exists() and (not path.is_dir() or any(path.iterdir())):
        raise problem("not-empty", f"{path} is not an empty folder.", None, hint)


def is_folder(path: Path) -> bool:
    """Say whether a path to write to names a folder, by its ending."""
    return path.suffix not in ENDINGS


@contextmanager
def replaced(path: Path) -> Iterator[Path]:
    """Yield a path beside another; what is written there takes its place at the end.

    Raises:
        Problems: when it cannot be written.
    """
    # The process takes part in the name, so that a part worked on twice is not written to twice.
    beside = path.with_name(f".{path.stem}.{os.getpid()}{path.suffix}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            yield beside
            beside.replace(path)
        finally:
            beside.unlink(missing_ok=True)
    except OSError as error:
        hint = "Give a place that can be written with --out."
        raise problem("unwritable", f"{path} cannot be written: {error}.", None, hint) from error


def clear_unfinished(folder: Path) -> None:
    """Remove the files of a folder that were begun and never finished, as by a lost worker."""
    for file in folder.glob(".part-*"):
        file.unlink(missing_ok=True)


def _writer(path: Path, schema: pa.Schema) -> Writer:
    if path.suffix == ".parquet":
        parquet_writer: Writer = parquet.ParquetWriter(path, schema)
        return parquet_writer
    arrow_writer: Writer = ipc.new_file(str(path), schema)
    return arrow_writer


def _labelled(codes: NDArray[Any], labels: pa.Array) -> pa.Array:
    return pa.DictionaryArray.from_arrays(pa.array(codes.astype(np.int32)), labels)


def _plain(column: pa.Array) -> pa.Array:
    """Return a column without a list of its different values, which may change between batches."""
    return column.dictionary_decode() if pa.types.is_dictionary(column.type) else column
