"""The page on reading machines: its example of JSON and its limits are those of the program."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from baywright.desk.opening import open_book
from baywright.desk.reading.as_json import machine_json
from baywright.desk.reading.reading import read_machine
from baywright.exchange.machines import Wanted
from baywright.exchange.redfish import Limits
from baywright.exchange.redfish.bodies import MOST_LEVELS
from baywright.exchange.smbios.entry_point import MOST_BYTES
from baywright.exchange.smbios.structures import MOST_STRUCTURES
from baywright.files.books import read_build
from tests.desk.reading.mockups import mockup, write
from tests.files.example import write_example
from tests.style.sources import Source, sources

PAGE = (Path(__file__).parents[2] / "docs" / "reading.md").read_text("utf-8")


def shape(value: Any) -> Any:
    """Return the keys of a value; of a list, those of its first entry."""
    if isinstance(value, dict):
        return {key: shape(inner) for key, inner in value.items()}
    return [shape(inner) for inner in value[:1]] if isinstance(value, list) else None


def test_the_example_has_the_keys_of_the_program(tmp_path: Path) -> None:
    folder = write_example(tmp_path)
    opened = open_book(folder)
    build = read_build(next((folder / "builds").glob("*.yaml")))
    machine = write(mockup(opened.book, build), tmp_path / "machine")
    actual = machine_json(read_machine(opened, Wanted(str(machine))), "t1", None)
    (shown,) = re.findall(r"<!-- example: machine -->\n\n```json\n(.*?)\n```", PAGE, re.DOTALL)
    expected = json.loads(shown)
    assert actual["judgement"] is not None
    for each in (actual, expected):
        each["judgement"] = None
        each["record"][0]["values"] = each["record"][0]["values"]["cores"]
        each["record"][0]["rest"] = {}
        each["open"] = each["not_placed"] = []
    assert shape(actual) == shape(expected)


def test_the_limits_are_those_of_the_program() -> None:
    limits = Limits()
    for number in (
        f"{limits.seconds:g} s",
        f"{limits.reply_seconds:g} s",
        f"{limits.body:,} bytes",
        f"{limits.total:,} bytes",
        f"{limits.resources:,} of them",
        f"{limits.levels} links deep",
        f"{MOST_LEVELS} levels of JSON",
        f"{MOST_BYTES:,} bytes",
        f"{MOST_STRUCTURES:,} structures",
    ):
        assert number in PAGE


def test_every_kind_of_problem_is_on_the_page() -> None:
    raised = {kind for source in sources() if _reads(source) for kind in _kinds(source)}
    assert {"certificate", "no-tables", "no-source"} <= raised
    known = {"unreadable"}  # of the format of books
    assert [kind for kind in sorted(raised - known) if f"`{kind}`" not in PAGE] == []


def _reads(source: Source) -> bool:
    folder = "src/baywright/exchange/"
    starts = (f"{folder}redfish/", f"{folder}smbios/", f"{folder}machines.py")
    return source.path.startswith((*starts, "src/baywright/cli/machines.py"))


def _kinds(source: Source) -> Iterator[str]:
    for node in ast.walk(source.tree):
        if not isinstance(node, ast.Call) or getattr(node.func, "id", "") not in _MAKERS:
            continue
        if node.args and isinstance(node.args[0], ast.Constant):
            yield str(node.args[0].value)


_MAKERS = ("Problem", "problem")
