"""The program as a process: start-up, closed pipes, Ctrl-C, hostile books."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner

from baywright.cli import app
from tests.files.example import write_example

PROGRAM = (sys.executable, "-c", "from baywright.cli import main; main()")


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        (*PROGRAM, *arguments), capture_output=True, text=True, check=False, timeout=60
    )


def test_help_loads_no_engine() -> None:
    code = (
        "import sys, typer.testing as t; from baywright.cli import app; "
        "r = t.CliRunner().invoke(app, ['ask', '--help']); "
        "sys.exit(r.exit_code or 'ortools' in sys.modules or 'clingo' in sys.modules)"
    )
    assert subprocess.run((sys.executable, "-c", code), check=False, timeout=60).returncode == 0


def test_a_closed_pipe_ends_quietly() -> None:
    with subprocess.Popen(
        (*PROGRAM, "options", "f2"), stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(60) == 0


def test_ctrl_c_ends_with_130_and_one_line(tmp_path: Path) -> None:
    out = tmp_path / "demo"
    with subprocess.Popen(
        (*PROGRAM, "demo", "--out", str(out)), stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        time.sleep(2.5)
        process.send_signal(signal.SIGINT)
        _, err = process.communicate(timeout=30)
    assert process.returncode == 130
    assert err.decode().count("\n") == 1
    assert not out.exists()


def _append(name: str, text: str, folder: Path) -> None:
    with (folder / name).open("a", encoding="utf-8") as stream:
        stream.write(text)


def _replace(name: str, old: str, new: str, folder: Path) -> None:
    text = (folder / name).read_text(encoding="utf-8")
    assert old in text
    (folder / name).write_text(text.replace(old, new, 1), encoding="utf-8")


def _large(folder: Path) -> None:
    with (folder / "large.yaml").open("wb") as stream:
        stream.truncate(50_000_000)


def _bomb(folder: Path) -> None:
    lines = ["a0: &a0 [x, x]", *(f"a{i}: &a{i} [*a{i - 1}, *a{i - 1}]" for i in range(1, 60))]
    (folder / "bomb.yaml").write_text("\n".join(lines))


def _rule(holds: str, folder: Path) -> None:
    text = f"rules:\n  bad:\n    says: nothing of use\n    holds: {holds}\n"
    (folder / "bad.yaml").write_text(text)


def _cycle(folder: Path) -> None:
    _replace(
        "places.yaml",
        "  O1:\n    type: slot\n",
        "  O1:\n    type: slot\n    neighbour: O1\n",
        folder,
    )


HOSTILE: dict[str, Callable[[Path], None]] = {
    "broken YAML": lambda folder: _append("parts.yaml", "  x: [1, \n", folder),
    "unknown key": lambda folder: _replace("parts.yaml", "cores:", "coers:", folder),
    "unit of the wrong kind": lambda folder: _replace("parts.yaml", "65 W", "65 kg", folder),
    "reference to nothing": lambda folder: _replace(
        "places.yaml", "owner: P1", "owner: P9", folder
    ),
    "rule that names nothing": lambda folder: _rule("nothing == 1", folder),
    "cycle of places": _cycle,
    "file of 50 MB": _large,
    "alias bomb": _bomb,
    "attribute access": lambda folder: _rule("load.__class__ == 1", folder),
    "call of a builtin": lambda folder: _rule('open("x") == 1', folder),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_book_gives_problems_with_their_places(name: str, tmp_path: Path) -> None:
    folder = write_example(tmp_path)
    HOSTILE[name](folder)
    start = time.process_time()
    result = CliRunner().invoke(app, ["check", str(folder), "--json"])
    took = time.process_time() - start
    assert result.exit_code == 2, result.output
    problems = json.loads(result.stdout)["problems"]
    assert problems
    assert all(problem["where"] or str(folder) in problem["message"] for problem in problems)
    assert took < 2


def test_a_hostile_book_leaves_no_traceback(tmp_path: Path) -> None:
    folder = write_example(tmp_path)
    for spoil in HOSTILE.values():
        spoil(folder)
    result = run("check", str(folder))
    assert result.returncode == 2
    assert "Traceback" not in result.stderr
    assert "[too-large]" in result.stderr
