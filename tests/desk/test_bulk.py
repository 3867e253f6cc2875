"""Tables of builds in, verdicts out: in one file, in a folder, over unknown facts."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pyarrow as pa
import pytest

from baywright.desk import bulk
from baywright.desk.bulk import Tally, Wanted, judge_table, prepared
from baywright.exchange import sources
from baywright.problems import Problems
from baywright.space import Sum
from tests.exchange.tables import BUILDS, CART, law, read, write

VERDICTS: dict[str, list[Any]] = {
    **BUILDS,
    "legal": [True, False, True, False],
    "broken": [None, "axles", None, "weight"],
}


@pytest.mark.parametrize("ending", ["parquet", "arrow"])
def test_verdicts_are_written_beside_the_builds(tmp_path: Path, ending: str) -> None:
    path = write(tmp_path / f"in.{ending}", BUILDS, rows=3)
    out = tmp_path / f"out.{ending}"
    tally = judge_table(prepared([CART], Wanted(path, out)))
    assert tally == Tally(4, 2, 0, (0, 1, 1))
    assert read(out) == VERDICTS
    assert sorted(each.name for each in tmp_path.iterdir()) == [path.name, out.name]


def test_all_broken_laws_are_written_when_wanted(tmp_path: Path) -> None:
    heavier = CART.extended(sums=[Sum((("motor", (0, 0, 1)),), 0, law("axles"))])
    path = write(tmp_path / "in.parquet", BUILDS)
    job = prepared([heavier], Wanted(path, tmp_path / "out.parquet", every=True))
    assert judge_table(job).broken == (0, 2, 1)
    found = read(tmp_path / "out.parquet")["all_broken"]
    assert found == [[], ["axles"], [], ["axles", "weight"]]


def test_results_can_be_judged_again(tmp_path: Path) -> None:
    path = write(tmp_path / "in.parquet", BUILDS)
    for _ in range(2):
        out = path.with_name(f"again-{path.name}")
        judge_table(prepared([CART], Wanted(path, out, every=True)))
        path = out
    assert {name: read(path)[name] for name in VERDICTS} == VERDICTS


def test_columns_are_kept(tmp_path: Path) -> None:
    customer = pa.array(["x", "y", None, "x"]).dictionary_encode()
    path = write(tmp_path / "in.parquet", {**BUILDS, "customer": customer})
    judge_table(prepared([CART], Wanted(path, tmp_path / "out.arrow", kept=("customer",))))
    assert read(tmp_path / "out.arrow")["customer"] == ["x", "y", None, "x"]


def test_a_folder_gives_a_file_for_each_part(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bulk, "parts_of", lambda files: sources.parts_of(files, most=2))
    (tmp_path / "in").mkdir()
    for name in ("a.parquet", "b.arrow"):
        write(tmp_path / "in" / name, BUILDS, rows=2)
    told: list[str] = []
    job = prepared([CART], Wanted(tmp_path / "in", tmp_path / "out"))
    assert judge_table(job, told.append) == Tally(8, 4, 0, (0, 2, 2))
    files = sorted((tmp_path / "out").iterdir())
    assert [file.name for file in files] == [f"part-0000{n}.parquet" for n in range(4)]
    assert [legal for file in files for legal in read(file)["legal"]] == 2 * VERDICTS["legal"]
    assert told[-1] == "4 of 4 parts, 8 builds"


def test_a_verdict_that_unknown_facts_decide_is_left_open(tmp_path: Path) -> None:
    stronger = CART.without(["weight"])
    path = write(tmp_path / "in.parquet", BUILDS)
    job = prepared([CART, stronger], Wanted(path, tmp_path / "out.parquet", every=True))
    assert judge_table(job) == Tally(4, 2, 1, (0, 1, 0))
    found = read(tmp_path / "out.parquet")
    assert found["legal"] == [True, False, True, None]
    assert found["broken"] == [None, "axles", None, None]
    assert found["all_broken"] == [[], ["axles"], [], []]


def test_a_missing_choice_is_named(tmp_path: Path) -> None:
    path = write(tmp_path / "in.parquet", {"wheels": ["2"]})
    with pytest.raises(Problems, match="no column for 'motor'"):
        prepared([CART], Wanted(path))


def test_files_of_a_folder_have_the_same_columns(tmp_path: Path) -> None:
    write(tmp_path / "a.parquet", BUILDS)
    write(tmp_path / "b.parquet", {**BUILDS, "load class": ["light"] * 4})
    with pytest.raises(Problems, match=r"'load class' is in one only"):
        prepared([CART], Wanted(tmp_path))


def test_a_wrong_value_leaves_no_file_behind(tmp_path: Path) -> None:
    wrong = {**BUILDS, "motor": ["none", "none", "none", "smal"]}
    path = write(tmp_path / "in.parquet", wrong, rows=2)
    for out in (tmp_path / "out.parquet", tmp_path / "out"):
        with pytest.raises(Problems, match=r"row 4, column 'motor': 'smal'"):
            judge_table(prepared([CART], Wanted(path, out)))
    left = [each for each in tmp_path.rglob("*") if each.is_file()]
    assert left == [path]


def test_nothing_else_is_written_over(tmp_path: Path) -> None:
    path = write(tmp_path / "in.parquet", BUILDS)
    for out in (path, tmp_path):
        with pytest.raises(Problems) as found:
            prepared([CART], Wanted(path, out))
        assert found.value.problems[0].kind in {"same-file", "not-empty"}


def test_a_place_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    path = write(tmp_path / "in.parquet", BUILDS)
    with pytest.raises(Problems, match="cannot be written"):
        judge_table(prepared([CART], Wanted(path, path / "below" / "out.parquet")))


def test_a_table_without_rows_gives_a_table_without_rows(tmp_path: Path) -> None:
    empty = pa.array([], pa.string())
    path = write(tmp_path / "in.parquet", {"motor": empty, "wheels": empty})
    out = tmp_path / "out.parquet"
    assert judge_table(prepared([CART], Wanted(path, out))) == Tally(0, 0, 0, (0, 0, 0))
    assert read(out) == {"motor": [], "wheels": [], "legal": [], "broken": []}


def test_numbers_too_large_are_a_problem(tmp_path: Path) -> None:
    heavy = CART.extended(sums=[Sum((("motor", (0, 1 << 62, 3)),), 1 << 62, law("heavy"))])
    path = write(tmp_path / "in.parquet", BUILDS)
    with pytest.raises(Problems, match="64 bits"):
        prepared([heavy], Wanted(path))
