"""A fitted need as plain JSON values; ``docs/json.md`` describes each."""

from __future__ import annotations

import math
from fractions import Fraction

from baywright.answers.as_json import Json, amount_json, build_json, verdict_json
from baywright.desk.fit.candidates import Candidate
from baywright.desk.fit.fit import Fitted, Outcome, Proposals
from baywright.desk.fit.hosts import Explored
from baywright.desk.fit.proposals import Margin, Proposal, Racks, Step, trades
from baywright.desk.fit.telling import money_of
from baywright.desk.opening import Opened
from baywright.facts.cautions import PLANNING_AID


def fitted_json(opened: Opened, fitted: Fitted) -> Json:
    """Return a fitted need."""
    money = money_of(opened)
    return {
        "need": fitted.need.name.known,
        "book": fitted.book,
        "as_of": fitted.as_of,
        "status": {"word": fitted.status.word, "note": fitted.status.note},
        "asked": list(fitted.asked),
        "assumed": list(fitted.assumed),
        "outcomes": [
            {"supposed": dict(given), **_outcome(outcome, money)}
            for given, outcome in fitted.worlds
        ],
        "aid": PLANNING_AID,
    }


def _outcome(outcome: Outcome, money: str) -> Json:
    if isinstance(outcome, Proposals):
        shown = outcome.proposals
        return {
            "met": True,
            "proposals": [_proposal(each, shown, money) for each in shown],
            "steps": [_step(step, money) for step in outcome.steps],
            "explored": _explored(outcome.explored, money),
        }
    more = outcome.more
    return {
        "met": False,
        "hosts": outcome.hosts,
        "answer": verdict_json(outcome.no),
        "with_more_hosts": None if more is None else _proposal(more, (), money),
        "refused_by_sizing": outcome.dropped,
    }


def _proposal(each: Proposal, others: tuple[Proposal, ...], money: str) -> Json:
    return {
        "best_in": list(each.names),
        **_candidate(each.candidate, money),
        "total": amount_json(each.total, money),
        "build": build_json(each.build),
        "parts": dict(each.parts),
        "binding": None if each.binding is None else _margin(each.binding),
        "margins": [_margin(margin) for margin in each.margins],
        "undecided": list(each.undecided),
        "racks": None if each.racks is None else _racks(each.racks),
        "not_fewer": each.fewer or None,
        "welcome": [{"expression": text, "met": met} for text, met in each.met],
        "told": [{"words": words, "value": value} for words, value in each.told],
        "trades": [
            {"against": number, "words": trades(each, other, money)}
            for number, other in enumerate(others)
            if other is not each
        ],
    }


def _candidate(candidate: Candidate, money: str) -> Json:
    headroom = candidate.headroom
    return {
        "hosts": candidate.hosts,
        "price": amount_json(candidate.price, money),
        "load": amount_json(candidate.load, "power"),
        "space": candidate.space,
        "headroom": None if headroom is None else amount_json(headroom, "power"),
        "preferred": [_number(number) for number in candidate.preferred],
    }


def _number(number: Fraction) -> int | str:
    return number.numerator if number.denominator == 1 else str(number)


def _margin(margin: Margin) -> Json:
    return {
        "key": margin.key,
        "words": margin.words,
        "is": margin.used,
        "bound": margin.bound,
        "left": margin.left,
        "share": margin.share if math.isfinite(margin.share) else None,
        "past_it": margin.breaks,
    }


def _step(step: Step, money: str) -> Json:
    return {
        "hosts": step.hosts,
        "builds": step.builds,
        "price": amount_json(step.price, money),
        "load": amount_json(step.load, "power"),
        "not_fewer": step.fewer or None,
        "racks": None if step.racks is None else _racks(step.racks),
    }


def _racks(racks: Racks) -> Json:
    return {
        "machines_in_rack": racks.bears,
        "binds": racks.binds,
        "racks_at_site": racks.racks,
        "counts": dict(racks.counts),
    }


def _explored(explored: Explored, money: str) -> Json:
    return {
        "front": [_candidate(each, money) for each in explored.front],
        "counts": [
            {
                "hosts": count.hosts,
                "possible": bool(count.candidates),
                "builds": len(count.candidates),
                "on_front": sum(each.hosts == count.hosts for each in explored.front),
            }
            for count in explored.counts
        ],
        "least": [
            {
                "resource": demand.resource,
                "hosts": hosts,
                "most_of_one": amount_json(most, demand.dimension),
                "demand": amount_json(demand.total, demand.dimension),
            }
            for demand, most, hosts in explored.least
        ],
        "why_not_fewer": [reason.sentence for reason in explored.reasons],
        "from_on": explored.from_on,
        "stopped": explored.stopped or None,
    }
