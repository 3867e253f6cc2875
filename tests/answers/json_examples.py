"""One of each thing that is written as JSON, on the example book of the documentation."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from baywright.answers.as_json import verdict_json
from baywright.answers.verdicts import Figure, Stopped
from baywright.desk.as_json import answer_json, checked_json, judgement_json, options_json
from baywright.desk.asking import ask
from baywright.desk.checking import check
from baywright.desk.judging import judge_build
from baywright.desk.opening import Opened, open_book
from baywright.desk.options import options
from baywright.files.books import read_build
from tests.files.example import write_example

QUESTIONS = {
    "yes": "count(drive) == 4",
    "always": "always(fans >= 3)",
    "no": "count(drive) == 4 and fans == 3",
    "no-always": "always(fans >= 4)",
    "bound": "least(load)",
    "bound-then": "least(price, then=load)",
    "count": "list(A, O1)",
    "together": "together(count(drive) == 4, fans == 3)",
}


def examples(folder: Path) -> dict[str, Any]:
    """Return one of each, by name; the example book is written below the folder."""
    book = write_example(folder)
    opened = open_book(book)
    found = {name: _verdict(opened, question) for name, question in QUESTIONS.items()}
    several = replace(opened, panel=replace(opened.panel, reason_sets=5))
    found["other_reasons"] = _verdict(several, "least(price)")["other_reasons"]
    figures = (Figure("load", "the peak draw", Fraction(n), "power") for n in (1158, 1162))
    found["undecided"] = _verdict(_open_with_s2(book), 'least(price, given=A == "S2")')
    found["stopped"] = verdict_json(Stopped("cpsat worked for 20 s", *figures))
    found["answer"] = answer_json(ask(opened, "least(load)"))
    build = next((book / "builds").glob("*.yaml"))
    found["judgement"] = judgement_json(judge_build(opened, read_build(build)))
    found["check"] = checked_json(check(opened))
    found["options"] = options_json(options(opened, 'A == "S4"')[2])
    return found


def _open_with_s2(book: Path) -> Opened:
    """Let the zone take the cage whose price nobody knows yet."""
    places = book / "places.yaml"
    places.write_text(places.read_text().replace("takes: [S4]", "takes: [S4, S2]"))
    return open_book(book)


def _verdict(opened: Opened, question: str) -> Any:
    return verdict_json(ask(opened, question).verdict)


KEYS = {
    "build": {"lines", "parts", "figures"},
    "other_reasons": {"sets", "more"},
    "reason": {"key", "kind", "sentence", "facts", "total", "without"},
    "proof": {"answered_by", "rechecked_by", "milliseconds"},
    "fact": {"fact", "value", "where", "source", "date", "status"},
    "figure": {"name", "words", "value", "rounded", "unit"},
    "amount": {"value", "rounded", "unit"},
    "status": {"word", "note"},
}
"""The keys of what appears in many places; the page describes each once."""


def shortened(value: Any, *, top: bool = True) -> Any:
    """Return a value with what the page describes elsewhere as ``<its name>``, lists cut to one."""
    if isinstance(value, list):
        return [shortened(inner, top=False) for inner in value[:1]]
    if not isinstance(value, dict):
        return value
    name = next((name for name, keys in KEYS.items() if keys == set(value)), None)
    if name and not top:
        return f"<{name}>"
    return {key: shortened(inner, top=False) for key, inner in value.items()}


def pieces(found: dict[str, Any]) -> dict[str, Any]:
    """Return one of each piece that appears in many places, taken out of the examples."""
    bound = found["bound"]
    reason = found["no"]["reasons"][0]
    return {
        "amount": found["judgement"]["margins"][0]["used"],
        "figure": bound["figure"],
        "fact": reason["facts"][0],
        "build": bound["build"],
        "reason": reason,
        "proof": bound["proof"],
        "status": found["answer"]["status"],
    }
