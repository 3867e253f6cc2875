"""A sized build as plain JSON values; ``docs/json.md`` describes each."""

from __future__ import annotations

import math

from baywright.answers.as_json import Json, verdict_json
from baywright.desk.size.sized import Dependence, Sized
from baywright.desk.size.telling import first, site_in_words, undecided
from baywright.facts.citation import Citation
from baywright.sizing.figure import Figure, Limit, Listing
from baywright.sizing.limits import Crossing, Sweep


def sized_json(sized: Sized) -> Json:
    """Return a sized build; a number that is not decided is null."""
    return {
        "name": sized.build.name.known,
        "book": str(sized.build.book),
        "site": site_in_words(sized),
        "legal": verdict_json(sized.verdict),
        "limits": [_limit(limit) for limit in sized.limits],
        "breaks": [_break(sweep, crossings) for sweep, crossings in sized.breaks],
        "figures": [_figure(f) for sheet in sized.sheets.values() for f in sheet.figures],
        "tables": [_table(table) for tables in sized.listings.values() for table in tables],
        "unstated": list(sized.unstated),
        "depends": [_dependence(each) for each in sized.depends],
    }


def _figure(figure: Figure) -> Json:
    behind = figure.equation
    return {
        "key": figure.key,
        "name": figure.name,
        "value": _number(figure.value),
        "unit": figure.unit,
        "condition": figure.condition,
        "undecided": undecided(figure) if math.isnan(figure.value) else None,
        "estimate": bool(behind and behind.estimate),
        "formula": {"number": behind.number, "text": behind.text, "source": behind.source}
        if behind
        else None,
        "inputs": [
            {"name": each.name, "value": each.text, "facts": _facts(each.facts)}
            for each in figure.inputs
        ],
    }


def _limit(limit: Limit) -> Json:
    return {
        **_figure(limit.figure),
        "bound": _number(first(limit.bound)),
        "side": limit.side,
        "left": _number(first(limit.room)),
        "margin": _number(first(limit.margin)),
        "legal": limit.legal,
        "past_it": limit.breaks,
        "facts": _facts(limit.facts),
    }


def _break(sweep: Sweep, crossings: tuple[Crossing, ...]) -> Json:
    return {
        "change": sweep.name,
        "unit": sweep.unit,
        "passed": [
            {"key": each.limit.figure.key, "at": _number(each.at), "decided": each.known}
            for each in crossings
        ],
    }


def _table(table: Listing) -> Json:
    return {
        "key": table.key,
        "title": table.title,
        "header": list(table.header),
        "rows": [list(row) for row in table.rows],
        "note": table.note,
    }


def _dependence(each: Dependence) -> Json:
    outcomes = [{"value": value, "changed": list(changed)} for value, changed in each.outcomes]
    return {"fact": each.path, "outcomes": outcomes}


def _facts(facts: tuple[Citation, ...]) -> list[Json]:
    return [fact.as_json() for fact in facts]


def _number(value: float) -> float | None:
    return value if math.isfinite(value) else None
