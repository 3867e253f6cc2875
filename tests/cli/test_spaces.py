"""Space files, counts of builds and fronts in the terminal."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from baywright.cli import app
from baywright.desk import spaces as desk
from baywright.engines.diagram import Diagram, Guards

CRATE: dict[str, Any] = {
    "note": "An invented crate: two slots, fans, and a supply.",
    "choices": {
        "slot 1": ["empty", "card", "wide card"],
        "slot 2": ["empty", "card"],
        "fans": ["2", "4"],
        "noise=level": ["low", "high"],
    },
    "derived": ["noise=level"],
    "tables": [
        {
            "id": "width",
            "says": "A wide card covers the second slot.",
            "over": ["slot 1", "slot 2"],
            "rows": [[0, 0], [0, 1], [1, 0], [1, 1], [2, 0]],
        },
        {"id": "noise", "over": ["fans", "noise=level"], "rows": [[0, 0], [1, 1]]},
    ],
    "sums": [
        {
            "id": "watts",
            "says": "The supply gives 100 W.",
            "weights": {"slot 1": [0, 40, 50], "slot 2": [0, 40], "fans": [10, 30]},
            "at_most": 100,
            "unit": "W",
            "budget": True,
        }
    ],
}
"""10 builds without the watts; 110 W for two cards with four fans is too much: 9 builds."""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, arguments)


def answer(*arguments: str) -> dict[str, Any]:
    result = run(*arguments, "--json")
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.stdout)
    return found


@pytest.fixture
def crate(tmp_path: Path) -> str:
    path = tmp_path / "crate.json"
    path.write_text(json.dumps(CRATE))
    return str(path)


def test_count(crate: str) -> None:
    assert answer("count", "--space", crate)["builds"] == 9
    without = answer("count", "--space", crate, "--without-budget")
    assert (without["builds"], without["without"]) == (10, ["watts"])
    chosen = answer("count", "--space", crate, "--choose", "slot 1=card", "--choose", "fans=4")
    assert (chosen["builds"], chosen["given"]) == (1, ["slot 1=card", "fans=4"])
    asked = answer("count", "--space", crate, "--with", "fans == 4 or choice('slot 2') == 'card'")
    assert asked["builds"] == 6
    assert asked["proof"]["rechecked_by"] == "search"
    assert run("count", "--space", crate).stdout.startswith("9 builds\nExactly 9 legal builds.\n")


def test_count_of_clauses(tmp_path: Path) -> None:
    path = tmp_path / "lamp.cnf"
    path.write_text("p cnf 3 2\n1 2 0\n-1 -2 3 0\n")
    assert answer("count", "--space", str(path))["builds"] == 5
    path.write_text("p cnf 3 2\nc p show 1 2 0\n1 2 0\n-1 -2 3 0\n")
    assert answer("count", "--space", str(path))["builds"] == 3


def test_options(crate: str) -> None:
    found = answer("options", "--space", crate, "--choose", "slot 1=wide card")["options"]
    left = {each["choice"]: each["free"] for each in found}
    assert left == {"slot 1": ["wide card"], "slot 2": ["empty"], "fans": ["2", "4"]}
    told = run("options", "--space", crate).stdout
    assert "7 of 7 values are left." in told


@pytest.mark.parametrize(
    ("question", "word", "reasons"),
    [
        ("choice('slot 1') == 'card'", "yes", set()),
        (
            "choice('slot 1') == 'wide card' and choice('slot 2') == 'card'",
            "no",
            {"width", "wish:1", "wish:2"},
        ),
        (
            "can(choice('slot 1') == choice('slot 2'), given=fans > 2 and sum(watts) > 30)",
            "no",
            {"watts", "wish:1", "wish:2", "wish:3"},
        ),
        ("always(sum(watts) <= 100)", "yes", {"watts", "wish:1"}),
        ("always(fans == 2)", "no", set()),
        ("implies(fans == 4, choice('slot 1') in ('card', 'wide card'))", "yes", set()),
        ("not true", "no", {"wish:1"}),
        ("fans + fans == 8", "yes", set()),
        ("choice('slot 1') != choice('slot 2')", "yes", set()),
    ],
)
def test_ask(crate: str, question: str, word: str, reasons: set[str]) -> None:
    found = answer("ask", "--space", crate, question)["answer"]
    assert found["verdict"] == word
    told = found.get("reasons") or found.get("always") or []
    assert {each["key"] for each in told} == reasons
    assert run("ask", "--space", crate, question).stdout.startswith(f"{word.capitalize()}\n")


@pytest.mark.parametrize(
    ("question", "side", "value"),
    [
        ("sum(watts)", "most", 90),
        ("least(sum(watts))", "least", 10),
        ("most(sum(watts) - 2 * fans, given=choice('slot 2') == 'card')", "most", 86),
        ("most(-fans)", "most", -2),
    ],
)
def test_most_and_least(crate: str, question: str, side: str, value: int) -> None:
    found = answer("ask", "--space", crate, question)["answer"]
    assert (found["verdict"], found["side"]) == ("bound", side)
    assert found["figure"]["value"] == value
    assert found["proof"]["rechecked_by"] == "search"
    assert run("ask", "--space", crate, question).exit_code == 0


def test_reasons_carry_sentence_and_total(crate: str) -> None:
    question = "choice('slot 1') == 'card' and choice('slot 2') == 'card' and fans == 4"
    told = run("ask", "--space", crate, question).stdout
    assert "The supply gives 100 W. 110 against 100: 10 over." in told
    assert "Without any one of the four a build exists." in told


def test_several_sets_of_reasons_of_a_file(crate: str) -> None:
    question = "fans == 2 and fans == 4 and choice('slot 1') == 'card' and sum('watts') == 0"
    told = run("ask", "--space", crate, question, "--reasons", "9").stdout
    assert "\nReasons, set 2\n" in told
    assert "minimal sets of reasons are all there are." in told


@pytest.mark.parametrize(
    ("arguments", "kind"),
    [
        (("ask", "fnas == 2"), "unknown-name"),
        (("ask", "choice('slot 1') == 'crad'"), "unknown-name"),
        (("ask", "choice('slot 1') == 7"), "unknown-name"),
        (("ask", "sum('wats')"), "unknown-name"),
        (("ask", "choice('slot 1') + 1"), "not-a-condition"),
        (("ask", "choice('slot 1') < 'card'"), "not-a-condition"),
        (("ask", "fans * fans == 4"), "not-a-condition"),
        (("ask", "can(fans)"), "not-a-condition"),
        (("ask", "can()"), "one-claim"),
        (("ask", "open('x') == 1"), "not-a-condition"),
        (("ask", "fans =="), "syntax"),
        (("ask", "fans == 2", "--altitude", "900 m"), "no-site"),
        (("ask", "fans == 2", "--limit", "0"), "limit"),
        (("ask", "fans == 2", "--reasons", "0"), "reasons"),
        (("ask", "least(fans, then=fans)"), "one-claim"),
        (("count", "--choose", "slot 3=card"), "unknown-name"),
        (("count", "--choose", "noise=level=loud"), "unknown-name"),
        (("count", "--choose", "card"), "unknown-name"),
        (("options", "--with", "fans == 3"), "unknown-name"),
    ],
)
def test_bad_input(crate: str, arguments: tuple[str, ...], kind: str) -> None:
    result = run(arguments[0], "--space", crate, *arguments[1:])
    assert result.exit_code == 2
    assert f"[{kind}]" in result.stderr


def test_a_file_without_budget(tmp_path: Path) -> None:
    path = tmp_path / "one.cnf"
    path.write_text("p cnf 1 1\n1 0\n")
    result = run("count", "--space", str(path), "--without-budget")
    assert result.exit_code == 2
    assert "[no-budget]" in result.stderr


@pytest.mark.parametrize(
    "arguments",
    [
        ("count", "f2", "--space", "x.json"),
        ("ask", "f2", "load", "--space", "x.json"),
        ("ask", "f2"),
        ("ask",),
        ("options",),
        ("count",),
        ("count", "f2", "--choose", "a=b"),
        ("count", "f2", "--without-budget"),
        ("count", "f2", "P1", "--builds"),
    ],
)
def test_arguments_that_do_not_go_together(arguments: tuple[str, ...]) -> None:
    result = run(*arguments)
    assert result.exit_code == 2
    assert result.stdout == ""


def test_a_space_that_is_too_hard_ends_with_3(crate: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(desk, "Diagram", lambda: Diagram(Guards(arcs=1, pairs=1, seconds=1)))
    for command in ("count", "options"):
        result = run(command, "--space", crate)
        assert result.exit_code == 3
        assert "could not compile the space" in result.stderr


def test_the_space_of_a_book_counts_like_the_book(tmp_path: Path) -> None:
    out = tmp_path / "p1.json"
    assert answer("space", "p1", "--out", str(out))["written"] == str(out)
    found = answer("count", "p1", "--builds")["counts"][0]["builds"]
    assert answer("count", "--space", str(out))["builds"] == found
    assert json.loads(run("space", "p1").stdout) == json.loads(out.read_text())
    told = answer("ask", "--space", str(out), "P1 == 'empty'")["answer"]
    assert told["reasons"][0]["facts"][0]["where"].startswith("books/p1/")


def test_builds_of_a_book_under_a_condition() -> None:
    every = answer("count", "p1", "--builds")["counts"][0]
    some = answer("count", "p1", "--builds", "--with", "load > 140 W")["counts"][0]
    rest = answer("count", "p1", "--builds", "--with", "load <= 140 W")["counts"][0]
    assert 0 < some["builds"] < every["builds"]
    assert some["builds"] + rest["builds"] == every["builds"]
    assert run("count", "p1", "--builds").stdout.startswith(f"{every['builds']:,} builds\n")


def test_shares_of_a_book() -> None:
    found = answer("options", "p1", "--shares")
    for each in found["choices"]:
        assert sum(value["builds"] for value in each["values"]) == found["builds"]
    assert " 50.0 % " in run("options", "p1", "--shares").stdout


def test_the_front_of_a_book() -> None:
    (found,) = answer("front", "f2", "--with", "memory >= 2 TB")["fronts"]
    pairs = [tuple(each["rounded"] for each in point["figures"]) for point in found["points"]]
    assert pairs == [(15030, 816.333), (16600, 525.667)]
    told = run("front", "p1", "price", "load").stdout
    assert told.startswith("1 build\nNo build beats this:")
    assert run("front", "p1", "price").exit_code == 2
    assert run("front", "p1", "price", "P1").exit_code == 2
