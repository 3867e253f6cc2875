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
_ACT = re.compile(
    r"(?:(?:then|now|next|first|finally|simply|just|carefully|please|you|we|let's|let us|can|may"
    r"|should|must|have to|need to|will|do) )*"
    r"(?:lift(?: out| off| up)?|pull(?: out| off| up)?|remove|take (?:out|off|away)|take"
    r"|slide(?: out)?|open|unseat|unclip|detach|replace|swap(?: out)?|change|fit|insert|exchange"
    r"|push(?: in)?|plug in|unplug|undo|release|unscrew)\b"
)


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
    acts = [number for number, clause in enumerate(clauses) if _ACT.match(clause.text)]
    for hazard in grounds.hazards:
        act = next((n for n in acts if _is_about(clauses[n].text, hazard)), None)
        if act is None or any(hazard.signs.search(each.text) for each in clauses[:act]):
            continue
        late = any(hazard.signs.search(each.text) for each in clauses[act:])
        yield _remark(passages[clauses[act].at], clauses[act].text, hazard, late=late)


def _is_about(text: str, hazard: Hazard) -> bool:
    return any(re.search(rf"\b{re.escape(thing)}s?\b", text) for thing in hazard.things)


def _remark(passage: Passage, act: str, hazard: Hazard, *, late: bool) -> Remark:
    said = (
        "The caution comes after the act; it belongs before it."
        if late
        else "The draft has the act, and not the caution that belongs before it."
    )
    sentence = f"{hazard.caution} Then {act.removeprefix('then ').rstrip('.')}."
    return Remark(passage, "caution-late", sentence=sentence, said=said, proof=Quoted(hazard.facts))
