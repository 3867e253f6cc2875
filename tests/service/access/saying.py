"""Whether an output says each caution of a plan before its act; for every form of output."""

from __future__ import annotations

import re
from typing import Any

from baywright.facts.cautions import CAUTIONS
from baywright.service.access.plan import Plan

AGAIN = "As before: {}."


def flat(text: str) -> str:
    """Return a text with its line breaks and shapes gone."""
    return " ".join(text.replace("\N{WHITE UP-POINTING TRIANGLE}", " ").split())


def full(key: str) -> str:
    """Return a caution as it stands on a page in full."""
    said = CAUTIONS[key]
    return f"{said.word} {said.hazard} {said.consequence} {said.avoidance}"


def again(key: str) -> str:
    return AGAIN.format(key.replace("-", " "))


def acts(plan: Plan) -> list[tuple[tuple[str, ...], str]]:
    """Return the cautions and the act of each step."""
    told = (step.says.told(lambda key: key, lambda act: act) for step in plan.steps)
    return [(said[:-1], said[-1]) for said in told]


def lacking_in_text(text: str, plan: Plan) -> list[tuple[int, str]]:
    """Return the number of each step and the caution that a text does not say before its act.

    A caution stands in full before its first act, and by name or in full in each step that has it.
    """
    said, lacking = flat(text), []
    for number, (keys, act) in enumerate(acts(plan), 1):
        begin = re.search(rf"Step {number} \((?:RUNNING|OFF)\)", said)
        end = said.find(flat(act), begin.end()) if begin else -1
        if begin is None or end < 0:
            lacking.append((number, "the act itself"))
            continue
        here = said[begin.end() : end]
        for key in keys:
            told = full(key) in here or (again(key) in here and full(key) in said[: begin.start()])
            lacking += [] if told else [(number, key)]
    return lacking


def lacking_in_json(data: dict[str, Any], plan: Plan) -> list[tuple[int, str]]:
    """Return the number of each step and the caution that JSON does not say before its act."""
    lacking = []
    before = list(data)[: list(data).index("plans")]
    (written,) = data["plans"]
    for number, (keys, act) in enumerate(acts(plan), 1):
        says = written["steps"][number - 1]["says"]
        at = says.index({"act": act})
        for key in keys:
            known = "cautions" in before and data["cautions"].get(key, {}).get("hazard")
            told = known == CAUTIONS[key].hazard and {"caution": key} in says[:at]
            lacking += [] if told else [(number, key)]
    return lacking
