"""Spares as plain JSON values; ``docs/service.md`` describes each."""

from __future__ import annotations

import math

from baywright.answers.as_json import Json
from baywright.desk.service.spares import Depot, Kit, Line, Spares
from baywright.facts.cautions import PLANNING_AID
from baywright.sizing.availability.spares import lead_time_demand, stock_for
from baywright.sizing.equation import equation_of


def spares_json(spares: Spares) -> Json:
    """Return spares; a number that is not decided is null."""
    return {
        "depots": [_depot(each) for each in spares.depots],
        "kits": [_kit(each) for each in spares.kits],
        "visit_every_days": spares.every,
        "missing": list(spares.missing),
        "formulas": [
            {"number": each.number, "text": each.text, "source": each.source}
            for each in (equation_of(lead_time_demand), equation_of(stock_for))
        ],
        "aid": PLANNING_AID,
    }


def _depot(depot: Depot) -> Json:
    return {
        "name": depot.name,
        "machines": depot.machines,
        "sites": depot.sites,
        "stock": [_line(line) for line in depot.lines],
        "failures": _number(depot.failures),
        "visits": _number(depot.visits),
    }


def _kit(kit: Kit) -> Json:
    return {
        "build": kit.build,
        "depot": kit.depot,
        "sites": kit.sites,
        "machines": kit.machines,
        "stock": [_line(line) for line in kit.lines],
    }


def _line(line: Line) -> Json:
    return {
        "machine": line.book,
        "part": line.part,
        "in_service": line.count,
        "yearly": _number(line.yearly),
        "failures": _number(line.failures),
        "lead_days": line.lead,
        "level": line.level,
        "demand": _number(line.demand),
        "spares": _number(line.stock),
        "suffices": _number(line.suffices),
        "price": _number(line.price),
        "currency": line.currency,
    }


def _number(value: float) -> float | None:
    return value if math.isfinite(value) else None
