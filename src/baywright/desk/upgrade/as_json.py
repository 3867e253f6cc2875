"""An upgrade as plain JSON values; ``docs/json.md`` describes each."""

from __future__ import annotations

from fractions import Fraction

from baywright.answers.as_json import Json, amount_json, build_json, verdict_json
from baywright.desk.space_telling import proof_json
from baywright.desk.upgrade.carrying import Carried
from baywright.desk.upgrade.steps import Act, Step
from baywright.desk.upgrade.successor import Successor, Transfer
from baywright.desk.upgrade.telling import OF_NUMBERS
from baywright.desk.upgrade.upgrading import Plans, Upgrade
from baywright.desk.upgrade.ways import Bought, Way
from baywright.desk.upgrade.work import Effort
from baywright.facts.cautions import CAUTIONS, PLANNING_AID


def upgrade_json(found: Upgrade) -> Json:
    """Return an upgrade. Amounts of money are in the currency of each book."""
    return {
        "name": found.name,
        "need": found.need,
        "book": found.book,
        "as_of": found.as_of,
        "status": {"word": found.status.word, "note": found.status.note},
        "budget": _money(found.budget, found.currency) if found.budget is not None else None,
        "plans": [_plans(plans, found.currency) for plans in found.plans],
        "successors": [_successor(each) for each in found.successors],
        "cautions": {key: _caution(key) for key in _cautions(found)},
        "aid": PLANNING_AID,
    }


def _money(value: Fraction, currency: str) -> Json:
    return amount_json(value, f"money:{currency}")


def _cautions(found: Upgrade) -> list[str]:
    ways = (way for plans in found.plans for way in plans.ways)
    efforts = [step.effort for way in ways for step in way.order.steps]
    for each in found.successors:
        if each.transfer is not None:
            efforts += [each.transfer.build, each.transfer.out, each.transfer.into]
    return list(dict.fromkeys([*OF_NUMBERS, *(k for each in efforts for k in each.cautions)]))


def _caution(key: str) -> Json:
    caution = CAUTIONS[key]
    return {
        "word": caution.word,
        "hazard": caution.hazard,
        "consequence": caution.consequence,
        "avoidance": caution.avoidance,
    }


def _plans(plans: Plans, currency: str) -> Json:
    return {
        "supposed": dict(plans.supposed),
        "stands": verdict_json(plans.stands),
        "meets": verdict_json(plans.meets) if plans.meets is not None else None,
        "ways": [_way(way, currency) for way in plans.ways],
    }


def _way(way: Way, currency: str) -> Json:
    return {
        "aim": way.aimed,
        "price": _money(way.price, currency),
        "bought": [_bought(each, currency) for each in way.bought],
        "left_over": dict(way.spare),
        "times_off": way.times_off,
        "off": amount_json(way.down, "time"),
        "untimed": list(way.untimed),
        "given_up": list(way.gives_up),
        "notes": list(way.notes),
        "best_order": way.order.complete,
        "steps": [_step(number, step) for number, step in enumerate(way.order.steps, 1)],
        "build": build_json(way.target),
        "proof": proof_json(way.proof),
    }


def _bought(each: Bought, currency: str) -> Json:
    return {
        "part": each.part,
        "name": each.name,
        "count": each.count,
        "price": _money(each.price, currency) if each.price is not None else None,
        "follows": each.follows,
    }


def _step(number: int, step: Step) -> Json:
    return {
        "number": number,
        "cautions": list(step.effort.cautions),
        "off": step.off,
        "acts": [_act(act) for act in step.acts],
        **_effort(step.effort),
        "together": list(step.together),
        "why_off": list(step.why_off),
        "blanks": dict(step.blanks),
        "lacking": list(step.lacking),
        "passed": [build_json(each) for each in step.passed],
        "leaves": build_json(step.leaves),
    }


def _act(act: Act) -> Json:
    return {
        "verb": act.verb,
        "place": act.place,
        "part": act.part or None,
        "count": act.count if act.part else None,
        "from": act.source or None,
        "value": act.value or None,
        "spare": act.spare,
    }


def _effort(effort: Effort) -> Json:
    return {
        "time": amount_json(effort.time, "time"),
        "untimed": list(effort.untimed),
        "people": effort.people,
        "tools": list(effort.tools),
        "waits": [
            {"name": wait.name, "time": amount_json(wait.time, "time")} for wait in effort.waits
        ],
        "way_in": list(effort.way_in),
        "locks": list(effort.locks),
    }


def _successor(each: Successor) -> Json:
    return {
        "book": each.book,
        "name": each.name,
        "status": {"word": each.status.word, "note": each.status.note},
        "supposed": list(each.supposed),
        "unread": [{"condition": text, "problem": problem} for text, problem in each.unread],
        "refused": verdict_json(each.verdict) if each.verdict is not None else None,
        "price": _money(each.price, each.currency) if each.target is not None else None,
        "chassis": _money(each.chassis, each.currency) if each.target is not None else None,
        "bought": [_bought(part, each.currency) for part in each.bought],
        "carried": [_carried(part) for part in each.carried],
        "transfer": _transfer(each.transfer) if each.transfer is not None else None,
        "given_up": list(each.gives_up),
        "lost": list(each.lost),
        "build": build_json(each.target) if each.target is not None else None,
        "proof": proof_json(each.proof) if each.proof is not None else None,
    }


def _transfer(found: Transfer) -> Json:
    return {
        **{
            word: {"cautions": list(work.cautions), **_effort(work)}
            for word, work in (("build", found.build), ("out", found.out), ("into", found.into))
        },
        "off": amount_json(found.off, "time"),
        "untimed": list(found.untimed),
    }


def _carried(part: Carried) -> Json:
    return {
        "part": part.part,
        "count": part.count,
        "as_part": part.as_part or None,
        "used": part.used,
        "why_not": part.why_not or None,
    }
