"""Random builds in the terminal."""

from __future__ import annotations

import json

from typer.testing import CliRunner

from baywright.cli import app


def test_random_builds_of_a_book() -> None:
    command = ["random", "p1", "--number", "3", "--seed", "2", "--with", "load > 140 W"]
    told = CliRunner().invoke(app, command)
    assert told.exit_code == 0
    assert told.stdout.startswith("3 builds\nDrawn by seed 2 from all legal builds, given")
    found = json.loads(CliRunner().invoke(app, [*command, "--json"]).stdout)
    assert (found["book"], found["seed"], len(found["builds"])) == ("p1", 2, 3)
    assert found["proof"]["rechecked_by"] == "evaluator"
    assert CliRunner().invoke(app, ["random", "p1", "--number", "0"]).exit_code == 2
