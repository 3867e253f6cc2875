"""The command size: what it prints, its JSON, its charts and its exit codes."""

from __future__ import annotations

import json
from pathlib import Path

from tests.cli.test_commands import N4, run


def test_size_shows_the_nearest_limit_first() -> None:
    result = run("size", "f2", N4)
    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    limits = lines.index("Limits, the least margin first")
    assert lines[limits + 1].startswith("159 W over")
    assert "Planning aid." in lines[-2] + lines[-1]


def test_size_explains_one_figure() -> None:
    result = run("size", "f2", N4, "--why", "air.heat_failed")
    assert result.exit_code == 0
    assert "formula" in result.stdout
    assert "books/f2/parts.yaml" in result.stdout


def test_size_shows_the_figures_of_a_subject() -> None:
    result = run("size", "f2", N4, "--figures", "memory")
    assert result.exit_code == 0
    assert "memory.bandwidth" in result.stdout


def test_size_writes_charts_and_json(tmp_path: Path) -> None:
    result = run("size", "f2", N4, "--charts", str(tmp_path / "charts"), "--json")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["name"] == "Quay Hollin Record Office, as asked"
    names = {path.name for path in (tmp_path / "charts").iterdir()}
    assert names == {"limits.svg", "efficiency.svg", "inlet.svg"}


def test_a_wrong_site_ends_with_2_and_says_what_to_write(tmp_path: Path) -> None:
    site = tmp_path / "site.yaml"
    site.write_text("voltage: 230 kg\nfeed: {}\n")
    result = run("size", "f2", N4, "--site", str(site))
    assert result.exit_code == 2
    assert "site.yaml:1:10" in result.stderr
    assert "site.yaml:2:1" in result.stderr
