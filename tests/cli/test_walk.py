"""The command walk: what it writes, and that a proofreader finds nothing to mark in it."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from pathlib import Path

import pytest

from tests.cli.test_commands import run

READ = ("script.md", "script.docx", "prompter.vtt")
"""What is read as a draft; notes and cards are not."""

UNMARKED = {"true", "nothing"}


def kinds(book: str, draft: Path, *options: str) -> set[str]:
    """Return the kinds of remarks on a draft."""
    result = run("proofread", book, str(draft), "--json", "--pace", "141", *options)
    assert result.exit_code == 0, result.output
    return set(json.loads(result.stdout)["counts"])


def test_a_walkthrough_of_f2_is_written_and_nothing_in_it_is_marked(tmp_path: Path) -> None:
    result = run("walk", "f2", "--minutes", "12", "--for", "sellers", "-o", str(tmp_path))
    assert result.exit_code == 0, result.output
    minutes, seconds = re.findall(r"length (\d+):(\d\d) at 140 words a minute", result.stdout)[0]
    assert abs(60 * int(minutes) + int(seconds) - 720) <= 36
    files = {str(path.relative_to(tmp_path)) for path in tmp_path.rglob("*") if path.is_file()}
    assert files > {*READ, "notes.md", "cards.html", "cards.pdf", "shots/01-the-machine.svg"}
    for name in READ:
        assert kinds("f2", tmp_path / name) <= UNMARKED, name


@pytest.mark.slow
@pytest.mark.parametrize(
    ("book", "options"),
    [
        ("f2", ("--for", "engineers")),
        ("f2", ("--for", "service")),
        ("f1", ()),
        ("l4", ("--for", "engineers")),
        ("p1", ("--orientation", "wall", "--for", "service")),
        ("p1", ("--orientation", "tray")),
    ],
)
def test_nothing_is_marked_in_any_of_them(
    book: str, options: tuple[str, ...], tmp_path: Path
) -> None:
    result = run("walk", book, *options, "-o", str(tmp_path))
    assert result.exit_code == 0, result.output
    for name in READ:
        assert kinds(book, tmp_path / name) <= UNMARKED, name


@pytest.mark.slow
def test_a_build_is_walked_through(tmp_path: Path) -> None:
    build = "src/baywright/books/f2/builds/n2.yaml"
    assert run("walk", "f2", build, "-o", str(tmp_path)).exit_code == 0
    assert "Here we fit two 48-core processors." in (tmp_path / "script.md").read_text("utf-8")
    for name in READ:
        assert kinds("f2", tmp_path / name) <= UNMARKED, name


@pytest.mark.slow
def test_before_it_ships_every_statement_is_one_of_a_sample(tmp_path: Path) -> None:
    day = ("--as-of", "2031-04-01")
    assert run("walk", "l4", *day, "-o", str(tmp_path)).exit_code == 0
    text = (tmp_path / "script.md").read_text("utf-8")
    assert "Until 2031-05-12 there are only samples of Longstrand L4." in text
    assert kinds("l4", tmp_path / "script.md", *day) <= {*UNMARKED, "sample"}


def test_json_holds_every_sentence_with_its_times_and_what_it_stands_on() -> None:
    told = json.loads(run("walk", "p1", "--minutes", "8", "--json").stdout)
    assert told["machine"] == "Pannier P1"
    spoken = [each for part in told["parts"] for each in part["spoken"]]
    assert all(one["end"] <= two["start"] + 1e-6 for one, two in pairwise(spoken))
    assert [
        each["text"] for each in spoken if each["kind"] == "line" and not each["stands_on"]
    ] == []


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--minutes", "0.5"), "too-short"),
        (("--minutes", "60"), "too-few-lines"),
        (("--rate", "400"), "rate"),
        (("--orientation", "ceiling"), "no-orientation"),
    ],
)
def test_what_cannot_be_says_why(options: tuple[str, ...], said: str) -> None:
    result = run("walk", "p1", *options)
    assert result.exit_code != 0
    assert said in result.output + str(result.stderr)
