"""Ways to say a thing that come to the same as one the grammar reads.

Each line rewrites a turn of phrase and keeps every content word, so that what is not understood
stays so. Lines are tried in order, each on what the lines before have left.
"""

from __future__ import annotations

import re
from functools import cache

_NUMBER = r"(?:\d[\d.,]*|[a-z]+(?:-[a-z]+)?)"
_MACHINE = r"(?:machine|server|box|system|host|build|configuration|unit|one)"
_SETS = r"(?:equipped|fitted|configured|populated|built|loaded|filled|ordered|delivered)"
_WE = r"(?:you|we|they|it|one|the (?:machine|server|box|system|customer))"
_OWN = r"(?:has|have|needs?|wants?|takes?|uses?|fits?|chooses?|orders?|installs?|gets?)"
_GIVE_UP = (
    r"(?:(?:has to|have to|must|will have to) )?(?:do|does|go|goes) without|"
    r"(?:(?:has to|have to|must|will have to) )?(?:give|gives) up|loses?|forgoe?s?|"
    r"(?:cannot|can't|can not|must not) have"
)
_WHEN = r"(?:if|when|once|as long as|as soon as|provided(?: that)?|where|in case)"
_THERE = r"(?:there|in place|on board|on hand|built in)"

LINES: tuple[tuple[str, str], ...] = (
    # Amounts
    (r"\bhalf a (terabyte|TB|kilowatt|kW|metre|dozen)\b", r"0.5 \1"),
    (r"\b0\.5 dozen\b", "6"),
    (r"\ba quarter of a (terabyte|TB)\b", r"0.25 \1"),
    (r"\bthree quarters of a (terabyte|TB)\b", r"0.75 \1"),
    (r"\bone and a half (terabytes?|TB|kilowatts?|kW)\b", r"1.5 \1"),
    (r"\btwo and a half (terabytes?|TB|kilowatts?|kW)\b", r"2.5 \1"),
    (r"\b(?:a|one) (terabyte|kilowatt)\b", r"1 \1"),
    (r"(\d[\d.,]* ?[TG]B) raw\b(?! (?:capacity|storage))", r"\1 of raw capacity"),
    (r"\braw (?:capacity of )?((?:up to |at most )?\d[\d.,]* ?[TG]B)\b", r"\1 of raw capacity"),
    (
        r"(\d[\d.,]* ?k?W) (?:together|in total|between them|as a pair|jointly|in all|combined)\b",
        r"a total of \1",
    ),
    # A heading and its number
    (
        (rf"^([A-Za-z][A-Za-z -]*?): ((?:up to|at most|at least|no more than|maximum|max\.?|"
        rf"exactly)? ?{_NUMBER}(?: ?(?:GB|TB|W|kW))?)$"),
        r"\2 of \1",
    ),
    (rf"^([A-Za-z][A-Za-z -]*?): ({_NUMBER}(?: ?(?:GB|TB|W|kW))?) (at most|max\.?|maximum|tops)$",
     r"at most \2 of \1"),
    (rf"^([A-Za-z][A-Za-z -]*?): ({_NUMBER}(?: ?(?:GB|TB|W|kW))?) (at least|minimum|min\.?)$",
     r"at least \2 of \1"),
    # Ranges
    (rf"\b(?:anywhere |anything )?from ({_NUMBER}) (?:up )?to ({_NUMBER}) (?=[a-z])",
     r"between \1 and \2 "),
    # What is needed
    (r"^no (.+?) (?:is|are) (?:needed|required|necessary) for (.+)$", r"\2 not needs \1"),
    (r"^(.+?) (?:is|are) not (?:needed|required|necessary) for (.+)$", r"\2 not needs \1"),
    (r"^(.+?) (?:is|are) (?:needed|required|necessary|a must) for (.+)$", r"\2 needs \1"),
    (r"^no (.+?) (?:is|are) (?:needed|required|necessary)$", r"It can run without \1"),
    (r"^(.+?) (?:is|are) (?:always )?(?:needed|required|necessary|a must|mandatory|compulsory)$",
     r"It needs \1"),
    # Limits
    (
        (r"\b(?:top|max|peak|cap)(?:s|es)? out at|"
        r"\b(?:is|are) (?:limited|restricted|capped|confined) to|"
        r"\b(?:stops?|ends?|peaks?) at|\b(?:cannot|can't|does not|doesn't) (?:go|grow|reach) "
        r"(?:beyond|past|above|over|further than)|\b(?:has|have) (?:a|its) (?:limit|ceiling) of"),
        "takes at most",
    ),
    (r"\b(?:starts?|begins?) (?:at|from)\b(?! (?:processor|zone|slot))", "takes at least"),
    # There being none, and one in place of another
    (
        (r"\b(?:there is|there's|there are|it has|has|have|offers|leaves) no (?:room|space|place|"
        r"provision) for (?:an? |any )?"),
        "cannot take ",
    ),
    (r"\bthere is no such thing as\b", "there is no"),
    (r"\b(?:instead|in place|in lieu) of\b|\brather than\b", "without"),
    (r"\bneither (?!of\b)(.+?) nor (.+)", r"no \1 and no \2"),
    (r"^no (slot|zone|riser|switch board|processor) (takes?|holds?|accepts?|supports?)\b",
     r"every \1 not \2"),
    # One or the other
    (
        (rf"^(?:{_WE} (?:can )?(?:get|have|take|choose|fit|order)s? )?(?:either )?(.+?) or (.+?),? "
        r"(?:but )?(?:never|not) (?:both|the two|together|both together|both at once)$"),
        r"\1 excludes \2",
    ),
    (
        (r"^(?:whoever|anyone who|those who|customers who|if you|if we) "
        rf"{_OWN} (.+?),? (?:you |we |they )?(?:{_GIVE_UP}) (.+)$"),
        r"\1 excludes \2",
    ),
    (r"\bshares? (?=(?:zone|slot|riser|one|the same|an?)\b)", "go together in "),
    # Conditions
    (rf"\bonly {_WHEN} there (?:is|are)\b", "only with"),
    (rf"\b{_WHEN} there (?:is|are)\b", "with"),
    ((rf"\b{_WHEN} (?:only |just )?{_WE} (?:only |just )?(?:has|have|needs?|wants?|takes?|uses?|"
     r"fits?|chooses?|orders?|installs?) (?!to\b)(?:to have )?"), "with "),
    (
        (rf"\b{_WHEN} ((?:zone|slot|riser) \w+) (?:holds?|takes?|carries|has|contains?|is filled "
        r"with|is used for) (.+?)(?=,|$)"),
        r"with \2 in \1",
    ),
    (rf"\b(is|are) {_THERE}(?=,|$)", r"\1 fitted"),
    (rf"\b({_MACHINE}s?) (?:that (?:is|are) |which (?:is|are) )?{_SETS} with\b", r"\1 with"),
    (rf"\b({_MACHINE}s?) (?:that|which) (?:has|have|uses?|takes?|holds?|carry|carries)\b",
     r"\1 with"),
    (
        (r"\b(?:that|which) (?:go|goes|sit|sits|fit|is|are)(?: fitted| installed| placed| mounted|"
        r" housed)? (?=(?:in|into|at)\b)"),
        "",
    ),
    (r"\b(?:made up|made|consisting|composed|built up) (?:of|from|out of)\b", "with"),
    (r"\btakes? up (?!to\b)", "occupies "),
    # Enough for
    ((r"\b(?:is|are) (?:enough|sufficient) "
     r"(?:for|to (?:drive|run|serve|hold|reach|get|take|have))\b|"
      r"\bsuffices? (?:for|to (?:drive|run|serve|hold|reach))\b|\bwill do for\b"), "can take"),
)  # fmt: skip
"""What is rewritten, as regular expressions, and what comes instead."""


@cache
def _compiled() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(pattern, re.IGNORECASE), instead) for pattern, instead in LINES)


def plain(text: str) -> str:
    """Return a sentence with its turns of phrase rewritten, white space folded.

    >>> plain("Drives: up to 24.")
    'up to 24 of Drives.'
    >>> plain("The machine tops out at 4 TB.")
    'The machine takes at most 4 TB.'
    """
    folded = " ".join(text.split())
    body = folded.rstrip(".!")
    end = folded[len(body) :]
    for pattern, instead in _compiled():
        body = pattern.sub(instead, body)
    return f"{' '.join(body.split())}{end}"
