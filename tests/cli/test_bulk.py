"""Tables of builds in the terminal."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from baywright.cli import app, bulk
from baywright.desk.opening import open_book
from baywright.engines.contract import Possible
from baywright.engines.search import Search
from baywright.files.spaces import write_space
from tests.exchange.tables import BUILDS, CART, read, write


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(app, ["bulk", *map(str, arguments)])


@pytest.fixture
def cart(tmp_path: Path) -> tuple[str, Path]:
    write_space(CART, tmp_path / "cart.json")
    return ("--space", tmp_path / "cart.json")


@pytest.fixture
def table(tmp_path: Path) -> Path:
    return write(tmp_path / "in.parquet", BUILDS)


def test_builds_of_a_book_are_judged(tmp_path: Path) -> None:
    space = open_book("p1").machine.space
    proof = Search().prove(space)
    assert isinstance(proof, Possible)
    own = [choice for choice in space.choices if not choice.derived]
    columns = {each.name: [each.values[proof.values[each.name]]] * 3 for each in own}
    fans = next(each for each in own if each.name == "F")
    columns["F"] = [columns["F"][0], *(label for label in fans.values if label == "empty"), "empty"]
    out = tmp_path / "out.parquet"
    found = run("p1", write(tmp_path / "in.parquet", columns), "--out", out)
    assert found.exit_code == 0, found.output
    assert "of 3 builds are legal." in found.output
    assert "builds a second" in found.output
    assert read(out)["legal"][0]


def test_a_space_file_stands_in_for_a_book(cart: tuple[str, Path], table: Path) -> None:
    found = run(*cart, table)
    assert found.exit_code == 0, found.output
    assert found.output.startswith("2 of 4 builds are legal.")
    assert "First broken law" in found.output
    assert "1  axles   The law of axles holds." in found.output


def test_json_has_all_counts(cart: tuple[str, Path], table: Path, tmp_path: Path) -> None:
    out = tmp_path / "out.arrow"
    found = run(*cart, table, "--all", "--json", "--out", out)
    data: dict[str, Any] = json.loads(found.output)
    assert data.pop("seconds") >= 0
    assert data == {
        "by": str(cart[1]),
        "builds": 4,
        "legal": 2,
        "undecided": 0,
        "counted": "all",
        "broken": {"axles": 1, "weight": 1},
        "out": str(out),
    }
    assert read(out)["all_broken"] == [[], ["axles"], [], ["weight"]]


def test_what_is_wrong_with_a_table_is_bad_input(
    cart: tuple[str, Path], table: Path, tmp_path: Path
) -> None:
    write(table, {**BUILDS, "weels": ["2"] * 4})
    found = run(*cart, table)
    assert found.exit_code == 2
    assert "Did you mean 'wheels'?" in found.output
    assert run(*cart, tmp_path / "missing.parquet").exit_code == 2
    kept = run(*cart, table, "--keep", "weels", "--out", tmp_path / "out.parquet")
    assert kept.exit_code == 0
    assert read(tmp_path / "out.parquet")["weels"] == ["2"] * 4


def test_arguments_that_are_missing_or_too_many_are_named(
    cart: tuple[str, Path], table: Path
) -> None:
    assert "PATH" in run(*cart).output
    assert "PATH" in run("p1").output
    assert "in place of BOOK" in run(*cart, "p1", table).output


def test_a_cluster_takes_its_library(
    cart: tuple[str, Path], table: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bulk, "find_spec", lambda name: None)
    found = run(*cart, table, "--on", "tcp://127.0.0.1:1")
    assert found.exit_code == 2
    assert "baywright[cluster]" in found.output


def test_whole_numbers_are_said_to_be_one_or_the_other(cart: tuple[str, Path], table: Path) -> None:
    write(table, {**BUILDS, "wheels": [2, 2, 4, 4]})
    assert "--integers" in run(*cart, table).output
    assert "2 of 4" in run(*cart, table, "--integers", "label").output
