"""The forms questions have, told by how they start."""

from __future__ import annotations

import re
from typing import Literal

Form = Literal[
    "is-it", "can-it", "why-not", "most", "least", "how-many-ways", "which", "where",
    "what-does-it-need", "what-if-it-fails", "together", "since-when", "what-changed", "fact",
]  # fmt: skip

_WE = r"(?:we|i|you|one|it)"
_WAYS = r"(?:ways|combinations|layouts|configurations|arrangements|possibilities|variants|options)"

_OPENINGS: tuple[tuple[str, Form], ...] = (
    ((r"how come\b|"
      r"why (?:can't|cannot|can not|does|do|is|are|not|isn't|won't|will|may|can|doesn't)\b"),
     "why-not"),
    (r"what (?:stops|keeps|prevents) (?:me|us|you|one|it) from\b", "why-not"),
    (r"how (?:many|much) more\b|how (?:many|much) .*\bmore than (?:the|its|in)\b", "what-changed"),
    (r"(?:at (?:the )?most,?|up to) how\b", "most"),
    ((r"what(?:'s| is)? (?:the )?(?:ship|ships|shipping|release|launch|"
      r"announcement|last order|order) "
     r"date\b"), "since-when"),
    (r"what (?:has|have) to be (?:fitted|there|installed)\b|what must be\b", "what-does-it-need"),
    (rf"what (?:can|could|may|do) {_WE} (?:put|fit|have|install|use|plug)\b", "which"),
    (r"how many .* (?:are|is) (?:needed|required|necessary)\b", "least"),
    (r"at (?:the )?least,? how\b", "least"),
    (r"how many (?:kinds?|types?|sizes?|models?) of\b", "how-many-ways"),
    (r"what (?:has |is |are )?(?:changed?|new|different)\b", "what-changed"),
    (rf"(?:in )?how many (?:different |possible )?(?:\w+ )?{_WAYS}\b", "how-many-ways"),
    (r"how many different\b", "how-many-ways"),
    (r"(?:since when|until when|till when|when|from when)\b", "since-when"),
    (r"(?:where|in which (?:slots?|zones?|places?)|into which (?:slots?|zones?))\b", "where"),
    (rf"what (?:do|does|would|will) {_WE} lose\b|what is lost\b", "what-if-it-fails"),
    (r"what (?:happens )?if\b|what happens (?:if|when)\b", "what-if-it-fails"),
    ((r"what (?:line |input )?voltage\b|what does .* (?:need|require|depend on)\b|"
     r"what do .* (?:need|require)\b|"
     r"what is (?:needed|required|necessary)\b|what else\b.*\bneed"), "what-does-it-need"),
    ((r"how (?:cheap|cheaply)\b|"
     r"what(?:'s| is)? (?:the )?(?:cheapest|least expensive|lowest price)\b"),
     "least"),
    (r"how few\b|how little\b|how many .* do (?:i|we|you) need\b", "least"),
    (r"what(?:'s| is| are)? (?:the )?(?:least|smallest|minimum|lowest|fewest)\b", "least"),
    (r"what does the cheapest\b|what does it cost at least\b", "least"),
    (r"how (?:many|much|fast|large|big)\b.*\bat (?:least|minimum)$", "least"),
    (r"how (?:many|much|fast|large|big)\b", "most"),
    (r"what(?:'s| is| are)? (?:the )?(?:most|largest|biggest|maximum|highest|greatest)\b", "most"),
    ((r"which\b|what (?:fits|goes|can be|can go|kinds? of|sizes? of|types? of)\b|"
     rf"what \w+(?: \w+)? (?:can|could|may) {_WE}\b|what \w+(?: \w+)? are (?:there|available)\b"),
     "which"),
)  # fmt: skip
"""How questions of each form start; the first that fits counts."""

_OPENERS = re.compile(
    r"(?i)^(?:how (?:many|much) more|(?:in )?how many (?:different |possible )?(?:ways|"
    r"combinations|layouts|configurations)(?: are there)?(?: to)?|"
    r"how many different|how many|how much|how fast|how large|how few|how little|how cheap|"
    r"what happens (?:if|when)|what if|what (?:do (?:we|i|you) lose|is lost)(?: (?:if|when))?|"
    r"what does the cheapest|what(?:'s| is)? (?:the )?(?=cheapest)|what(?:'s| is)? (?:the )?|"
    r"what kinds? of|which|where|since when|when|what|in which (?:slots?|zones?|places?))\s*"
)


def opening(text: str) -> Form:
    """Return the form a question has; one that yes or no answers has none of the openings."""
    folded = text.casefold().strip().rstrip("?").strip()
    for pattern, form in _OPENINGS:
        if re.match(pattern, folded):
            return form
    return "can-it"


def without_opening(text: str) -> str:
    """Return a question without the words that give its form."""
    asked = text.strip().rstrip("?")
    asked = re.sub(r"(?i)^how (many|much) (.+?) more than\b", r"how \1 more \2 than", asked)
    return _OPENERS.sub("", asked, count=1)


def positive(text: str) -> str:
    """Return a why-not question as the question whether it can be."""
    bare = re.sub(
        r"(?i)^what (?:stops|keeps|prevents) (?:me|us|you|one|it) from\s*", "you can fit ", text
    )
    bare = re.sub(
        r"(?i)^(you can) fit (?:fitting|having|using|taking|putting)\s+", r"\1 fit ", bare
    )
    bare = re.sub(r"(?i)^why (?:can't|cannot|can not|can|won't|may)\s+", "can ", bare)
    bare = re.sub(r"(?i)^why (?:does|do|is|are|isn't|will|doesn't|don't)\s+", "can ", bare)
    bare = re.sub(r"(?i)^why (?:is|isn't) it (?:not )?(?:im)?possible to\s+", "can you ", bare)
    bare = re.sub(r"(?i)^can it (?:not )?(?:im)?possible to\s+", "can you ", bare)
    bare = re.sub(r"(?i)^how come (.+?) (?:do|does|can|will) not (.+)$", r"can \1 \2", bare)
    bare = re.sub(r"(?i)^how come (.+?) (?:don't|doesn't|can't|cannot) (.+)$", r"can \1 \2", bare)
    bare = re.sub(r"(?i)^why not\s+", "can you have ", bare)
    bare = re.sub(r"(?i)\b(?:not\s+|im)possible\b", "possible", bare)
    return re.sub(r"(?i)\bnot\b\s*", "", bare)


_USE = r"(?:use|have|fit|run|get|reach|drive|install|add)"
_NEEDS = (
    r"(?i)^what (?:has|have) to be (?:fitted|there|installed) for (.+)$",
    r"(?i)^what must be (?:fitted|there|installed) for (.+)$",
    (
        r"(?i)^what (?:else )?(?:do|does|would|will) (?:i|we|you|one|it) (?:also )?"
        rf"(?:need|require) (?:for|to {_USE}|to (?:be|hang|stand|go)) (.+)$"
    ),
    rf"(?i)^what (?:else )?is (?:needed|required|necessary) (?:for|to {_USE}) (.+)$",
    r"(?i)^what (?:else )?(?:does|do|would|will) (.+?) (?:also )?(?:need|require|depend on)\b.*$",
)


def subject_of_need(text: str) -> str:
    """Return what a question asks the needs of."""
    bare = text.strip(" ?")
    matches = (re.match(pattern, bare) for pattern in _NEEDS)
    return next((found[1] for found in matches if found), bare)


def without_loss(text: str) -> str:
    """Return a question for a loss as one for a failure: is out becomes fails."""
    return re.sub(
        r"(?i)\b(?:(?:is|are|goes|gets) (?:out|missing|gone|dead|broken|down|"
        r"removed|not fitted|absent)|stops|stop|quits|gives up)\b",
        "fails", text,
    )  # fmt: skip


def with_choice(name: str, rest: str) -> str:
    """Return the statement that a choice makes of the rest of a question for it.

    >>> with_choice("zone A", "can hold drives"), with_choice("slot R1a", "can a card go in")
    ('zone A can hold drives', 'a card can go in slot R1a')
    """
    inside = re.match(r"(?i)^(?:can|could|may|does|do) (.+?) ((?:be )?\w+) (in|into)$", rest)
    if inside:
        return f"{inside[1]} can {inside[2]} in {name}"
    found = re.match(r"(?i)^(?:can|could|may|do|should) (?:i|we|you|one|it) (\w+)(.*)$", rest)
    return f"{name} can be fitted{found[2]}" if found else f"{name} {rest}"
