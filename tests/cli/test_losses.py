"""The commands lose and spares: what they print, their JSON, their files and exit codes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from baywright.cli import app
from baywright.facts.cautions import CAUTIONS
from baywright.files.books import bundled_books

N4 = bundled_books()["f2"] / "builds" / "n4.yaml"
N1 = bundled_books()["p1"] / "builds" / "n1.yaml"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(app, [*map(str, arguments)], env={"COLUMNS": "80"})


def flat(text: str) -> str:
    return " ".join(text.split())


def test_a_loss_is_told_with_its_laws_and_facts() -> None:
    result = run("lose", "f2", N4, "P2")
    assert result.exit_code == 0
    text = flat(result.stdout)
    assert "Lost: 32-core processor, processor 2 (P2). The machine stops. It can start" in text
    assert "Slot R3b works only with processor 2. (places.R3b.owner;" in text
    assert "books/f2/places.yaml:" in text
    assert "memory 1,024 GB 512 GB" in text
    assert "Planning aid" in text
    assert max(map(len, result.stdout.splitlines())) <= 80


def test_each_caution_stands_once_and_before_the_repair() -> None:
    text = flat(run("lose", "f2", N4, "P2", "A.1").stdout)
    hazards = [caution.hazard for caution in CAUTIONS.values() if caution.hazard in text]
    assert len(hazards) >= 6
    assert all(text.count(hazard) == 1 for hazard in hazards)
    work = text.index("with the machine off")
    for key in ("several-cords", "stored-energy", "hot-surface", "static"):
        assert text.index(CAUTIONS[key].hazard) < work


def test_a_site_by_hand_changes_what_is_lost() -> None:
    assert "The machine stops" in run("lose", "f2", N4, "PS.1").stdout
    assert "The machine runs on." in run("lose", "f2", N4, "PS.1", "--volts", "230 V").stdout
    feeds = ("--feed", "A=32 A, 80 %", "--feed", "B=32 A, 80 %", "--volts", "230 V")
    assert "The machine runs on." in run("lose", "f2", N4, "feed B", *feeds).stdout


def test_json_has_grounds_cuts_and_repairs() -> None:
    data = json.loads(run("lose", "f2", N4, "R1b", "--json").stdout)
    assert data["lost"] == ["R1b"]
    assert not data["stops"]
    (array,) = [each for each in data["gone"] if each["key"] == "array.R1b.sas-2400"]
    assert any(ground["facts"] for ground in array["grounds"])
    assert "P1" in data["cuts"]["machine.starts"]["singles"]
    assert data["repairs"][0]["minutes"] == 27


def test_things_can_be_listed() -> None:
    result = run("lose", "f2", N4, "--things")
    assert result.exit_code == 0
    assert "O1.chip.1" in result.stdout


@pytest.mark.parametrize("ending", ["svg", "png", "pdf"])
def test_a_drawing_is_written(tmp_path: Path, ending: str) -> None:
    out = tmp_path / f"loss.{ending}"
    assert run("lose", "f2", N4, "A", "--out", out, "--view", "front").exit_code == 0
    assert out.stat().st_size > 1000


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("P9",), "Nothing in this build is called 'P9'"),
        (("A", "--out", "loss.txt"), "not written in that form"),
        (("A", "--out", "loss.svg", "--view", "below"), "There is no view 'below'"),
    ],
)
def test_bad_input_ends_with_2(arguments: tuple[str, ...], says: str) -> None:
    result = run("lose", "f2", N4, *arguments)
    assert result.exit_code == 2
    assert says in flat(result.stderr)


def test_spares_of_the_shops() -> None:
    asked = ("--machines", "140", "--level", "99%", "--lead", "14d", "--visits", "7d")
    result = run("spares", "p1", N1, *asked, "--json")
    assert result.exit_code == 0
    (depot,) = json.loads(result.stdout)["depots"]
    assert sum(each["spares"] for each in depot["stock"]) == 10
    assert round(depot["failures"], 2) == 16.94
    assert round(depot["visits"], 2) == 16.92


def test_spares_of_a_fleet(tmp_path: Path) -> None:
    table = tmp_path / "fleet.csv"
    table.write_text(f"book;build;count;depot\np1;{N1};140;North\np1;{N1};20;South\n")
    result = run("spares", "--fleet", table)
    assert result.exit_code == 0
    assert "Spares for 160 machines from 2 depots" in result.stdout
    assert "Depot South: 20 machines at 20 sites" in result.stdout


def test_spares_without_a_build_ends_with_2() -> None:
    result = run("spares", "p1")
    assert result.exit_code == 2
    assert "--fleet" in result.stderr
