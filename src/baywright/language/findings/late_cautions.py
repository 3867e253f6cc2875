"""Cautions that come after their act, or not at all.

An act is an instruction: a clause that starts with what to do. A sentence that only tells what
happens when somebody does it is none.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baywright.language.findings.grounds import Grounds, Hazard, Quoted
from baywright.language.passages import Passage, Remark

_CLAUSE = re.compile(r"\s*(?:[;:,—–]|\band then\b|\bthen\b|\band\b|\bbut\b)\s*", re.IGNORECASE)
_FIRST = (
    "then|now|next|first|finally|simply|just|carefully|please|we|you|let's|let us|must|should"
    "|have to|need to|will"
)
_DO = (
    "lift(?: out| off| up)?|pull(?: out| off| up)?|remove|take(?: out| off| away)?|slide(?: out)?"
    "|open|unseat|unclip|detach|replace|swap(?: out)?|exchange|change|fit|insert|push(?: in)?"
    "|plug in|unplug|undo|release|unscrew"
)
_OBJECT = r"(?P<object>.*?)(?:\b(?:with|in|into|from|for|to|at|on|of|by|behind|below|above)\b|$)"
_ACT = re.compile(rf"(?:(?:{_FIRST}) )*(?:{_DO})\b{_OBJECT}")
_OFFER = re.compile(rf"(?:(?:{_FIRST}|can|may|could) )*(?:{_DO})\b{_OBJECT}")


@dataclass(frozen=True, slots=True)
class _Clause:
    """A clause and the passage it is in."""

    at: int
    text: str


def late_cautions(passages: Sequence[Passage], grounds: Grounds) -> Iterator[Remark]:
    """Yield a remark on the first act of each hazard whose caution does not come before it."""
    clauses = [
        _Clause(at, text)
        for at, passage in enumerate(passages)
        for text in _CLAUSE.split(passage.text.casefold().replace("’", "'"))
    ]
    acts = [number for number, clause in enumerate(clauses) if _OFFER.match(clause.text)]
    for hazard in grounds.hazards:
        act = next((n for n in acts if _is_act(clauses[n].text, hazard)), None)
        if act is None or any(hazard.signs.search(each.text) for each in clauses[:act]):
            continue
        late = any(hazard.signs.search(each.text) for each in clauses[act:])
        yield _remark(passages[clauses[act].at], clauses[act].text, hazard, late=late)


def _is_act(text: str, hazard: Hazard) -> bool:
    """Say whether a clause tells or, where the hazard is immediate, offers to do the act."""
    found = (_OFFER if hazard.immediate else _ACT).match(text)
    if found is None:
        return False
    done_to = found["object"]
    return any(re.search(rf"\b{re.escape(thing)}s?\b", done_to) for thing in hazard.things)


def _remark(passage: Passage, act: str, hazard: Hazard, *, late: bool) -> Remark:
    said = (
        "The caution comes after the act; it belongs before it."
        if late
        else "The draft has the act, and not the caution that belongs before it."
    )
    sentence = f"{hazard.caution} Then {act.removeprefix('then ').rstrip('.')}."
    return Remark(passage, "caution-late", sentence=sentence, said=said, proof=Quoted(hazard.facts))
