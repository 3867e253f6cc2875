"""The command upgrade: exit codes, what stands on the page, and cautions before acts."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from baywright.cli import app
from baywright.facts.cautions import CAUTIONS
from tests.desk.upgrade.files import OWNED, WANTED, need


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(app, ["upgrade", "f1", *map(str, arguments)], env={"COLUMNS": "80"})


@pytest.fixture(scope="module")
def shown() -> str:
    """What the program prints of the college's upgrade."""
    found = run(OWNED, WANTED)
    assert found.exit_code == 0, found.output
    return found.output


def flat(text: str) -> str:
    return " ".join(text.split())


def test_both_paths_stand_side_by_side(shown: str) -> None:
    for price in ("5,204 FLO", "5,484 FLO", "9,754 FLO"):
        assert price in shown
    assert "Planning aid" in shown
    assert max(map(len, shown.splitlines())) <= 80


def test_each_caution_stands_once_and_before_its_first_act(shown: str) -> None:
    text = flat(shown)
    hazards = [caution.hazard for caution in CAUTIONS.values() if caution.hazard in text]
    assert len(hazards) >= 9
    assert all(text.count(hazard) == 1 for hazard in hazards)
    assert text.index(CAUTIONS["moving-array"].hazard) < text.index("Take out 1 × controller S8i")
    assert text.index(CAUTIONS["several-cords"].hazard) < text.index("Step 2 (")


def test_every_step_says_that_it_leaves_a_legal_state(shown: str) -> None:
    text = flat(shown)
    first_way = text[: text.index("Ferryman F2 in its place: ")]
    steps = re.findall(r"Step \d+ \((?:off|runs)\)", first_way)
    assert first_way.count("Legal:") == len(steps) == 13


def test_json_has_every_step_with_its_cautions() -> None:
    data: dict[str, Any] = json.loads(run(OWNED, WANTED, "--json").output)
    (plans,) = data["plans"]
    assert plans["stands"]["verdict"] == plans["meets"]["verdict"] == "yes"
    named = {key for way in plans["ways"] for step in way["steps"] for key in step["cautions"]}
    assert named <= set(data["cautions"])
    assert [each["book"] for each in data["successors"]] == ["f2"]


def test_a_machine_without_a_successor_has_one_path(tmp_path: Path) -> None:
    found = run(OWNED, need(tmp_path, "count(drive) == 8"), "--to", "f1", "--json")
    assert found.exit_code == 0
    assert [each["book"] for each in json.loads(found.output)["successors"]] == ["f1"]


def test_a_need_that_cannot_be_met_is_answered_with_reasons(tmp_path: Path) -> None:
    found = run(OWNED, need(tmp_path, "count(drive) >= 17"))
    assert found.exit_code == 0
    assert "No build of it meets the need." in flat(found.output)
    assert "Nearest builds" in found.output


def test_a_file_that_is_not_there_is_bad_input(tmp_path: Path) -> None:
    found = run(OWNED, tmp_path / "none.yaml")
    assert found.exit_code == 2
    assert "none.yaml" in flat(found.output)


def test_problems_come_as_json_where_json_is_wanted(tmp_path: Path) -> None:
    found = run(OWNED, need(tmp_path, "count(drives) >= 8"), "--json")
    assert found.exit_code == 2
    (problem,) = json.loads(found.output)["problems"]
    assert problem["where"]["line"] == 5
