"""A plan of service as plain JSON values; ``docs/service.md`` describes each."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.answers.as_json import Json, amount_json
from baywright.desk.service.access import Service
from baywright.desk.service.access_telling import OF_NUMBERS
from baywright.facts.cautions import CAUTIONS, PLANNING_AID
from baywright.service.access.plan import Plan, Refusal, Step


def service_json(found: Service) -> Json:
    """Return a plan of service; the cautions stand before the plans, and before each act."""
    keys = dict.fromkeys([*OF_NUMBERS, *(k for _, plan in found.plans for k in plan.cautions)])
    return {
        "name": found.name,
        "book": found.book,
        "as_of": found.as_of,
        "status": {"word": found.status.word, "note": found.status.note},
        "job": found.asked.doing,
        "lock": found.asked.lock,
        "least": found.asked.least,
        "keep_running": found.asked.keep_running,
        "cautions": {key: _caution(key) for key in keys},
        "plans": [_plan(given, plan) for given, plan in found.plans],
        "aid": PLANNING_AID,
    }


def _caution(key: str) -> Json:
    caution = CAUTIONS[key]
    return {
        "word": caution.word,
        "hazard": caution.hazard,
        "consequence": caution.consequence,
        "avoidance": caution.avoidance,
    }


def _plan(given: Mapping[str, str], plan: Plan) -> Json:
    return {
        "supposed": dict(given),
        "changed": list(plan.targets),
        "possible": not plan.refused,
        "refused": [_refusal(each) for each in plan.refused],
        "time": amount_json(plan.time, "time"),
        "off": amount_json(plan.off, "time"),
        "untimed": list(plan.untimed),
        "unstated": list(plan.unstated),
        "people": plan.people,
        "tools": list(plan.tools),
        "why_off": [_refusal(each) for each in plan.why_off],
        "steps": [_step(step) for step in plan.steps],
        "refit": list(plan.refit),
        "notes": list(plan.notes),
        "facts": [each.as_json() for each in plan.facts],
    }


def _refusal(refused: Refusal) -> Json:
    return {"what": refused.name, "reasons": list(refused.reasons)}


def _step(step: Step) -> Json:
    return {
        "number": step.number,
        "power": step.power,
        "before": list(step.before),
        "says": list(step.says.told(_said_caution, _said_act)),
        "kind": step.kind,
        "name": step.name,
        "time": None if step.untimed else amount_json(step.time, "time"),
        "people": step.people,
        "lifted_by": step.lifted_by or None,
        "tools": list(step.tools),
        "mark": step.mark or None,
        "checks": list(step.checks),
        "notes": list(step.notes),
        "facts": [each.as_json() for each in step.facts],
    }


def _said_caution(key: str) -> Json:
    return {"caution": key}


def _said_act(words: str) -> Json:
    return {"act": words}
