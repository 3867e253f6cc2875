"""The commands about the store: people and copies."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from baywright.cli import app
from baywright.cli.stores import BY
from baywright.store import open_store

WORD = "seven grey ferries\n"


@pytest.fixture
def url(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    found = f"sqlite:///{tmp_path}/store.sqlite"
    monkeypatch.setenv("BAYWRIGHT_DATABASE", found)
    return found


def run(*arguments: str, typed: str = "") -> Result:
    return CliRunner().invoke(app, arguments, input=typed)


def test_a_person_is_added_with_a_password_from_standard_input(url: str) -> None:
    added = run("people", "add", "Anna", "--role", "work", "--role", "own:f2", typed=WORD)
    assert added.exit_code == 0, added.output
    assert "Added Anna" in added.output
    assert WORD.strip() not in added.output
    with open_store(url) as store:
        person = store.people.check("anna", WORD.strip())
        assert person is not None
        assert person.roles == {"work", "own:f2"}
        assert [entry.by for entry in store.audit.read()] == [BY]


def test_people_are_listed(url: str) -> None:
    assert "nobody" in run("people", "list").output
    run("people", "add", "Anna", "--role", "work", typed=WORD)
    assert run("people", "list").output.split() == ["Anna", "work"]
    listed = json.loads(run("people", "list", "--json").output)
    assert listed == {"people": [{"name": "Anna", "roles": ["work"]}]}


def test_password_roles_and_removal(url: str) -> None:
    run("people", "add", "Anna", "--role", "work", typed=WORD)
    assert run("people", "password", "Anna", typed="eight grey ferries\n").exit_code == 0
    assert run("people", "roles", "Anna", "--role", "read").exit_code == 0
    with open_store(url) as store:
        person = store.people.check("Anna", "eight grey ferries")
        assert person is not None
        assert person.roles == {"read"}
    assert run("people", "remove", "anna").exit_code == 0
    assert json.loads(run("people", "list", "--json").output) == {"people": []}


@pytest.mark.parametrize(
    ("arguments", "typed", "kind"),
    [
        (("add", "Anna", "--role", "work"), "short\n", "password"),
        (("add", "Anna", "--role", "work"), "", "password"),
        (("add", "Anna", "--role", "write"), WORD, "unknown-role"),
        (("password", "Ben"), WORD, "no-such-person"),
        (("roles", "Ben", "--role", "read"), "", "no-such-person"),
        (("remove", "Ben"), "", "no-such-person"),
    ],
)
def test_what_is_refused_says_why(
    url: str, arguments: tuple[str, ...], typed: str, kind: str
) -> None:
    refused = run("people", *arguments, "--json", typed=typed)
    assert refused.exit_code == 2
    (problem,) = json.loads(refused.output)["problems"]
    assert problem["kind"] == kind


def test_no_option_takes_a_password(url: str) -> None:
    for command in ("add", "password"):
        assert "--password" not in run("people", command, "--help").output


def test_the_store_is_copied(url: str, tmp_path: Path) -> None:
    run("people", "add", "Anna", "--role", "work", typed=WORD)
    copy = tmp_path / "copy.sqlite"
    assert run("backup", str(copy)).exit_code == 0
    again = run("backup", str(copy))
    assert (again.exit_code, "exists" in again.output) == (2, True)
    listed = run("people", "list", "--database", f"sqlite:///{copy}")
    assert listed.output.split() == ["Anna", "work"]


def test_a_store_that_cannot_be_opened_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    refused = run("people", "list", "--database", "sqlite:////proc/none/store.sqlite")
    assert refused.exit_code == 2
    assert "/proc/none/store.sqlite cannot be opened" in refused.output
