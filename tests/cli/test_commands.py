"""The commands: exit codes, JSON, and what they print."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.answers.verdicts import Stopped
from baywright.cli import app
from baywright.desk import asking
from baywright.desk import options as choosing
from baywright.files.books import bundled_books

N4 = str(bundled_books()["f2"] / "builds" / "n4.yaml")


def run(*arguments: str, columns: int = 100) -> Result:
    return CliRunner().invoke(app, arguments, env={"COLUMNS": str(columns), "TERM": "dumb"})


def answer(*arguments: str) -> Any:
    result = run(*arguments, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_the_version_needs_no_command() -> None:
    result = run("--version")
    assert (result.exit_code, result.stdout.split()[0]) == (0, "baywright")


@pytest.mark.parametrize(
    ("question", "word"),
    [
        ('count(drive, interface="sas") == 24', "Yes"),
        ('arrays(12, 12, interface="sas")', "No"),
        ("memory", "At most 4 TB"),
    ],
)
def test_ask(question: str, word: str) -> None:
    result = run("ask", "f2", question)
    assert result.exit_code == 0
    assert result.stdout.startswith(f"{word}\n")


def test_judge_ends_with_0_for_a_no() -> None:
    result = run("judge", "f2", N4)
    assert result.exit_code == 0
    assert "159 W over" in result.stdout
    found = answer("judge", "f2", N4)
    assert found["answer"]["verdict"] == "no"
    assert len(found["answer"]["nearest"]) >= 3


def test_the_site_of_a_request_goes_before_that_of_the_build() -> None:
    build = str(bundled_books()["l4"] / "builds" / "n3.yaml")
    assert answer("judge", "l4", build)["answer"]["verdict"] == "no"
    lower = answer("judge", "l4", build, "--altitude", "100 m")
    assert lower["answer"]["verdict"] == "yes"


def test_count_and_list_start_from_the_skeleton() -> None:
    given = ("--with", 'variant == "hot_swap"')
    assert answer("count", "f2", *given)["answer"]["number"] == 75
    one = ("--with", 'variant == "hot_swap" and processors == 1')
    assert len(answer("list", "f2", *one)["answer"]["rows"]) == 12
    assert answer("list", "f2", "P1", "P2")["answer"]["over"] == ["P1", "P2"]


def test_options_show_what_is_left() -> None:
    found = answer("options", "f2", "--with", 'O2 == "net-25"')["options"]
    (zone,) = (each for each in found if each["choice"] == "C")
    assert "N8h" in zone["closed"]
    assert "S8" in zone["free"]


def test_words_name_what_can_be_asked() -> None:
    found = answer("words", "f2")
    assert "supplies_redundant" in [word["name"] for word in found["names"]]
    assert any(word["name"].startswith("arrays(") for word in found["functions"])
    assert run("words", "f2").exit_code == 0


def test_check_holds_for_every_bundled_book() -> None:
    for name in bundled_books():
        assert answer("check", name)["buildable"]


def test_schema_prints_json() -> None:
    for what in ("book", "build"):
        assert json.loads(run("schema", what).stdout)["$schema"]


def test_as_of_changes_what_can_be_had() -> None:
    question = 'count("dimm-128") >= 1'
    assert answer("ask", "f2", question)["answer"]["verdict"] == "yes"
    earlier = answer("ask", "f2", question, "--as-of", "2031-03-17")
    assert earlier["answer"]["verdict"] == "no"
    assert earlier["as_of"] == "2031-03-17"


@pytest.mark.parametrize(
    ("arguments", "kind"),
    [
        (("ask", "f2", "lod"), "unknown-name"),
        (("ask", "f2", "load.__class__"), "syntax"),
        (("ask", "f2", 'open("x")'), "unknown-function"),
        (("ask", "f9", "load"), "no-book"),
        (("ask", "f2", "load", "--as-of", "soon"), "not-a-date"),
        (("ask", "f2", "load", "--altitude", "3 kg"), "wrong-dimension"),
        (("ask", "f2", "load", "--limit", "0"), "limit"),
        (("ask", "f2", "load", "--limit", "0.0001"), "limit"),
        (("ask", "f2", "load", "--reasons", "0"), "reasons"),
        (("judge", "f2", N4, "--reasons", "-1"), "reasons"),
        (("judge", "f2", "nowhere.yaml"), "unreadable"),
        (("list", "f2", "load", "price"), "too-wide"),
        (("options", "f2", "--with", "1 +"), "syntax"),
    ],
)
def test_bad_input_ends_with_2_and_its_problems(arguments: tuple[str, ...], kind: str) -> None:
    result = run(*arguments)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert f"[{kind}]" in result.stderr
    told = run(*arguments, "--json")
    assert told.exit_code == 2
    assert kind in [problem["kind"] for problem in json.loads(told.stdout)["problems"]]


def test_several_sets_of_reasons_stand_under_each_other() -> None:
    asked = ("ask", "f2", 'count("accel-dw") == 3', "--reasons", "2")
    told = run(*asked).stdout
    first, second, last = (
        told.index(part)
        for part in (
            "\nReasons\n",
            "\nReasons, set 2\n",
            "\nThere are more minimal sets of reasons.",
        )
    )
    assert first < second < last < told.index("\nNearest builds\n")
    assert told.count("a build exists.") == 2
    others = answer(*asked)["answer"]["other_reasons"]
    assert (len(others["sets"]), others["more"]) == (1, "some")


def test_a_judgement_says_that_its_reasons_are_all() -> None:
    told = run("judge", "f2", N4, "--reasons", "9").stdout
    assert "minimal sets of reasons are all there are." in told or "no other minimal set" in told


def test_levels_in_order_are_shown_with_who_checked_them() -> None:
    told = run("ask", "f2", "least(price, then=load)").stdout
    assert told.startswith("At least 4,210 FLO\n")
    assert "Read as: the least of the price, then the least of the peak draw." in told
    assert "Among the builds with 4,210 FLO, one after the other\n" in told
    assert "Peak draw  at least 323 W; none has less, re-checked by search" in told
    assert "A build with 4,210 FLO and 323 W" in told


def test_a_limit_reached_ends_with_3(monkeypatch: pytest.MonkeyPatch) -> None:
    answered = asking.ask

    def stopped(*args: Any) -> asking.Answer:
        return replace(answered(*args), verdict=Stopped("search worked"))

    monkeypatch.setattr(asking, "ask", stopped)
    result = run("ask", "f2", "load")
    assert result.exit_code == 3
    assert result.stdout.startswith("Stopped\n")


def test_a_limit_without_a_partial_answer_ends_with_3(monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(*args: Any) -> None:
        raise StoppedError("search worked for 1 s")

    monkeypatch.setattr(choosing, "options", stopped)
    result = run("options", "f2")
    assert result.exit_code == 3
    assert "search worked for 1 s" in result.stderr


def test_a_failed_re_check_ends_with_4_and_its_report(monkeypatch: pytest.MonkeyPatch) -> None:
    def failed(*args: Any) -> None:
        raise RecheckError("the build found by search breaks fans.count/F")

    monkeypatch.setattr(asking, "ask", failed)
    result = run("ask", "f2", "load")
    assert result.exit_code == 4
    assert "fans.count/F" in result.stderr
    assert json.loads(run("ask", "f2", "load", "--json").stdout)["recheck"]


@pytest.mark.parametrize("columns", [60, 80, 200])
def test_no_line_is_wider_than_the_terminal(columns: int) -> None:
    for arguments in (("judge", "f2", N4), ("list", "f2"), ("options", "f2"), ("check", "f2")):
        result = run(*arguments, columns=columns)
        assert max(map(len, result.stdout.splitlines())) <= columns
        assert "\x1b" not in result.stdout


def test_a_folder_that_cannot_be_written_is_said_at_once(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    blocked = run("demo", "--out", str(tmp_path / "file" / "in"))
    assert blocked.exit_code == 2
    assert "[unwritable]" in blocked.stderr
