"""Resources damaged at random: read, or told as problems, and never anything else."""

from __future__ import annotations

import copy
import itertools
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.desk.reading.findings import findings
from baywright.desk.reading.fitting import fit
from baywright.desk.reading.onbook import OnBook
from baywright.exchange.machines import Wanted, read_record
from baywright.facts.record import Record
from baywright.problems import Problems
from tests.desk.reading.machines import full, opened, tree_of
from tests.desk.reading.mockups import SYSTEM, Tree, write

WHOLE = tree_of("f2", full())
NUMBERS = itertools.count()

LINKS = st.sampled_from([{"@odata.id": path} for path in (*WHOLE, "/redfish/v1/none", "//x", "")])
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text() | LINKS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=6,
)


def spots(tree: Tree) -> list[tuple[Any, Any]]:
    """Every object and list of a tree with each of its keys or positions."""
    found: list[tuple[Any, Any]] = []
    waiting: list[Any] = list(tree.values())
    for holder in waiting:  # grows while it is gone through
        keys = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
        found += [(holder, key) for key in keys]
        waiting += [holder[key] for key in keys if isinstance(holder[key], dict | list)]
    return found


@st.composite
def damaged(draw: st.DrawFn) -> Tree:
    tree = copy.deepcopy(WHOLE)
    for _ in range(draw(st.integers(1, 8))):
        every = spots(tree)
        holder, key = every[draw(st.integers(0, len(every) - 1))]
        if draw(st.booleans()) and isinstance(holder, dict):
            del holder[key]
        else:
            holder[key] = copy.deepcopy(draw(VALUES))  # later damage may go into it
    return tree


@given(damaged(), st.booleans())
def test_damaged_resources_are_read_or_told(
    tmp_path_factory: pytest.TempPathFactory, tree: Tree, incomplete: bool
) -> None:
    folder = write(tree, tmp_path_factory.getbasetemp() / f"damaged-{next(NUMBERS)}")
    try:
        record = read_record(Wanted(str(folder), incomplete=incomplete))
    except Problems as found:
        told = found
    else:
        book = opened("f2").book
        fitted = fit(book, record)
        assert {each.draft.place for each in fitted.lines} | {
            each.place for each in fitted.left_open
        } == set(book.places)
        assert findings(record, fitted.crowded) is not None
        assert not dropped(record, fitted)
        return
    assert all(each.message for each in told.problems)


@given(st.lists(st.sampled_from(sorted(WHOLE)), min_size=1, max_size=4, unique=True))
def test_no_part_is_dropped(tmp_path_factory: pytest.TempPathFactory, gone: list[str]) -> None:
    needed = {"/redfish/v1", "/redfish/v1/Systems", SYSTEM}
    tree = {path: body for path, body in WHOLE.items() if path not in gone or path in needed}
    folder = write(tree, tmp_path_factory.getbasetemp() / f"less-{next(NUMBERS)}")
    record = read_record(Wanted(str(folder), incomplete=True))
    fitted = fit(opened("f2").book, record)
    assert not dropped(record, fitted)


def dropped(record: Record, fitted: OnBook) -> set[str]:
    """The parts that are neither in a line nor in the list of those that are not."""
    there = {each.where for each in record.entries if each.present and each.kind != "slot"}
    lines = {where for line in fitted.lines for where in line.where}
    return there - lines - {each.entry.where for each in fitted.not_fitted}
