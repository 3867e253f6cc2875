"""A diagnosis as plain JSON values; ``docs/service.md`` describes each."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from baywright.answers.as_json import Json
from baywright.desk.service.faults import Diagnosis, Findings, Stage, Tree, Worth
from baywright.desk.service.faults_minutes import Effort, says_of
from baywright.desk.service.faults_telling import OF_NUMBERS, tree_cautions
from baywright.desk.service.faults_words import doing, effort_of, outcomes
from baywright.facts.book import Book
from baywright.facts.cautions import CAUTIONS, PLANNING_AID
from baywright.service.faults.checks import Check
from baywright.service.faults.classes import Classes
from baywright.service.faults.found import Fault
from baywright.service.faults.signs import Sign, Way
from baywright.service.faults.suspects import Suspect
from baywright.service.faults.tree import Node


def diagnosis_json(found: Diagnosis) -> Json:
    """Return a diagnosis; cautions stand before what they belong to, a number not known is null."""
    opened, asked = found.opened, found.asked
    keys = dict.fromkeys(
        [*OF_NUMBERS, *(key for _, each in found.worlds for key in _cautioned(each))]
    )
    return {
        "name": found.build.name.known,
        "book": str(opened.book.book.id),
        "as_of": opened.as_of.isoformat(),
        "status": {"word": opened.status.word, "note": opened.status.note},
        "seen": list(asked.seen),
        "not_seen": list(asked.not_seen),
        "nothing_else": asked.nothing_else,
        "cover": asked.cover,
        "cords": asked.cords,
        "cautions": {key: _caution(key) for key in keys},
        "found": [_world(given, each, opened.book) for given, each in found.worlds],
        "aid": PLANNING_AID,
    }


def _cautioned(findings: Findings) -> tuple[str, ...]:
    """Return the keys of the cautions of every check that is named."""
    checks = [key for each in findings.checks for key in effort_of(findings, each).cautions]
    trees = [findings.tree, *(t for each in findings.worth for t in (each.fitted, each.bare))]
    acts = [key for tree in trees if tree is not None for key in tree_cautions(findings, tree)]
    return (*checks, *acts)


def _caution(key: str) -> Json:
    caution = CAUTIONS[key]
    return {
        "word": caution.word,
        "hazard": caution.hazard,
        "consequence": caution.consequence,
        "avoidance": caution.avoidance,
    }


def _world(given: Mapping[str, str], findings: Findings, book: Book) -> Json:
    explained = findings.explained
    return {
        "supposed": dict(given),
        "faults_at_once": explained.faults_at_once,
        "suspects": [_suspect(each) for each in explained.suspects],
        "closest": [
            {"fault": fault.id, "unexplained": [each.text for each in left]}
            for fault, left in explained.closest
        ],
        "checks": [_check(findings, each) for each in findings.checks],
        "tree": _tree(findings, findings.tree, book),
        "worth": [_worth(each) for each in findings.worth],
        "faults": [_fault(findings, each) for each in findings.faults],
        "signs": [_sign(findings, each) for each in findings.signs],
    }


def _suspect(suspect: Suspect) -> Json:
    return {
        "faults": list(suspect.ids),
        "odds": _number(suspect.odds),
        "match": _number(suspect.match),
        "hidden": [sign.key for sign in suspect.masked],
    }


def _check(findings: Findings, check: Check) -> Json:
    effort = effort_of(findings, check)
    return {
        **_effort(effort),
        "fault": check.fault.id if check.fault is not None else None,
        "alike": [fault.id for fault in check.alike],
        "look": _way(check.way) if check.way is not None else None,
        "bits": check.bits,
        "bits_a_minute": check.bits_a_minute if check.minutes else None,
    }


def _effort(effort: Effort, *, cited: bool = True) -> Json:
    """Return what a check takes, its cautions before the act."""
    facts = {"facts": [each.as_json() for each in effort.facts]} if cited else {}
    return {
        "cautions": list(effort.cautions),
        "act": effort.says,
        "minutes": _number(effort.minutes),
        "untimed": list(effort.untimed),
        "why_not": list(effort.why_not),
        **facts,
    }


def _way(way: Way) -> Json:
    return {"says": says_of(way), "behind": list(way.behind), "by": way.by or None}


def _tree(findings: Findings, tree: Tree | None, book: Book) -> Json | None:
    if tree is None:
        return None
    points: list[Json] = []
    _points(findings, tree, tree.root, points, book)
    return {
        "cautions": list(tree_cautions(findings, tree)),
        "minutes": tree.solution.minutes,
        "bound": tree.solution.bound,
        "exact": tree.solution.exact,
        "left_out": [fault.id for fault in tree.left_out],
        "points": points,
    }


def _points(findings: Findings, tree: Tree, node: Node, points: list[Json], book: Book) -> None:
    after = list(outcomes(findings.there, tree, node, book))
    points.append(
        {
            "number": node.number,
            "act": doing(findings, tree, node, book),
            "look": _way(tree.ways[node.look]) if node.look is not None else None,
            "swaps": [[tree.faults[i].id for i in group] for group in node.swaps],
            "known": node.known,
            "suspects": list(dict.fromkeys(tree.faults[i].id for i in node.faults)),
            "odds": node.weight,
            "minutes": node.minutes,
            "then": [{"after": words, "number": branch.then.number} for branch, words in after],
        }
    )
    for branch, _ in after:
        _points(findings, tree, branch.then, points, book)


def _worth(worth: Worth) -> Json:
    return {
        "part": worth.part,
        "there": worth.there,
        "stages": [_stage(each) for each in worth.stages],
        "minutes_with": worth.fitted.solution.minutes if worth.fitted else None,
        "minutes_without": worth.bare.solution.minutes if worth.bare else None,
    }


def _stage(stage: Stage) -> Json:
    return {
        "looks": [_way(way) for way in stage.ways],
        "with": _classes(stage.fitted),
        "without": _classes(stage.bare),
    }


def _classes(classes: Classes) -> Json:
    return {
        "expected": _number(classes.expected),
        "expected_unweighted": _number(classes.expected_unweighted),
        "classes": [
            {"signs": sorted(signs), "faults": list(faults)}
            for signs, faults in classes.by_signature.items()
        ],
    }


def _fault(findings: Findings, fault: Fault) -> Json:
    return {
        "id": fault.id,
        "name": fault.name,
        "kind": fault.kind,
        "part": fault.part or None,
        "rate": _number(fault.rate),
        "facts": [each.as_json() for each in fault.facts],
        "swap": _effort(findings.efforts.swaps[fault.id], cited=False),
    }


def _sign(findings: Findings, sign: Sign) -> Json:
    return {
        "id": sign.key,
        "name": sign.name,
        "phrases": list(sign.phrases),
        "look": _way(sign.way),
        "needs": sign.needs or None,
        "there": not sign.needs or sign.needs in findings.fitted,
        "always": sorted(sign.always),
        "perhaps": sorted(sign.perhaps),
        "masked_by": sorted(sign.masked_by),
        "facts": [each.as_json() for each in sign.facts],
    }


def _number(value: Fraction | None) -> float | None:
    return None if value is None else float(value)
