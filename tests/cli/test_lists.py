"""The commands order, parts and compare: exit codes, what stands on the page, what is written."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from baywright.cli import app
from baywright.files.books import bundled_books
from tests.files.example import write_example

F1, F2 = (bundled_books()[name] for name in ("f1", "f2"))
ORDERS = F2 / "orders"
OWNED, N2, N4 = (
    F1 / "builds" / "n5-owned.yaml",
    F2 / "builds" / "n2.yaml",
    F2 / "builds" / "n4.yaml",
)


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(app, [*map(str, arguments)], env={"COLUMNS": "80", "TERM": "dumb"})


def flat(text: str) -> str:
    return " ".join(text.split())


def answer(*arguments: str | Path) -> Any:
    result = run(*arguments, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def written(folder: Path, text: str, name: str = "list.txt") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("name", ["clinics.txt", "record-office.csv", "second-hand.txt"])
def test_every_bundled_order_is_answered_in_eighty_columns(name: str) -> None:
    result = run("order", "f2", ORDERS / name)
    assert result.exit_code == 0, result.output
    assert result.output.splitlines()[0] in ("Yes", "No")
    assert "Planning aid" in result.output
    assert max(map(len, result.output.splitlines())) <= 80


def test_the_clinics_order_is_that_of_their_build() -> None:
    found = answer("order", "f2", ORDERS / "clinics.txt")
    assert (found["machines"], found["answer"]["verdict"]) == (4, "yes")
    assert found["answer"]["build"]["parts"]["dimm-64"] == 32
    # From the demo scenario: 12 network positions, cages and zones aside, only zone A or B is open.
    assert found["arrangements"]["number"] == 2


def test_parts_of_the_predecessor_are_named_and_swapped() -> None:
    result = run("order", "f2", ORDERS / "second-hand.txt")
    said = flat(result.output)
    assert "Parts of other machines are listed: line 3, 6 and 7." in said
    assert "8 × 16 GB module (dimm-16) is a part of Ferryman F1 (book f1)" in said
    assert "11 changes" in said


def test_a_condition_counts_as_asked(tmp_path: Path) -> None:
    path = written(tmp_path, (ORDERS / "record-office.csv").read_text("utf-8"), "list.csv")
    redundant = "supplies_redundant and voltage == 120 V"
    # From the demo scenario: N4 draws 1,159 W, and one 1300 W supply gives 1,000 W at 120 V.
    assert answer("order", "f2", path)["answer"]["verdict"] == "yes"
    assert answer("order", "f2", path, "--with", redundant)["answer"]["verdict"] == "no"


def test_what_hangs_on_an_unknown_fact_says_so(tmp_path: Path) -> None:
    book = write_example(tmp_path)
    places = book / "places.yaml"
    places.write_text(places.read_text().replace("takes: [S4]", "takes: [S4, S2]"))
    lines = "1 x cpu-8\n2 x dimm-16\n1 x S2\n2 x sas-1200\n1 x C4\n1 x ps-400\n3 fans"
    path = written(tmp_path, lines)
    # The example's second cage costs one of two prices; nobody has said which.
    assert answer("order", book, path)["supposed"] == {"parts.S2.price": "70 FLO"}
    assert "parts.S2.price 70 FLO" in flat(run("order", book, path).output)


def test_an_order_without_a_part_is_bad_input(tmp_path: Path) -> None:
    result = run("order", "f2", written(tmp_path, "good morning"))
    assert result.exit_code == 2
    assert "No line names a part" in result.output


@pytest.mark.parametrize("suffix", [".csv", ".xlsx"])
def test_a_list_is_written_and_comes_back(suffix: str, tmp_path: Path) -> None:
    path = tmp_path / f"list{suffix}"
    found = answer("parts", "f2", N2, "--out", path)
    assert found["written"] == str(path)
    again = answer("order", "f2", path)
    assert again["answer"]["build"]["lines"] == found["answer"]["build"]["lines"]
    assert again["follow"] == []


def test_the_parts_of_a_build_that_cannot_be_built_are_not_written(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    result = run("parts", "f2", N4, "--out", path)
    assert result.exit_code == 0
    assert "there is no parts list" in flat(result.output)
    assert "Nothing was written" in flat(result.output)
    assert not path.exists()


@pytest.mark.parametrize("name", ["list.pdf", "none/list.csv"])
def test_a_list_that_cannot_be_written_is_bad_input(name: str, tmp_path: Path) -> None:
    result = run("parts", "f2", N2, "--out", tmp_path / name)
    assert result.exit_code == 2
    assert not list(tmp_path.iterdir())


def test_a_build_is_compared_with_its_like() -> None:
    result = run("compare", "f1", OWNED, "--to", "f2")
    assert result.exit_code == 0, result.output
    said = flat(result.output)
    assert "What becomes of each part" in said
    assert "6 × 16 GB module (dimm-16)" in said
    assert max(map(len, result.output.splitlines())) <= 80


def test_two_builds_are_compared() -> None:
    found = answer("compare", "f1", OWNED, OWNED)
    assert {row["word"] for row in found["rows"]} == {"same"}
    assert found["like"] is None


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("compare", "f1", str(OWNED)), "one build alone cannot be compared"),
        (("compare", "f2", str(N2), str(N4)), "cannot be built"),
        (("compare", "f1", "f9"), "no book"),
    ],
)
def test_what_cannot_be_compared_is_bad_input(arguments: tuple[str, ...], said: str) -> None:
    result = run(*arguments)
    assert result.exit_code == 2
    assert said in flat(result.output)


@pytest.mark.parametrize("command", ["order", "parts", "compare"])
def test_help_has_an_example(command: str) -> None:
    assert f"Example: baywright {command}" in flat(run(command, "--help").output)
