"""Statements are found by one engine, proven again by another, and travel as lines of a file."""

from __future__ import annotations

from pathlib import Path

import pytest

from baywright.desk.opening import open_book
from baywright.desk.statements.query import Query
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import read_statements, write_statements
from baywright.desk.statements.stating import reprove, state, state_all
from baywright.files.books import find_book
from baywright.files.disk import book_files
from baywright.problems import Problems

# Of each form of answer one; the answers follow from the demo facts of the Ferryman F2.
ANSWERS = [
    (Query("ask", "most(count(drive))"), {"is": "most", "value": "24", "of": "", "then": []}),
    (Query("cell", "most(count(drive))"), {"is": "most", "value": "24", "of": "", "then": []}),
    (
        Query("cell", 'most(count(drive), given=A == "S8" and P2 == empty)'),
        {"is": "most", "value": "16", "of": "", "then": []},
    ),
    (Query("ask", 'C == "N8h"'), {"is": "yes"}),
    (Query("ask", 'C == "N8h" and O2 != empty'), {"is": "no"}),
    (Query("cell", 'can(C == "N8h" and O2 != empty)'), {"is": "no"}),
    (Query("cell", "can(O2 != empty)"), {"is": "yes"}),
    (Query("ask", "always(implies(processors == 2, fans == 6))"), {"is": "always"}),
    (Query("ask", "always(processors == 2)"), {"is": "not always"}),
    (
        Query("ask", 'together(count(drive, interface="fast") == 24, O2 != empty)'),
        {"is": "not together", "largest": [[0], [1]]},
    ),
    (
        Query("listing", "processors, O2"),
        {
            "is": "list",
            "over": ["processors", "O2"],
            "rows": [["1", "empty"], ["2", "empty"], ["2", "net-25"]],
        },
    ),
    (
        Query("fact", "parts.fan.flow"),
        {
            "is": "fact",
            "value": "32 CFM",
            "could_be": [],
            "source": "Ferryman F2 air test report",
            "date": "2031-03-10",
            "status": "stated",
        },
    ),
    # N4 as asked draws 1,159 W; at 120 V a supply of 1300 W gives 1000 W.
    (
        Query("figure", "power.redundancy", "n4"),
        {"is": "figure", "value": "1159", "unit": "W", "bound": "1000", "side": "most"},
    ),
]


@pytest.fixture(scope="module")
def shared() -> Shared:
    return Shared(open_book("f2"))


@pytest.mark.parametrize(("query", "value"), ANSWERS, ids=lambda each: str(each)[:60])
def test_a_statement_has_its_value_and_is_proven_by_another(
    shared: Shared, query: Query, value: object
) -> None:
    statement = state(shared, query)
    assert statement.value == value
    again = reprove(shared, statement)
    assert again.holds
    assert again.engine != statement.engine


def test_what_is_not_proven_is_seen(shared: Shared) -> None:
    statement = state(shared, Query("ask", "most(count(drive))"))
    statement.value["value"] = "23"
    again = reprove(shared, statement)
    assert not again.holds
    assert again.now is not None
    assert again.now.value["value"] == "24"
    assert again.difference.startswith("Recorded: ")


def test_statements_travel_as_lines(shared: Shared, tmp_path: Path) -> None:
    statements = state_all(shared, [query for query, _ in ANSWERS])
    write_statements(statements, tmp_path / "statements.jsonl")
    assert read_statements(tmp_path / "statements.jsonl") == statements


def test_a_spoilt_line_is_named(tmp_path: Path) -> None:
    path = tmp_path / "statements.jsonl"
    path.write_text("\n{}\n", "utf-8")
    with pytest.raises(Problems) as caught:
        read_statements(path)
    assert caught.value.problems[0].mark is not None
    assert caught.value.problems[0].mark.line == 2


def test_a_site_of_a_query_counts() -> None:
    opened = open_book("f2")
    high = Query("cell", "most(load)", site="altitude=3000 m")
    low = Query("cell", "most(load)")
    statements = state_all(opened, [high, low])
    assert statements[0].value != statements[1].value


def test_a_fact_that_changed_is_seen(tmp_path: Path) -> None:
    for file in book_files(find_book("f2")):
        (tmp_path / file.name).write_bytes(file.read_bytes())
    query = Query("fact", "parts.fan.flow")
    statement = state(open_book(tmp_path), query)
    parts = tmp_path / "parts.yaml"
    parts.write_text(parts.read_text("utf-8").replace("value: 32 CFM", "value: 35 CFM", 1), "utf-8")
    again = reprove(open_book(tmp_path), statement)
    assert not again.holds
    assert "35 CFM" in again.difference


@pytest.mark.parametrize(
    ("query", "kind"),
    [
        (Query("fact", "parts.fan.flwo"), "unknown-fact"),
        (Query("guess", "A"), "unknown-kind"),
        (Query("figure", "power.dc.peak"), "no-build"),
        (Query("figure", "power.dc.peak", "F2-z"), "no-build"),
        (Query("figure", "power.none", "F2-a"), "unknown-figure"),
        (Query("table", "power.none", "F2-a"), "unknown-table"),
        (Query("cell", "list(A)"), "not-a-cell"),
        (Query("cell", "most(load)", as_of="1 July"), "not-a-date"),
        (Query("cell", "most(load)", site="high up"), "not-a-site"),
    ],
    ids=lambda each: str(each)[:50],
)
def test_what_makes_no_sense_is_refused(shared: Shared, query: Query, kind: str) -> None:
    with pytest.raises(Problems) as caught:
        state(shared, query)
    assert caught.value.problems[0].kind == kind
