"""Tables read part by part, and files that are none."""

from __future__ import annotations

from pathlib import Path

import pytest

from baywright.exchange.sources import batches, column_names, files_of, parts_of
from baywright.problems import Problems
from tests.exchange.tables import write

ROWS = {"a": [str(n) for n in range(10)], "b": list(range(10))}


@pytest.mark.parametrize("ending", ["parquet", "arrow"])
def test_a_file_is_read_in_parts_and_batches(tmp_path: Path, ending: str) -> None:
    file = write(tmp_path / f"t.{ending}", ROWS, rows=3)
    parts = list(parts_of([file], most=6))
    assert [(part.pieces, part.row, part.rows) for part in parts] == [
        ((0, 1), 1, 6),
        ((2, 3), 7, 4),
    ]
    found = [batch for part in parts for batch in batches(part, ["a"], most=2)]
    assert [text for batch in found for text in batch.rows.column("a").to_pylist()] == ROWS["a"]
    assert max(batch.rows.num_rows for batch in found) <= 2
    assert all(batch.rows.column("a")[0].as_py() == str(batch.row - 1) for batch in found)


@pytest.mark.parametrize("ending", ["parquet", "arrow"])
def test_a_table_without_rows_has_one_part(tmp_path: Path, ending: str) -> None:
    file = write(tmp_path / f"t.{ending}", {"a": []})
    parts = list(parts_of([file]))
    assert [part.rows for part in parts] == [0]
    assert sum(batch.rows.num_rows for batch in batches(parts[0], ["a"])) == 0


def test_a_folder_is_one_table_in_order_of_names(tmp_path: Path) -> None:
    for name in ("b.parquet", "a.parquet", "c.arrow"):
        write(tmp_path / name, ROWS)
    (tmp_path / ".begun.parquet").write_bytes(b"")
    (tmp_path / "notes.txt").write_text("no table")
    assert [file.name for file in files_of(tmp_path)] == ["a.parquet", "b.parquet", "c.arrow"]


def test_what_is_no_table_is_named(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "t.xyz").write_text("")
    for path in (tmp_path / "folder", tmp_path / "t.xyz", tmp_path / "missing.parquet"):
        with pytest.raises(Problems, match=path.name) as found:
            files_of(path)
        assert found.value.problems[0].kind == "no-table"


@pytest.mark.parametrize("name", ["t.parquet", "t.arrow"])
def test_a_damaged_file_is_named(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_bytes(b"no table, but long enough to be looked into")
    with pytest.raises(Problems, match=name) as found:
        column_names(tmp_path / name)
    assert found.value.problems[0].kind == "unreadable-table"


def test_a_file_that_ends_early_is_named(tmp_path: Path) -> None:
    whole = write(tmp_path / "t.parquet", ROWS).read_bytes()
    (tmp_path / "t.parquet").write_bytes(whole[:-20])
    with pytest.raises(Problems, match="cannot be read"):
        list(parts_of([tmp_path / "t.parquet"]))
