"""Changes as plain JSON values; ``docs/changes.md`` describes them."""

from __future__ import annotations

from baywright.answers.as_json import Json
from baywright.desk.changes.changing import Changes
from baywright.desk.changes.facts import FactChange
from baywright.desk.changes.said import Pair, Said
from baywright.desk.fact_table import FactRow


def changes_json(found: Changes) -> Json:
    """Return changes; what stays is only counted."""
    return {
        "title": found.title,
        "says": found.says,
        "book": found.book,
        "days": list(found.days),
        "facts": [_fact(each) for each in found.facts],
        "looked_at": len(found.pairs),
        "found_anew": found.anew,
        "flips": [_flip(each) for each in found.flips],
    }


def _fact(each: FactChange) -> Json:
    return {
        "fact": each.path,
        "says": each.words,
        "before": _row(each.before),
        "after": _row(each.after),
    }


def _row(row: FactRow | None) -> Json | None:
    if row is None:
        return None
    return {"value": row.text, "source": row.source, "date": row.date, "status": row.status}


def _flip(pair: Pair) -> Json:
    return {
        "kind": pair.kind,
        "name": pair.name,
        "before": _said(pair.before),
        "after": _said(pair.after),
    }


def _said(said: Said) -> Json:
    return {"value": said.value, "says": said.words}
