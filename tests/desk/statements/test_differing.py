"""Two statements that answer the same query: what is otherwise, in words."""

from __future__ import annotations

from baywright.desk.statements.differing import difference
from baywright.desk.statements.query import Query
from baywright.desk.statements.statement import Statement

TABLE = Query("table", "power.losses", "F2-a")


def table(*rows: list[str]) -> Statement:
    return Statement(TABLE, {"is": "table", "rows": list(rows)}, "Losses.", "sizing")


def test_of_tables_the_rows_are_told() -> None:
    said = difference(table(["0", "runs"], ["1", "stops"]), table(["0", "runs"], ["1", "runs"]))
    assert said == "power.losses: No longer: 1 | stops. Now: 1 | runs."


def test_many_rows_are_counted() -> None:
    gone = table(*([str(number), "runs"] for number in range(5)))
    said = difference(gone, table())
    assert said.endswith("2 | runs; and 2 more rows.")


def test_of_all_else_the_words_are_told() -> None:
    query = Query("cell", "most(bays)")
    before = Statement(query, {"is": "most", "value": "24"}, "Bays: at most 24.", "diagram")
    now = Statement(query, {"is": "most", "value": "16"}, "Bays: at most 16.", "diagram")
    assert difference(before, now) == "Recorded: Bays: at most 24. Now: Bays: at most 16."
    assert "another engine does not" in difference(before, before)
