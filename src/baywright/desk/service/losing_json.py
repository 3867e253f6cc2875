"""A loss as plain JSON values; ``docs/service.md`` describes each."""

from __future__ import annotations

import math

from baywright.answers.as_json import Json, verdict_json
from baywright.desk.service.effects import Change
from baywright.desk.service.losing import Loss
from baywright.desk.service.repairs import Repair
from baywright.facts.cautions import PLANNING_AID
from baywright.service.losing.cuts import Cuts
from baywright.service.losing.items import Function
from baywright.service.losing.losing import Amount, Gone
from baywright.service.losing.nodes import Ground


def loss_json(loss: Loss) -> Json:
    """Return a loss; a number that is not decided is null."""
    lost = loss.lost
    return {
        "name": loss.build.name.known,
        "book": str(loss.build.book),
        "legal": verdict_json(loss.verdict),
        "asked": list(loss.asked),
        "lost": list(lost.things),
        "stops": lost.stops,
        "starts": lost.starts,
        "gone": [_gone(each) for each in lost.gone],
        "never": [_gone(each) for each in lost.never],
        "numbers": [
            *(_amount(each) for each in lost.amounts),
            *(_change(each) for each in loss.changes),
        ],
        "next_points": list(loss.next_points),
        "repairs": [_repair(each) for each in loss.repairs],
        "cuts": {each.key: _cuts(each, cuts) for each, cuts in loss.cuts},
        "things": [
            {"id": each.id, "name": each.name, "kind": each.kind, "part": each.part or None}
            for each in loss.graph.things
        ],
        "undecided": [
            {"what": each.what, "depends": list(each.depends)} for each in loss.graph.opens
        ],
        "outcomes": [
            {"given": dict(each.given), "gone": list(each.sentences)} for each in loss.outcomes
        ],
        "aid": PLANNING_AID,
    }


def _gone(gone: Gone) -> Json:
    return {
        "key": gone.function.key,
        "effect": gone.function.effect.value,
        "sentence": gone.function.lost,
        "with_machine": gone.with_machine,
        "covered": gone.covered,
        "grounds": [_ground(each) for each in gone.grounds],
    }


def _ground(ground: Ground) -> Json:
    return {
        "key": ground.key,
        "sentence": ground.sentence,
        "facts": [fact.as_json() for fact in ground.facts],
    }


def _amount(amount: Amount) -> Json:
    return {
        "key": amount.measure.key,
        "name": amount.measure.name,
        "unit": amount.measure.unit,
        "before": _number(amount.before),
        "after": _number(amount.after),
        "ground": _ground(amount.measure.because),
    }


def _change(change: Change) -> Json:
    return {
        "key": None,
        "name": change.name,
        "unit": change.unit,
        "before": _number(change.before),
        "after": _number(change.after),
        "condition": change.condition,
        "bound": _number(change.bound),
        "outside": change.outside or None,
        "formula": {"number": change.equation.number, "text": change.equation.text},
    }


def _repair(repair: Repair) -> Json:
    return {
        "thing": repair.thing.id,
        "running": repair.running,
        "minutes": _number(repair.minutes),
        "missing": list(repair.missing),
        "follows": list(repair.follows),
        "cautions": list(repair.cautions),
        "facts": [fact.as_json() for fact in repair.facts],
    }


def _cuts(function: Function, cuts: Cuts) -> Json:
    return {
        "name": function.name,
        "effect": function.effect.value,
        "always": cuts.always,
        "singles": list(cuts.singles),
        "pairs": [list(pair) for pair in cuts.pairs],
    }


def _number(value: float) -> float | None:
    return value if math.isfinite(value) else None
