"""What the desk gives back, as plain JSON values; ``docs/json.md`` describes each."""

from __future__ import annotations

from baywright.answers.as_json import Json, amount_json, verdict_json
from baywright.desk.asking import Answer
from baywright.desk.checking import Checked
from baywright.desk.judging import Judgement, Margin
from baywright.desk.options import PlaceOptions
from baywright.desk.review.finding import Finding
from baywright.facts.status import Status


def answer_json(answer: Answer) -> Json:
    """Return an answer."""
    return {
        "question": answer.question,
        "reading": answer.reading,
        "book": answer.book,
        "as_of": answer.as_of,
        "status": _status(answer.status),
        "answer": verdict_json(answer.verdict),
    }


def judgement_json(judgement: Judgement) -> Json:
    """Return a judgement."""
    return {
        "name": judgement.name,
        "book": judgement.book,
        "as_of": judgement.as_of,
        "status": _status(judgement.status),
        "site": judgement.site,
        "asked": list(judgement.asked),
        "must": list(judgement.must),
        "answer": verdict_json(judgement.verdict),
        "margins": [_margin(margin) for margin in judgement.margins],
        "made_from": list(judgement.made_from),
    }


def checked_json(checked: Checked) -> Json:
    """Return what a check found."""
    return {
        "book": checked.book,
        "name": checked.name,
        "as_of": checked.as_of,
        "status": checked.status,
        "facts": checked.facts,
        "sources": checked.sources,
        "places": checked.places,
        "parts": checked.parts,
        "choices": checked.choices,
        "laws": checked.laws,
        "buildable": checked.buildable,
        "unknown": [fact.as_json() for fact in checked.unknown],
        "findings": [_finding(each) for each in checked.findings],
    }


def _finding(finding: Finding) -> Json:
    return {
        "kind": finding.kind,
        "defect": finding.defect,
        "says": finding.says,
        "proof": list(finding.proof),
        "where": finding.where or None,
        "facts": [fact.as_json() for fact in finding.facts],
    }


def options_json(options: PlaceOptions) -> Json:
    """Return what one choice can be and cannot be."""
    return {
        "choice": options.choice,
        "place": options.place,
        "name": options.name,
        "free": list(options.free),
        "closed": list(options.closed),
    }


def _margin(margin: Margin) -> Json:
    return {
        "words": margin.words,
        "used": amount_json(margin.used, margin.dimension),
        "given": amount_json(margin.given, margin.dimension),
        "holds": margin.holds,
        "needed": margin.needed,
    }


def _status(status: Status) -> Json:
    return {"word": status.word, "note": status.note}
