from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from baywright.cli import app
from tests.files.example import write_example


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_example(tmp_path)


def run(*arguments: str, text: str = "") -> Result:
    return CliRunner().invoke(app, list(arguments), input=text)


def test_a_pasted_table_is_shown_and_written_only_when_asked(book: Path) -> None:
    pasted = "Part\tWeight\nfan\t140 g\n"
    before = (book / "parts.yaml").read_bytes()
    shown = run("capture", str(book), "-", "--as", "fans", text=pasted)
    assert shown.exit_code == 0
    assert "Nothing was written; --write changes" in " ".join(shown.output.split())
    assert (book / "parts.yaml").read_bytes() == before
    written = run("capture", str(book), "-", "--as", "fans", "--write", "--json", text=pasted)
    assert json.loads(written.output)["written"] is True
    assert b"mass: 140 g" in (book / "parts.yaml").read_bytes()


def test_a_row_of_which_nothing_is_understood_is_one_line(book: Path) -> None:
    shown = run(
        "capture", str(book), "-", "--as", "fans", text="Name;Power (W);Noise\n-;6;9 dB(A)\n"
    )
    assert "6 | 9 dB(A)" in shown.output


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        (("-", "--as", "sofas"), "No table is about 'sofas'"),
        (("-", "--as", "fans", "--map", "Weight"), "maps nothing"),
        (("nowhere.csv", "--as", "fans"), "nowhere.csv cannot be read"),
        (("-", "--as", "fans", "--source", "rumour"), "no source 'rumour'"),
    ],
)
def test_what_cannot_be_done_says_why(book: Path, arguments: tuple[str, ...], why: str) -> None:
    result = run("capture", str(book), *arguments, text="Part\tWeight\nfan\t140 g\n")
    assert result.exit_code == 2
    assert why in result.output


def test_missing_for_people_and_for_programs(book: Path) -> None:
    shown = run("missing", str(book), "--about", "unsettled")
    assert "parts.S2.price" in shown.output
    assert "could be 70 FLO or 80 FLO" in shown.output
    every = json.loads(run("missing", str(book), "--json").output)
    assert [each["key"] for each in every["missing"]][:3] == ["unsettled", "laws", "power"]
    wrong = run("missing", str(book), "--about", "weather")
    assert (wrong.exit_code, "Nothing is asked about" in wrong.output) == (2, True)
