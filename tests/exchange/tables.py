"""An invented cart with a few choices, and tables of builds of it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pyarrow as pa
from pyarrow import ipc, parquet

from baywright.space import Choice, Origin, Space, Sum, Table

MOTOR = Choice("motor", ("none", "small", "large"))
WHEELS = Choice("wheels", ("2", "4"))
LOAD = Choice("load class", ("light", "heavy"), derived=True)


def law(key: str) -> Origin:
    return Origin(key, "law", f"The law of {key} holds.")


CART = Space(
    (MOTOR, WHEELS, LOAD),
    (
        Table(("motor", "load class"), frozenset({(0, 0), (1, 0), (2, 1)}), law("class")),
        Table(("wheels", "load class"), frozenset({(0, 0), (1, 0), (1, 1)}), law("axles")),
    ),
    (Sum((("motor", (0, 40, 90)), ("wheels", (5, 20))), 100, law("weight")),),
)
"""Legal: no motor or a small one, on any wheels. A large one is too heavy on four wheels, and on
two it breaks the law of the axles."""

BUILDS = {
    "motor": ["none", "large", "small", "large"],
    "wheels": ["2", "2", "4", "4"],
}


def write(path: Path, columns: dict[str, Any], rows: int | None = None) -> Path:
    """Write a table, with so many rows in a piece."""
    table = pa.table(columns)
    if path.suffix == ".parquet":
        parquet.write_table(table, path, row_group_size=rows)
    else:
        with ipc.new_file(str(path), table.schema) as sink:
            sink.write_table(table, max_chunksize=rows)
    return path


def read(path: Path) -> dict[str, list[Any]]:
    """Read a table as plain values."""
    if path.suffix == ".parquet":
        found: dict[str, list[Any]] = parquet.read_table(path).to_pydict()
        return found
    with ipc.open_file(str(path)) as source:
        held: dict[str, list[Any]] = source.read_all().to_pydict()
        return held
