"""The page on orders, parts lists and comparisons: its JSON and its limits are the program's."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from baywright.desk.compare.asking import Asked, compared
from baywright.desk.compare.telling import compared_json
from baywright.desk.opening import open_book
from baywright.desk.order.as_json import order_json
from baywright.desk.order.checking import check_rows
from baywright.desk.order.findings import MOST_ARRANGEMENTS
from baywright.desk.order.repair import MOST_REPAIRS
from baywright.desk.parts_list import parts_json, parts_list
from baywright.desk.request import Request
from baywright.exchange.lists.rows import MOST_BYTES, MOST_ROWS, Row
from baywright.files.books import bundled_books
from baywright.problems import Mark
from tests.answers.json_examples import shortened
from tests.style.sources import Source, sources

PAGE = (Path(__file__).parents[2] / "docs" / "orders.md").read_text("utf-8")
OWNED = bundled_books()["f1"] / "builds" / "n5-owned.yaml"

LINES = (
    "1 x cpu-16",
    "8 x dimm-16",
    "2 x ps-750",
    "3 x C16",
    "8 x sas-2400",
    "10 fans",
    "1 x F2",
    "hello",
)


def order() -> Any:
    rows = [Row(Mark("list.txt", at, 1), (line,)) for at, line in enumerate(LINES, 1)]
    found = order_json(check_rows(open_book("f2"), rows, "list.txt"))
    return {**found, "answer": "<verdict>"}


def parts() -> Any:
    found = parts_json(parts_list("f1", OWNED, Request()))
    return {**found, "answer": "<verdict>", "written": None}


def compare() -> Any:
    return compared_json(compared("f1", Asked(str(OWNED), to="f2"), Request()))


EXAMPLES = {"order": order, "parts": parts, "compare": compare}


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_example_is_what_the_program_prints(name: str) -> None:
    (shown,) = re.findall(rf"<!-- example: {name} -->\n\n```json\n(.*?)\n?```", PAGE, re.DOTALL)
    assert json.loads(shown) == shortened(EXAMPLES[name]())


def test_the_limits_on_the_page_are_those_in_use() -> None:
    assert f"up to {MOST_BYTES // 1_000_000} MB and {MOST_ROWS:,} rows" in PAGE
    assert f"up to {MOST_ARRANGEMENTS} of them" in " ".join(PAGE.split())
    assert MOST_REPAIRS == 3
    assert "up to three that differ" in " ".join(PAGE.split())


FOLDERS = ("desk/order/", "desk/compare/", "desk/parts_list", "exchange/lists/")


def test_every_kind_of_problem_is_on_the_page() -> None:
    starts = tuple(f"src/baywright/{folder}" for folder in FOLDERS)
    ours = (source for source in sources() if source.path.startswith(starts))
    raised = {kind for source in ours for kind in _kinds(source)}
    assert {"no-list", "uneven"} <= raised
    assert [kind for kind in sorted(raised) if f"`{kind}`" not in PAGE] == []


def _kinds(source: Source) -> Iterator[str]:
    for node in ast.walk(source.tree):
        is_made = isinstance(node, ast.Call) and getattr(node.func, "id", "").lower() == "problem"
        if is_made and isinstance(node, ast.Call) and isinstance(node.args[0], ast.Constant):
            yield str(node.args[0].value)
