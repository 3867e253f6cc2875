"""Ways to ask that come to the same as one the forms of questions know."""

from __future__ import annotations

import re

_WE = r"(?:we|i|you|one|it|the machine)"
_ROOM = r"(?:room|space|place)"
_EXPANDED = r"(?:expanded|extended|upgraded|increased|go|grow|scale)"

LINES: tuple[tuple[str, str], ...] = (
    # Courtesies
    ((r"^(?:please )?(?:tell me|give me|let me know|i need to know|i would like to know|"
     r"do you know|"
     r"(?:can|could) you (?:please )?tell me)(?: please)?,? (?=the\b)"), "what is "),
    ((r"^(?:please )?(?:tell me|let me know|i need to know|i would like to know|do you know|"
     r"(?:can|could) you (?:please )?tell me)(?: please)?,? (?:if|whether) "), "is it true that "),
    ((r"^(?:please )?(?:tell me|let me know|do you know|(?:can|could) you (?:please )?tell me)"
     r"(?: please)?,? (?=how|what|which|where|when|why)"), ""),
    # Yes or no
    (r"^(?:is it|am i) (?:true|correct|right)(?: that| in saying that| if)? ", ""),
    ((r"^(?:is there )?(?:any|a) (?:chance|way|possibility) (?:of|to) "
     r"(?:fitting|having|getting|using|putting in|fit|have|get|use|put in) "), "can you have "),
    (r"^(?:i|we|they) (?:only )?(?:have|use|run|own) (.+?)[.;,:]+ (?=can|could|do|is|will|may)",
     r"with \1, "),
    # Why not
    (r"^for (?:what|which) reason\b", "why"),
    (rf"^why is there no {_ROOM} for ", "why can't i have "),
    (rf"^why (?:must|do|does|should) {_WE} (?:have to )?(?:leave out|do without|give up|lose) ",
     "why can't i have "),
    # The most and the least
    (r"\b(?:at|as) (?:a|the) minimum\b", "at least"),
    (r"\b(?:at|as) (?:a|the) maximum\b", "at most"),
    (rf"^how far (?:can|may) (?:the )?(.+?) (?:be )?{_EXPANDED}$", r"what is the most \1"),
    (r"^what(?:'s| is) the (?:limit|maximum|ceiling|cap) (?:for|on) (?:the )?(?=memory\b)",
     "how much "),
    (r"^what(?:'s| is) the (?:limit|maximum|ceiling|cap) (?:for|on) (?:the )?", "how many "),
    (r"^with how (little|few|many|much) ", r"how \1 "),
    # Which and where
    (r"^which (?:parts|things|items)\b", "what"),
    (r"^what are (?:the|my|our) (?:options|choices|possibilities) (?:for|in) ", "what can be in "),
    (r"^what (?:are|is) (?:the )?(?:available|possible|offered) ", "which "),
    (r"^(?:in|into|at) which (?:slots?|zones?|places?|positions?|risers?)\b", "where"),
    # Needs, losses and days
    (r"^what (?:is|are) the (?:preconditions?|requirements?|prerequisites?) (?:for|of) ",
     "what is needed for "),
    (rf"^what (?:happens )?(?:if|when) {_WE} loses? (.+)$", r"what if \1 fails"),
    (r"^what (?:happens )?(?:if|when) there is no (.+)$", r"what if \1 fails"),
    (r"^(since|from|until) (?:which|what) (?:day|date)\b", r"\1 when"),
    (r"^(?:on|at) (?:which|what) (?:day|date)\b", "when"),
)  # fmt: skip
"""What is rewritten, as regular expressions, and what comes instead."""

_COMPILED = tuple((re.compile(pattern, re.IGNORECASE), instead) for pattern, instead in LINES)


def plainly(question: str) -> str:
    """Return a question with its turns of phrase rewritten.

    >>> plainly("Could you tell me the maximum number of drives?")
    'what is the maximum number of drives'
    """
    asked = " ".join(question.split()).rstrip(" ?.!")
    for pattern, instead in _COMPILED:
        asked = pattern.sub(instead, asked)
    return asked
