"""Verdicts as plain JSON values with stable keys; ``docs/json.md`` describes each.

Every amount is an object with ``value`` (a whole number, or an exact fraction as a text),
``rounded`` (a number) and ``unit`` (a text, or null for a plain number).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any, TypeAlias

from baywright.answers.verdicts import (
    Bound,
    Count,
    Figure,
    Nearest,
    No,
    OtherReasons,
    Proof,
    Reason,
    Stopped,
    Tally,
    Then,
    Together,
    Undecided,
    Verdict,
    Witness,
    Yes,
)
from baywright.units import DIMENSIONS

Json: TypeAlias = dict[str, Any]


def verdict_json(verdict: Verdict) -> Json:
    """Return a verdict as JSON values; ``verdict`` names its type."""
    match verdict:
        case Yes():
            return {
                "verdict": "yes",
                "build": build_json(verdict.witness),
                "always": [reason_json(each) for each in verdict.always],
                "other_reasons": _others(verdict.others),
                "supposed": list(verdict.supposed),
                "proof": _proof(verdict.proof),
            }
        case No():
            return _no(verdict)
        case Bound():
            return _bound(verdict)
        case Count():
            return {
                "verdict": "count",
                "number": verdict.number,
                "over": list(verdict.over),
                "rows": [list(row) for row in verdict.rows],
                "proof": _proof(verdict.proof),
            }
        case Together():
            return _together(verdict)
        case Undecided():
            return _undecided(verdict)
        case Stopped():
            return {
                "verdict": "stopped",
                "tried": verdict.tried,
                "best": _figure(verdict.best) if verdict.best else None,
                "bound": _figure(verdict.bound) if verdict.bound else None,
            }


def _no(verdict: No) -> Json:
    counterexample = verdict.counterexample
    return {
        "verdict": "no",
        "reasons": [reason_json(each) for each in verdict.reasons],
        "other_reasons": _others(verdict.others),
        "nearest": [_nearest(each) for each in verdict.nearest],
        "counterexample": build_json(counterexample) if counterexample else None,
        "structure": [citation.as_json() for citation in verdict.structure],
        "proof": _proof(verdict.proof),
    }


def _bound(verdict: Bound) -> Json:
    return {
        "verdict": "bound",
        "side": "most" if verdict.most else "least",
        "figure": _figure(verdict.figure),
        "then": [_then(each) for each in verdict.then],
        "build": build_json(verdict.witness),
        "reasons": [reason_json(each) for each in verdict.reasons],
        "other_reasons": _others(verdict.others),
        "structure": [citation.as_json() for citation in verdict.structure],
        "proof": _proof(verdict.proof),
    }


def _together(verdict: Together) -> Json:
    return {
        "verdict": "together",
        "asked": list(verdict.asked),
        "reasons": [reason_json(each) for each in verdict.reasons],
        "other_reasons": _others(verdict.others),
        "largest": [
            {"positions": list(kept), "build": build_json(build)} for kept, build in verdict.largest
        ],
        "proof": _proof(verdict.proof),
    }


def _then(then: Then) -> Json:
    return {
        "side": "most" if then.most else "least",
        "figure": _figure(then.figure),
        "rechecked_by": then.rechecked_by,
    }


def _others(others: OtherReasons | None) -> Json | None:
    if others is None:
        return None
    sets = [[reason_json(each) for each in reasons] for reasons in others.sets]
    return {"sets": sets, "more": others.more}


def _undecided(verdict: Undecided) -> Json:
    return {
        "verdict": "undecided",
        "facts": [fact.as_json() for fact in verdict.facts],
        "outcomes": [
            {"values": list(values), "verdict": verdict_json(outcome)}
            for values, outcome in verdict.outcomes
        ],
    }


def amount_json(value: Fraction, dimension: str) -> Json:
    """Return an exact number with its unit.

    Args:
        value: the number, in the canonical unit of its dimension.
        dimension: the dimension, ``money:`` and a currency, or empty for a plain number.

    >>> amount_json(Fraction(13862, 9), "power")
    {'value': '13862/9', 'rounded': 1540.222, 'unit': 'W'}
    """
    whole = value.denominator == 1
    return {
        "value": value.numerator if whole else f"{value.numerator}/{value.denominator}",
        "rounded": value.numerator if whole else round(float(value), 3),
        "unit": _unit(dimension),
    }


def _unit(dimension: str) -> str | None:
    if not dimension:
        return None
    if dimension.startswith("money:"):
        return dimension.removeprefix("money:")
    return DIMENSIONS[dimension].canonical


def _figure(figure: Figure) -> Json:
    amount = amount_json(figure.value, figure.dimension)
    return {"name": figure.name, "words": figure.words, **amount}


def build_json(witness: Witness) -> Json:
    """Return a build: what each place and setting has, its parts, its numbers."""
    return {
        "lines": _lines(witness),
        "parts": dict(witness.parts),
        "figures": [_figure(figure) for figure in witness.figures],
    }


def _lines(witness: Witness) -> list[Json]:
    return [
        {"choice": line.choice, "place": line.place, "label": line.label} for line in witness.lines
    ]


def reason_json(reason: Reason) -> Json:
    """Return a reason with its facts, its numbers, and a build that exists without it."""
    return {
        "key": reason.key,
        "kind": reason.kind,
        "sentence": reason.sentence,
        "facts": [fact.as_json() for fact in reason.facts],
        "total": _tally(reason.tally) if reason.tally else None,
        "without": build_json(reason.without),
    }


def _tally(tally: Tally) -> Json:
    return {
        "used": amount_json(tally.used, tally.dimension),
        "given": amount_json(tally.given, tally.dimension),
        "shares": _shares(tally.shares, tally.dimension),
    }


def _shares(shares: Iterable[tuple[str, Fraction]], dimension: str) -> Mapping[str, Json]:
    return {place: amount_json(share, dimension) for place, share in shares}


def _nearest(nearest: Nearest) -> Json:
    return {
        "changes": [
            {"what": change.what, "asked": change.asked, "instead": change.instead}
            for change in nearest.changes
        ],
        "build": build_json(nearest.witness),
    }


def _proof(proof: Proof) -> Json:
    return {
        "answered_by": proof.answered_by,
        "rechecked_by": proof.rechecked_by,
        "milliseconds": round(proof.milliseconds, 3),
    }
