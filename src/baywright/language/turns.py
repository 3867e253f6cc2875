"""Further ways to say a thing of a build, tried where a sentence is not read as it stands.

As in ``paraphrases``, each line keeps every content word. Lines are tried in order, each on what
the lines before have left.
"""

from __future__ import annotations

import re

from baywright.language.tokens import NUMBER_WORDS

_WORD = "|".join(sorted(NUMBER_WORDS, key=len, reverse=True))
_NUMBER = rf"(?:\d[\d.,]*|(?:{_WORD})(?:-(?:{_WORD}))?)"
_AMOUNT = rf"{_NUMBER}(?: ?(?:GB|TB|W|kW|MT/s))?"
_WE = r"(?:you|we|I|they|it|one|the (?:machine|server|box|system|customer))"
_HAVE = (
    r"(?:have|get|take|choose|use|fit|order|want|pick|install|add|opt for|go for|decide for|put in)"
)
_PLACE = r"(?:zone [A-Z]|slot \w+|riser \d|switch board \d|R\d\w?)"
_NOUN = r"[A-Za-z][A-Za-z -]*?"
_CAN = r"(?:can|could|may)"
_NO_CAN = r"(?:cannot|can't|can not|could not|may not|must not)"
_LIMIT = r"(?:the )?(?:max(?:imum)?\.?|most|limit|upper limit|top|ceiling)"
_FLOOR = r"(?:the )?(?:min(?:imum)?\.?|least|lower limit|floor)"

HEADINGS = (
    (rf"^{_LIMIT} (?:number of |amount of )?({_NOUN}): ({_AMOUNT})$", r"at most \2 of \1"),
    (rf"^{_FLOOR} (?:number of |amount of )?({_NOUN}): ({_AMOUNT})$", r"at least \2 of \1"),
    (rf"^({_NOUN}), (?:max(?:imum)?\.?|at most): ({_AMOUNT})$", r"at most \2 of \1"),
    (rf"^({_NOUN}) \(?(?:max(?:imum)?\.?)\)?: ({_AMOUNT})$", r"at most \2 of \1"),
    (rf"^({_NOUN}) \(?(?:min(?:imum)?\.?)\)?: ({_AMOUNT})$", r"at least \2 of \1"),
    (rf"^({_NOUN}): ({_NUMBER} [a-z].*?),? (?:at most|max(?:imum)?\.?|tops)$",
     r"\1: at most \2"),
    (rf"^(?:memory|RAM): ((?:at most |up to )?{_NUMBER} (?:modules?|DIMMs?|sockets?)\b.*)$",
     r"\1"),
    ((rf"^(?:storage|drives?|disks?|bays?): ((?:at most |up to )?{_NUMBER} (?:[\w-]+ )*?"
     r"(?:drives?|disks?|bays?)\b.*)$"), r"\1"),
    ((rf"^(?:power|supplies|cooling|fans|slots|expansion|accelerators|network): "
     rf"((?:at most |up to )?{_NUMBER} [a-z].*)$"), r"\1"),
    (rf"^(?:up to|at most|max\.?|maximum) ({_AMOUNT})(?: of)? ({_NOUN})$", r"up to \1 \2"),
)  # fmt: skip
"""A heading and what stands under it."""

SUBJECTS = (
    ((r"\b(?:an?|any|every|each|no|some|the) <machine>"
      r"(?= (?:with|without|that|which|at|on|under)\b)"), r"a build"),
    (r"^(?:there is|there's) no (?:build|machine|server|box) (with|without|that has) (.+)$",
     r"no build \1 \2"),
    (r"\bwhat(?:'s| is) more, ", ""),
    (rf"^(.+?) (?:is|are) (?:what|all(?: that)?) {_WE} (?:needs?|requires?) for (.+)$",
     r"\2 needs \1"),
    (rf"^({_NUMBER}) is all the (.+?) (?:that )?{_WE} (?:can )?gets? (.+)$",
     r"at most \1 \2 fit \3"),
    (rf"^(.+?) (?:is|are) (?:all|the most)(?: that)? {_WE} (?:can )?{_HAVE}s?(?: in)?(.*)$",
     r"at most \1 can be fitted\2"),
    ((rf"^the (?:number|count|quantity) of ({_NOUN}) "
      rf"(?:is|may be|can be) (?:either )?({_NUMBER}) or "
     rf"({_NUMBER})$"), r"it can have \2 or \3 \1"),
    ((rf"^the (?:number|count|quantity|amount) of ({_NOUN}) (?:is|stands|comes|amounts)"
     rf"(?: always)?(?: at| to)? ({_AMOUNT})$"), r"it has \2 \1"),
    ((rf"^(.+?) (?:makes?|gives?(?: you)?|"
      r"yields?|brings?|equals?|adds? up to|comes? to|amounts? to|"
     rf"totals?) (a total of )?({_AMOUNT})(?: of memory| of RAM)?(?: in all| altogether)?$"),
     r"\1 have \3"),
    (r"\b(?:a|the) (?:choice|number|amount|quantity|total|set|row|handful) of (?=\d)", ""),
)  # fmt: skip
"""Who or what is spoken of."""

CHOICES = (
    ((rf"^{_WE} (?:must|have to|has to|need to|needs to) (?:choose|decide|pick) between (.+?) and "
      r"(.+)$"), r"\1 excludes \2"),
    (r"^(?:it|it's|it is) (?:is )?either (.+?) or (.+)$", r"\1 excludes \2"),
    ((rf"^(?:choosing|taking|using|fitting|having|installing|picking|ordering|adding|putting|"
      rf"going for|opting for) (.+?) (?:for|in|into) "
      rf"({_PLACE}) (rules? out|excludes?|costs?(?: you)?"
      r"|means? (?:no|giving up|losing|doing without)|blocks?|prevents?) (.+)$"),
     r"\1 in \2 excludes \4"),
    ((r"^(?:choosing|taking|using|fitting|having|installing|picking|ordering|adding|going for|"
      r"opting for) (.+?) (?:rules? out|excludes?|costs?(?: you)?|means? (?:no|giving up|losing|"
      r"doing without)|blocks?|prevents?) (.+)$"), r"\1 excludes \2"),
    ((r"^(?:choosing|taking|using|fitting|having|installing|picking|ordering|adding|going for|"
      r"opting for) (.+?) (?:needs?|requires?|calls? for|takes?|demands?) (.+)$"), r"\1 needs \2"),
    ((rf"^(.+?) (?:is|are) (?:not possible|impossible|out|not available|unavailable|gone|lost|"
      rf"off the "
     rf"table) (?:if|when|once|as soon as|with) (?:{_WE} {_HAVE} )?(.+?)(?: (?:is|are) "
     r"(?:fitted|used|installed|there|present|chosen))?$"), r"\2 excludes \1"),
    ((rf"^(?:if|when|once|as soon as) (?:{_WE} {_HAVE} )?(.+?)(?: (?:is|are) (?:fitted|used|"
      r"installed|there|present|chosen))?, (.+?) (?:is|are) (?:not possible|impossible|out|not "
      r"available|unavailable|gone|lost|off the table)$"), r"\1 excludes \2"),
    ((r"^(.+?) (?:and|plus|with|alongside|together with) (.+?) (?:together |at the same time )?"
     r"(?:is|are|will) not (?:be )?(?:possible|work|go|allowed|an option)(?: together)?$"),
     r"\1 excludes \2"),
    (rf"^{_WE} {_NO_CAN} have both (.+?) and (.+)$", r"\1 excludes \2"),
    ((rf"^{_WE} {_NO_CAN} (?:combine|pair) (?!\d[\d.,]* ?(?:GB|TB|W)\b (?:and|with))(.+?) "
      r"(?:and|with) (.+)$"), r"\1 excludes \2"),
)  # fmt: skip
"""One or the other."""

NEEDS = (
    (r"^(?:more than|over|beyond) (.+?) (?:call|calls|ask|asks) for (.+)$",
     r"more than \1 need \2"),
    ((r"^without (.+?),? (.+?) (?:is|are|will be) (?:out|impossible|not possible|unavailable|not "
     r"available|unusable|useless|dead|dark|off limits)$"), r"\2 needs \1"),
    ((r"^(.+?) (?:stays?|remains?|is|are|goes) (?:dark|dead|useless|unusable|unavailable|"
     r"out of action|closed|out of use|inactive|idle|off|out|unpowered|unusable) without (.+)$"),
     r"\1 needs \2"),
    ((r"^(?:only|just) (?:with|when|if|once) (.+?)"
      r"(?: (?:is|are) (?:fitted|there|installed|present))?"
     r",? (?:can|do|does|will|is|are|may) (.+?) (?:be )?(?:used|available|possible|work|fit|open|"
     r"usable|fitted|go)$"), r"\2 needs \1"),
    ((r"^(.+?) (?:is|are|becomes?|comes?) (?:only )?(?:alive|usable|available|active|possible|"
     r"accessible) (?:only )?(?:with|once|when|after|if) (.+?)(?: (?:is|are|has been|is being) "
     r"(?:fitted|added|installed|there|present|in))$"), r"\1 needs \2"),
    ((rf"^(?:the|an?) controller for (?:the )?(?:drives in )?({_PLACE}) (?:must|has to|needs to) "
     rf"(?:sit|be|go|be placed|be fitted|live|be installed|plug) in(?:to)? ({_PLACE})$"),
     r"SAS drives in \1 need a controller in \2"),
)  # fmt: skip
"""What is needed."""

LIMITS = (
    ((rf"\bnothing (?:faster|more|higher|greater) than ({_AMOUNT}) (?:is )?(?:possible|works|fits|"
     r"goes)"), r"at most \1 is possible"),
    (rf"\b({_AMOUNT}) (?:is|are) (?:reached|achieved|attained|obtained) (?:with|by|using) ",
     r"\1 is possible with "),
    ((rf"^(.+?) (?:is|are) the (?:biggest|largest|most|highest|maximum)(?: that)?(?: {_WE} can "
     rf"{_HAVE})?$"), r"at most \1"),
    ((rf"^any number of ({_NOUN}) (?:from|between) ({_NUMBER}) (?:to|and) ({_NUMBER}) (?:is|are) "
     r"(?:possible|allowed|fine|ok)$"), r"it can have between \2 and \3 \1"),
    ((rf"^the smallest (?:build|machine|configuration|version)(?: (?:that )?{_WE} can {_HAVE})? "
     rf"(?:has|comes with|holds|starts with|contains|takes) ({_AMOUNT})(?: of memory| of RAM)?$"),
     r"the smallest memory is \1"),
    ((rf"^the (?:biggest|largest) (?:build|machine|configuration|version)"
     rf"(?: (?:that )?{_WE} can {_HAVE})? "
     rf"(?:has|comes with|holds|contains|takes) ({_AMOUNT})(?: of memory| of RAM)?$"),
     r"the largest memory is \1"),
    (r",? (?:and )?(?:never|not|no) (?:fewer|less)$", ""),
    (r"\b(?:find|finds) (?:a home|a place|room|space|place) ", "fit "),
)  # fmt: skip
"""The most and the least."""

PLACES = (
    ((rf"^only ({_PLACE}) (?:accepts?|takes?|holds?|fits?|supports?|has|can (?:hold|take|accept)) "
     r"(.+)$"), r"\2 fits in \1 only"),
    ((rf"^(.+?) (?:goes|go|fits?|sits?|belongs?|works?) (in|into) ({_PLACE}) and (?:nowhere else|"
     r"(?:in )?no other (?:zone|slot|riser|place))$"), r"\1 fits in \3 only"),
    ((rf"^with (.+?), only ({_PLACE}) (?:can be used|is usable|works|is available|"
      r"is open|is alive)$"), r"with \1, cards fit in \2 only"),
    ((r"\b(?:any|every|each) (zone|slot) (?:can|may) be left "
      r"(?:without (?:any )?(?:drives?|cards?)|"
     r"empty|free|blank)\b"), r"every \1 can stay empty"),
    (r"^(zones|slots) (can|may) be left (?:empty|free|blank|without (?:any )?(?:drives?|cards?))$",
     r"all \1 \2 stay empty"),
    (rf"^(.+?), (?:and |plus )({_NUMBER} .+?) (?:on top|in addition|as well|besides|too)$",
     r"\1 and \2"),
    (rf"\b({_NUMBER}) to (?:a|each|every|one) (channel|processor|zone)\b", r"\1 per \2"),
    ((rf"\b({_NUMBER}) (modules?|DIMMs?|drives?) (?:on|in|to|at|for) (?:a|one|each|every) (channel|"
     r"processor)\b"), r"\1 \2 per \3"),
)  # fmt: skip
"""Where things go."""

LINES = (*HEADINGS, *SUBJECTS, *CHOICES, *NEEDS, *LIMITS, *PLACES)
"""What is rewritten, as regular expressions, and what comes instead."""


def turned(text: str, names: tuple[str, ...] = ()) -> str:
    """Return a sentence with further turns of phrase rewritten.

    Args:
        text: the sentence.
        names: what the machine is called.

    >>> turned("Max. memory: 4 TB.")
    'up to 4 TB memory.'
    >>> turned("Riser 3 stays dark without the second processor.")
    'Riser 3 needs the second processor.'
    """
    body = text.rstrip(".!")
    end = text[len(body) :]
    machine = f"(?:{'|'.join(sorted(map(re.escape, names), key=len, reverse=True)) or '(?!)'})"
    for pattern, instead in LINES:
        body = re.sub(pattern.replace("<machine>", machine), instead, body, flags=re.IGNORECASE)
    return f"{body}{end}"
