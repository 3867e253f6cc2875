"""Broken orders of the demo scenario: read, found out, and mended with the fewest changes."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from baywright.answers.verdicts import No, Yes
from baywright.desk.opening import Opened, open_book
from baywright.desk.order.checking import Checked, check_rows
from baywright.exchange.lists.rows import Row
from baywright.problems import Mark
from baywright.space import broken

DATA = yaml.safe_load((Path(__file__).parent / "broken.yaml").read_text(encoding="utf-8"))
ORDERS = DATA["orders"]


@cache
def opened() -> Opened:
    return open_book("f2")


def checked(case: Mapping[str, Any]) -> Checked:
    text = case.get("text") or DATA["base"] + case["add"]
    rows = [
        Row(Mark("order.txt", number, 1), (line,))
        for number, line in enumerate(text.splitlines(), 1)
    ]
    return check_rows(opened(), rows, case["name"])


def _steps(found: Checked) -> list[list[object]]:
    steps = ((s.kind, s.count, s.part, s.instead_of, s.book) for s in found.repairs[0].steps)
    return [[part for part in step if part != ""] for step in steps]


def test_there_are_at_least_thirty() -> None:
    assert len(ORDERS) >= 30
    assert len({case["name"] for case in ORDERS}) == len(ORDERS)


@pytest.mark.parametrize("case", ORDERS, ids=lambda case: case["name"])
def test_a_broken_order_is_mended_with_the_fewest_changes(case: Mapping[str, Any]) -> None:
    found = checked(case)
    assert not found.order.not_read
    if case.get("buildable"):
        assert isinstance(found.verdict, Yes)
        follows = {each.part: [each.needed, each.listed] for each in found.follow}
        assert follows == case.get("follows", {})
        return
    assert isinstance(found.verdict, No)
    assert found.repairs[0].changes == case["changes"]
    if "steps" in case:
        assert _steps(found) == case["steps"]
    assert {each.part: each.most for each in found.excess} == case.get("excess", {})
    assert list(found.orphans) == case.get("orphans", list(found.orphans))
    assert [line.book for line in found.order.foreign] == case.get("foreign", [])
    forced = sum(line.count for line in found.order.foreign)
    forced += sum(each.listed - each.most for each in found.excess)
    for repair in found.repairs:
        assert repair.changes == case["changes"]
        # That no fewer changes do is proven again by another engine than found them, unless
        # every change is one that any build asks for.
        judges = ("search", "evaluator") if repair.changes == forced else ("search",)
        assert repair.proof.answered_by == "cpsat"
        assert repair.proof.rechecked_by in judges
        assert not broken(opened().machine.space, repair.witness.values)
