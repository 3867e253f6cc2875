"""Statements that the book itself or sizing makes: facts, figures of builds, and their tables."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any

from baywright.desk.size.telling import first, undecided, value_text
from baywright.desk.statements.kind import Kind
from baywright.desk.statements.query import Query
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement
from baywright.problems import Problems, problem, suggestion
from baywright.sizing.figure import Figure, Limit, Sheet
from baywright.sizing.registry import SUBJECTS
from baywright.sizing.subject import Subject

DIGITS = 6
"""Significant digits of a figure that have to agree: more than are ever shown."""


def _fact(shared: Shared, query: Query) -> Statement:
    row = shared.facts.get(query.text)
    if row is None:
        hint = suggestion(query.text, shared.facts)
        raise problem("unknown-fact", f"The book has no fact {query.text!r}.", None, hint)
    value = {"is": "fact", "value": row.text, "could_be": list(row.could_be)}
    value |= {"source": row.source, "date": row.date, "status": row.status}
    cited = shared.citations[query.text]
    return Statement(query, value, f"{row.path}: {row.text}.", "book", facts=(cited,))


def _fact_again(shared: Shared, statement: Statement) -> tuple[bool, str]:
    """Read the value from the file once more, as plain text and not as the book reads it."""
    row, value = shared.facts.get(statement.query.text), statement.value
    if row is None:
        return False, "file"
    written = shared.written.get(row.path, [])
    wanted = value["could_be"] or [value["value"]]
    firm = [row.source, row.date, row.status] == [value["source"], value["date"], value["status"]]
    return firm and written == wanted, "file"


def _figure(shared: Shared, query: Query) -> Statement:
    found = _found(shared.sheet(query, _subject(query)), query)
    if isinstance(found, Limit):
        return _of_limit(query, found)
    facts = tuple(dict.fromkeys(fact for each in found.inputs for fact in each.facts))
    return Statement(query, _value(found), f"{_said(found)}.", "sizing", facts=facts)


def _of_limit(query: Query, limit: Limit) -> Statement:
    figure, bound = limit.figure, first(limit.bound)
    value = {**_value(figure), "bound": _digits(bound), "side": limit.side}
    words = f"{_said(figure)}; at {limit.side} {value_text(bound, figure.unit)}."
    facts = [*(fact for each in figure.inputs for fact in each.facts), *limit.facts]
    return Statement(query, value, words, "sizing", facts=tuple(dict.fromkeys(facts)))


def _value(figure: Figure) -> dict[str, Any]:
    return {"is": "figure", "value": _digits(figure.value), "unit": figure.unit}


def _digits(value: float) -> str:
    return f"{value:.{DIGITS}g}"


def _said(figure: Figure) -> str:
    shown = value_text(figure.value, figure.unit)
    if math.isnan(figure.value):
        shown = f"not decided: {undecided(figure)}"
    return f"{figure.name}: {shown}" + (f", {figure.condition}" if figure.condition else "")


def _found(sheet: Sheet, query: Query) -> Figure | Limit:
    limits = {limit.figure.key: limit for limit in sheet.limits}
    figures = {figure.key: figure for figure in sheet.figures}
    found = limits.get(query.text) or figures.get(query.text)
    if found is None:
        raise _unknown("figure", query, (*limits, *figures))
    return found


def _table(shared: Shared, query: Query) -> Statement:
    listings = shared.listings(query, _subject(query))
    found = next((each for each in listings if each.key == query.text), None)
    if found is None:
        raise _unknown("table", query, [each.key for each in listings])
    rows = [list(row) for row in found.rows]
    value = {"is": "table", "header": list(found.header), "rows": rows, "note": found.note}
    return Statement(query, value, f"{found.title}: {len(rows)} rows.", "sizing")


def _subject(query: Query) -> Subject:
    if not query.build:
        message = f"{query.text!r} is a number of a build, and none is named."
        raise problem("no-build", message, None, "Name a ready-made model or a build file.")
    name = query.text.partition(".")[0]
    found = next((subject for subject in SUBJECTS if subject.name == name), None)
    if found is None:
        raise _unknown("figure", query, [subject.name for subject in SUBJECTS])
    return found


def _unknown(what: str, query: Query, known: Iterable[str]) -> Problems:
    hint = suggestion(query.text, known)
    return problem(f"unknown-{what}", f"Sizing has no {what} {query.text!r}.", None, hint)


def _sized_again(shared: Shared, statement: Statement) -> tuple[bool, str]:
    """Compute a figure or a table anew; sizing has one way to each, so that is all there is."""
    make = _table if statement.query.kind == TABLE.name else _figure
    return make(shared, statement.query).value == statement.value, "sizing, anew"


FACT = Kind("fact", "path of a fact, such as parts.fan.flow", _fact, _fact_again)
FIGURE = Kind("figure", "key of a figure or limit of a build", _figure, _sized_again)
TABLE = Kind("table", "key of a table of a build, such as power.losses", _table, _sized_again)
