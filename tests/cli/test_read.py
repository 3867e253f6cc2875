"""The command read: exit codes, files, and what it never shows."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import trustme
from typer.testing import CliRunner, Result

from baywright.cli import app
from baywright.files.books import read_build
from tests.desk.reading.machines import bundled, contents, tree_of
from tests.desk.reading.mockups import write
from tests.exchange.redfish import services
from tests.exchange.redfish.services import Service, serving, trusted
from tests.exchange.smbios import tables


def run(*arguments: str | Path, env: dict[str, str] | None = None) -> Result:
    return CliRunner().invoke(app, ["read", *map(str, arguments)], env=env or {})


@pytest.fixture
def machine(tmp_path: Path) -> Path:
    return write(tree_of("f2", bundled("f2", "n4")), tmp_path / "machine")


def test_a_machine_is_read_and_its_draft_written(machine: Path, tmp_path: Path) -> None:
    out = tmp_path / "machine.yaml"
    found = run("f2", machine, "--out", out)
    assert found.exit_code == 0, found.output
    assert "Brackenmoor Works Ferryman F2, by Redfish 1.20.0" in found.output
    assert "It can be built as asked." in found.output
    assert "Planning aid" in found.output
    assert contents(read_build(out)) == contents(bundled("f2", "n4"))
    assert max(map(len, found.output.splitlines())) <= 80


def test_a_file_that_is_there_stays_as_it_is(machine: Path, tmp_path: Path) -> None:
    out = tmp_path / "machine.yaml"
    out.write_text("mine", encoding="utf-8")
    found = run("f2", machine, "--out", out)
    assert found.exit_code == 2
    assert "[not-empty]" in found.output
    assert out.read_text(encoding="utf-8") == "mine"


def test_json_has_the_whole_record(machine: Path) -> None:
    data: dict[str, Any] = json.loads(run("f2", machine, "--json").output)
    assert data["book"] == "f2"
    assert data["judgement"]["answer"]["verdict"] == "yes"
    assert {each["place"] for each in data["lines"]} >= {"P1", "A", "BOOT"}
    assert len([each for each in data["record"] if each["kind"] == "drive"]) == 24


def test_tables_of_smbios_say_less(tmp_path: Path) -> None:
    found = run("f2", tables.folder_of(tables.ferryman(), tmp_path), "--json")
    assert found.exit_code == 0, found.output
    data = json.loads(found.output)
    lines = {each["place"]: each["written"] for each in data["lines"]}
    assert lines == {
        "P1": "cpu-32",
        "P2": "empty",
        "M1": "2 x dimm-64",
        "M2": "empty",
        "R1a": "empty",
        "O1": "net-25",
        "PS": "2 x ps-1300",
    }
    left = {each["place"]: each["why"] for each in data["open"]}
    assert left["R1b"] == "it is in use, and the record does not say by what"
    assert left["A"] == "the record does not speak of it"


@pytest.mark.parametrize(
    ("source", "kind"),
    [("no-such-thing", "no-source"), (".", "no-source"), ("http://host", "not-an-address")],
)
def test_sources_that_are_none(source: str, kind: str, tmp_path: Path) -> None:
    found = run("f2", tmp_path if source == "." else source, "--anonymous", "--json")
    assert found.exit_code == 2
    assert [each["kind"] for each in json.loads(found.output)["problems"]] == [kind]


def test_a_service_without_credentials_is_not_asked() -> None:
    found = run("f2", "https://localhost:1", env={"BAYWRIGHT_USER": "", "BAYWRIGHT_PASSWORD": ""})
    assert found.exit_code == 2
    assert "[no-credentials]" in found.output


def test_a_live_service_end_to_end_and_nothing_written_when_it_fails(tmp_path: Path) -> None:
    authority = trustme.CA()
    out = tmp_path / "machine.yaml"
    known = {"BAYWRIGHT_USER": "reader", "BAYWRIGHT_PASSWORD": "right"}
    arguments = ("--ca", trusted(authority, tmp_path), "--out", out)
    with serving(Service(tree_of("f2", bundled("f2", "n4"))), authority) as service:
        service.bad["/redfish/v1/Systems/1/Memory/M2-8"] = services.cuts_off
        found = run("f2", service.address, *arguments, env=known)
        assert found.exit_code == 2
        assert "[cut-off]" in found.output
        assert not out.exists()
        wrong = run("f2", service.address, *arguments, env=known | {"BAYWRIGHT_PASSWORD": "secret"})
        assert wrong.exit_code == 2
        assert "secret" not in wrong.output
        service.bad.clear()
        found = run("f2", service.address, *arguments, env=known)
        assert found.exit_code == 0, found.output
        assert service.sessions == 0
    assert contents(read_build(out)) == contents(bundled("f2", "n4"))
