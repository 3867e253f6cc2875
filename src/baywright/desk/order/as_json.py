"""A checked order as plain JSON values; ``docs/json.md`` describes each."""

from __future__ import annotations

from baywright.answers.as_json import Json, amount_json, build_json, verdict_json
from baywright.desk.order.checking import Checked
from baywright.desk.order.findings import Path
from baywright.desk.order.reading import Line
from baywright.desk.order.repair import Repair
from baywright.desk.space_telling import proof_json


def order_json(checked: Checked) -> Json:
    """Return a checked order."""
    order, ways = checked.order, checked.arrangements
    return {
        "name": checked.name,
        "book": checked.book,
        "as_of": checked.as_of,
        "status": {"word": checked.status.word, "note": checked.status.note},
        "machines": order.machines,
        "lines": [_line(line) for line in order.lines],
        "models": [{"where": where, "model": model} for model, where in order.models],
        "settings": dict(order.settings),
        "not_read": [
            {"where": each.where, "text": each.text, "why": each.why, "counts": each.counts}
            for each in order.not_read
        ],
        "answer": verdict_json(checked.verdict),
        "repairs": [_repair(each) for each in checked.repairs],
        "follow": [
            {"part": each.part, "needed": each.needed, "listed": each.listed, "why": each.why}
            for each in checked.follow
        ],
        "excess": [
            {"part": each.part, "listed": each.listed, "most": each.most} for each in checked.excess
        ],
        "orphans": list(checked.orphans),
        "arrangements": ways
        and {
            "number": ways.number,
            "open": {choice: list(labels) for choice, labels in ways.open.items()},
            "answered_by": ways.proof[0] or None,
            "rechecked_by": ways.proof[1] or None,
        },
        "paths": [_path(each, checked) for each in checked.paths],
        "supposed": dict(checked.supposed),
        "stopped": list(checked.stopped),
    }


def _line(line: Line) -> Json:
    return {
        "where": line.where,
        "text": line.text,
        "count": line.count,
        "parts": list(line.parts),
        "place": line.place or None,
        "book": line.book or None,
        "foreign": line.foreign or None,
        "notes": list(line.notes),
    }


def _repair(repair: Repair) -> Json:
    return {
        "changes": repair.changes,
        "steps": steps_json(repair),
        "readings": dict(repair.readings),
        "build": build_json(repair.witness),
        "proof": proof_json(repair.proof),
    }


def steps_json(repair: Repair) -> list[Json]:
    """Return the changes of a repair."""
    return [
        {
            "kind": step.kind,
            "count": step.count,
            "part": step.part,
            "instead_of": step.instead_of or None,
            "book": step.book or None,
        }
        for step in repair.steps
    ]


def _path(path: Path, checked: Checked) -> Json:
    currency = f"money:{checked.asked.machine.book.book.currency}"
    return {
        "model": path.model or None,
        "price": None if path.price is None else amount_json(path.price, currency),
        "options": dict(path.options),
    }
