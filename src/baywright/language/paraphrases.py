"""Ways to say a thing that come to the same as one the grammar reads.

Each line rewrites a turn of phrase and keeps every content word, so that what is not understood
stays so. Lines are tried in order, each on what the lines before have left.
"""

from __future__ import annotations

import re
from functools import cache

from baywright.language.tokens import NUMBER_WORDS
from baywright.language.trade import WORDS

_WORD = "|".join(sorted(NUMBER_WORDS, key=len, reverse=True))
_NUMBER = rf"(?:\d[\d.,]*|(?:{_WORD})(?:-(?:{_WORD}))?)"
_AMOUNT = rf"{_NUMBER}(?: ?(?:GB|TB|W|kW))?"
_NAME = "<machine>"
_MACHINE = rf"(?:machine|server|box|system|host|build|configuration|{_NAME})"
_SETS = r"(?:equipped|fitted|configured|populated|built|loaded|filled|ordered|delivered)"
_WE = r"(?:you|we|I|they|it|one|the (?:machine|server|box|system|customer))"
_OWN = (
    r"(?:has|have|needs?|wants?|takes?|uses?|fits?|chooses?|orders?|installs?|gets?|stays? with|"
    r"sticks? (?:with|to)|settles? for|goes for|go for|opts? for|puts?(?: in)?|adds?|builds? in|"
    r"buys?|picks?|populates?|configures?)"
)
_PUT = (
    r"(?:put in|put|fit|install|add|choose|take|order|use|pick|populate|build in|plug in|get|buy)"
)
_GIVE_UP = (
    r"(?:(?:has to|have to|must|will have to) )?(?:do|does|go|goes) without|"
    r"(?:(?:has to|have to|must|will have to) )?(?:give|gives) up|loses?|forgoe?s?|"
    r"(?:cannot|can't|can not|must not) have"
)
_WHEN = r"(?:if|when|once|as long as|as soon as|provided(?: that)?|where|in case|whenever)"
_THERE = r"(?:there|in place|in|on board|on hand|built in)"
_MOST = (
    r"(?:most|largest|smallest|biggest|highest|lowest|least|fewest|maximum|minimum|greatest|"
    r"lowest|limit|ceiling)"
)
_EXCLUSIVE = (
    r"(?:are mutually exclusive|exclude (?:each other|one another)|rule (?:each other|one another) "
    r"out|(?:do|can) ?not (?:coexist|live together)|are (?:incompatible|alternatives)|cannot both "
    r"be (?:had|fitted|used|installed|present))"
)
_KIND = r"(?:accelerators?|drives?|modules?|cards?|slots?|supplies|processors?|controllers?|fans?)"
_PLACE = r"(?:the )?(?:zones?|slots?|risers?|switch board)\b"
_VERB = r"(?:fits?|goes|go|works?|runs?|sits?|is possible|are possible|is available|are available)"

AMOUNTS = (
    (r"\bhalf a (terabyte|TB|kilowatt|kW|metre|dozen)\b", r"0.5 \1"),
    (r"\b0\.5 dozen\b", "6"),
    (r"\ba quarter of a (terabyte|TB)\b", r"0.25 \1"),
    (r"\bthree quarters of a (terabyte|TB)\b", r"0.75 \1"),
    (r"\bone and a half (terabytes?|TB|kilowatts?|kW)\b", r"1.5 \1"),
    (r"\btwo and a half (terabytes?|TB|kilowatts?|kW)\b", r"2.5 \1"),
    (r"\b(?:a|one) (terabyte|kilowatt)\b", r"1 \1"),
    ((r"\b((?:modules?|DIMMs?)(?: of \d[\d.,]* ?GB)?),? (?:that is |which is |or )?"
      r"(\d[\d.,]* ?[TG]B) "
     r"(?:in all|in total|altogether|all told)$"), r"\1 and \2 of memory"),
    (r"(\d[\d.,]* ?[TG]B) raw\b(?! (?:capacity|storage))", r"\1 of raw capacity"),
    (r"\braw (?:capacity of )?((?:up to |at most )?\d[\d.,]* ?[TG]B)\b", r"\1 of raw capacity"),
    (r"(\d[\d.,]* ?k?W) (?:together|in total|between them|as a pair|jointly|in all|combined)\b",
     r"a total of \1"),
    (r"\ba pair of (.+?) (?:carries|carry|gives|supplies|delivers) (\d[\d.,]* ?k?W)$",
     r"two \1 carry a total of \2"),
    (rf"\b(?:anywhere |anything )?from ({_NUMBER}) (?:up )?to ({_NUMBER}) (?=[a-z])",
     r"between \1 and \2 "),
)  # fmt: skip
"""Amounts as they are spoken."""

_SORT = "|".join(
    phrase.replace(" ", "[ -]")
    for listed in WORDS["filter"].values()
    for phrase in listed.split(", ")
)

HEADINGS = (
    (rf"^([A-Za-z][A-Za-z -]*?): ({_NUMBER}(?:(?:, | or | and |, or ){_NUMBER})+)$", r"\2 \1"),
    ((rf"^([A-Za-z][A-Za-z -]*?): ((?:up to|at most|at least|no more than|maximum|max\.?|"
     rf"exactly)? ?{_AMOUNT})$"), r"\2 of \1"),
    (rf"^([A-Za-z][A-Za-z -]*?): ({_AMOUNT}) (?:at most|max\.?|maximum|tops)$",
     r"at most \2 of \1"),
    (rf"^([A-Za-z][A-Za-z -]*?): ({_AMOUNT}) (?:at least|minimum|min\.?)$", r"at least \2 of \1"),
)  # fmt: skip
"""A heading and its number."""

NEEDS = (
    ((r"^(.+?) (?:is|are) (?:needed|required|necessary) ((?:on|in|with|at|if|when|as soon as|once) "
     r".+)$"), r"\2 it needs \1"),
    (r"^no (.+?) (?:is|are) (?:needed|required|necessary) for (.+)$", r"\2 not needs \1"),
    (r"^(.+?) (?:is|are) not (?:needed|required|necessary) for (.+)$", r"\2 not needs \1"),
    (r"^(.+?) (?:is|are) (?:needed|required|necessary|a must) for (.+)$", r"\2 needs \1"),
    (r"^no (.+?) (?:is|are) (?:needed|required|necessary)$", r"It can run without \1"),
    ((r"^(.+?) (?:is|are) not (?:always )?(?:needed|required|necessary|a must|mandatory|compulsory|"
     r"obligatory)$"), r"It can run without \1"),
    (r"^(.+?) (?:is|are) (?:always )?(?:needed|required|necessary|a must|mandatory|compulsory)$",
     r"It needs \1"),
    ((rf"^{_WE} (?:needs?|requires?) (?!to\b)(.+?) (?:for|to (?:use|have|fit|run|get|reach|drive|"
     r"hold|connect)) (.+)$"), r"\2 needs \1"),
    ((rf"^(?:for|to (?:use|have|fit|run|get|reach|drive|hold|connect)) (.+?),? {_WE} "
     r"(?:needs?|requires?) (.+)$"), r"\1 needs \2"),
    (rf"^{_PUT} (.+?),? and {_WE} needs? (.+)$", r"\1 needs \2"),
    (rf"^{_PUT} (.+?),? and {_WE} (?:will )?(?:have|has|gets?|reach(?:es)?) (.+)$",
     r"given \1, it has \2"),
    (r"^(.+?) (?:means?|implies|imply) (.+)$", r"given \1, it has \2"),
    ((r"\b(?:is|are) (?:enough|sufficient) "
     r"(?:for|to (?:drive|run|serve|hold|reach|get|take|have))\b|"
     r"\bsuffices? (?:for|to (?:drive|run|serve|hold|reach))\b|\bwill do for\b"), "can take"),
    (r"\b(?:does|do|goes|gets? by|manages?|functions?) without\b", "run without"),
    (r"\b(?:leave out|leave off|omit|dispense with)\b", "run without"),
    (r"\b(?:leave|take) (.+?) (?:out|off|away)\b", r"run without \1"),
    (rf"\b(?:mount|hang|put|place|stand) (?:it|{_NAME}|(?:the|an?) {_MACHINE}) (on|in|at)\b",
     r"run \1"),
    ((rf"\b(run|build|order|buy|use|configure|operate|start) (?:it|{_NAME}|(?:the|an?) {_MACHINE}) "
     r"(with|without|on|at|from)\b"), r"run \2"),
)  # fmt: skip
"""What is needed, and what will do."""

LIMITS = (
    (r",? (?:no more(?:,| and) no less|neither more nor less)$", ""),
    (r",? (?:and |but )?no more$", " and no more"),
    ((r"\b(?:top|max|peak|cap)(?:s|es)? out at|"
     r"\b(?:is|are) (?:limited|restricted|capped|confined) to|"
     r"\b(?:stops?|ends?|peaks?) at|\b(?:cannot|can't|does not|doesn't) (?:go|grow|reach|get) "
     r"(?:beyond|past|above|over|further than)|\b(?:has|have) (?:a|its) (?:limit|ceiling) of"),
     "takes at most"),
    (r"\b(?:starts?|begins?) (?:at|from)\b(?! (?:processor|zone|slot))", "reaches at least"),
    ((rf"^(.+?) (?:goes|ranges|runs|extends|scales|can go|varies|spans|reaches) "
     rf"(?:from )?({_AMOUNT}) (?:up )?to ({_AMOUNT})$"), r"\1 is at least \2 but \1 is at most \3"),
    ((rf"\b({_MOST}\b[^,.]*?) (?:that )?(?:you|we|one|customers|it|the machine) "
     r"(?:(?:can|could|may) )?(?:order|get|have|fit|"
     r"buy|install|choose|take|put in|use|takes|holds|supports|reaches)"
     r"(?= (?:is|are|in|with|at|on|here)\b|$)"), r"\1"),
    (r"^(.+?) (?:takes?|brings?|gets?) (?:you|it|the machine) (?:up )?to (.+)$",
     r"given \1, it takes up to \2"),
    ((r"\b(?:there(?:'s| is| are)|(?:you|it) (?:gets?|finds?)) (?:enough |also )?(?:room|space|"
     r"place) (?:for|to fit|to have)\b"), "it can take"),
    (r"^(?:you (?:can )?)?(?:choose|pick|select)(?: between| from| among)? (?=.*(?: or | and ))",
     "It can take "),
)  # fmt: skip
"""The most, the least, and what there is room for."""

DENIALS = (
    ((r"\b(?:there is|there's|there are|it has|has|have|offers|leaves) no (?:room|space|place|"
     r"provision) for (?:an? |any )?"), "cannot take "),
    ((r"(?<!never )(?<!not )\b(?:comes?|ships?|is delivered|are delivered|is sold|arrives?) "
      r"without (?:an? |any )?"),
     "has no "),
    ((r"\b(?:is|are) (?:out of reach|off limits|closed|unavailable|not available|not open|"
     r"not meant) (?:for|to)\b"), "cannot take"),
    ((r"\b(?:is|are) (?:out of reach|out of the question|impossible|not an option|ruled out|"
     r"unavailable)$"), "is not possible"),
    (r"\bthere is no such thing as\b", "there is no"),
    (r"\b(?:instead|in place|in lieu) of\b|\brather than\b", "without"),
    (r"\bneither (?!of\b)(.+?) nor (.+)", r"no \1 and no \2"),
    (r"^no (slot|zone|riser|switch board|processor) (takes?|holds?|accepts?|supports?)\b",
     r"every \1 not \2"),
    (rf"^(.+?) ({_VERB}) (in|into) ((?:{_PLACE}).*?),? but not (?:\3 )?((?:{_PLACE}).*)$",
     r"\1 \2 \3 \4 but \1 not \2 \3 \5"),
    ((rf"^(every|each|all|no|some)(?: single)? (?:{_MACHINE}|machines|servers|boxes|systems) "
     r"(?=has|have|takes?|holds?|needs?|comes?|contains?|runs?|is|are)"), r"\1 build "),
)  # fmt: skip
"""What is not there, and what comes instead."""

CHOICES = (
    ((rf"^(?:{_WE} (?:can )?(?:get|have|take|choose|fit|order)s? )?(?:either )?(.+?) or (.+?),? "
     r"(?:but )?(?:never|not) (?:both|the two|together|both together|both at once)$"),
     r"\1 excludes \2"),
    ((rf"^(?:whoever|anyone who|those who|customers who|if you|if we) {_OWN} (.+?),? "
     rf"(?:you |we |they )?(?:{_GIVE_UP}) (.+)$"), r"\1 excludes \2"),
    ((rf"^{_WE} (?:{_GIVE_UP}) (.+?) (?:if|when|once|with|by) (?:you |we )?"
     rf"(?:{_OWN} |fitting |using |putting )?(.+)$"), r"\2 excludes \1"),
    (rf"^{_PUT} (.+?),? and {_WE} (?:{_GIVE_UP}) (.+)$", r"\1 excludes \2"),
    (rf"^(.+?) and (.+?) {_EXCLUSIVE}$", r"\1 excludes \2"),
    (r"\b(and [^,]+?) both (?=(?:can|be|are|fit|go|have|run|work)\b)", r"\1 "),
    (r"\bboth (?=(?:be|fit|go|have|run|work)\b)", ""),
    ((r"^(.+?) (can|cannot|can't|may) be (?:joined|accompanied|supplemented|complemented|paired|"
     r"combined|teamed|mixed) (?:by|with) (.+)$"), r"\1 and \3 \2 be combined"),
    (r"\bshares? (?=(?:(?:one|the same|an?) )?(?:zone|slot|riser)\b)", "go together in "),
    (r"^(?:both )?zones (\w) and (\w) (?:can )?share (.+)$", r"\3 can serve zones \1 and \2"),
)  # fmt: skip
"""One or the other."""

ARRAYS = (
    ((rf"\b(?:split|divide|group|arrange) (?:all )?(?:{_NUMBER} )?(?:({_SORT}) )?drives into "
     rf"({_NUMBER}) arrays of ({_NUMBER})(?: drives)?(?: each)?"),
     r"have \2 arrays of \3 \1 drives"),
    ((rf"^(?:all )?(?:{_NUMBER} )?(?:({_SORT}) )?drives (can|cannot|can't|may) be (?:split|divided|"
     rf"grouped|arranged) into ({_NUMBER}) arrays of ({_NUMBER})(?: drives)?(?: each)?"),
     r"\3 arrays of \4 \1 drives \2 be fitted"),
    ((r"\b(?:an? |one )?(?:single |large )?array (?:out of|made of|from|with|over|across|spanning) "
     r"(?:all )?"), "an array of "),
)  # fmt: skip
"""Arrays of drives."""

CONDITIONS = (
    (r"\b(\d(?:\.\d+)? [TG]B(?: of memory)? )at (\d{4})(?= |$)(?! ?[A-Z])", r"\1at \2 MT/s"),
    ((rf"^with one (processor|CPU),? (.+? )({_NUMBER}) (\w+),? (?:and )?with two,? "
     rf"(?:there are |it has |you get )?({_NUMBER})$"),
     r"with one \1 \2\3 \4 but with two \1s \2\5 \4"),
    (r"\b(?<!only )with ([^,]+?) only$", r"only with \1"),
    (r"\b(either|each|both|all) of (?:the )?(?=(?:zones?|slots?|risers?)\b)", r"\1 "),
    (rf"\b({_SORT}) (or|and) ({_SORT}) ([a-z]+s)\b", r"\1 \4 \2 \3 \4"),
    ((r"\b(modules?|DIMMs?|drives?|cards?|controllers?) (?:an?|to an?|to the|for an?) "
     r"(processor|CPU|zone|channel|riser|switch board)\b"), r"\1 per \2"),
    (rf"\bonly {_WHEN} there (?:is|are)\b", "only with"),
    ((r"\bonly (works?|runs?|fits?|goes|go|functions?|available|possible|usable) "
     r"(with|in|if|when|on|at)\b"), r"\1 only \2"),
    (rf"\b{_WHEN} there (?:is|are)\b", "given"),
    (rf"\b{_WHEN} (?:only |just )?{_WE} (?:only |just )?{_OWN} (?!to\b)(?:to have )?", "given "),
    ((rf"\b{_WHEN} ((?:zone|slot|riser) \w+) (?:holds?|takes?|carries|has|contains?|is filled "
     r"with|is used for) (.+?)(?=,|$)"), r"given \2 in \1"),
    ((rf"^(.*?)\b({_KIND})\b(.*?),? (?:{_WHEN}|only if) (?:they|these|it|all) (?:are|is) "
     r"([\w-]+(?: [\w-]+)?)$"), r"\1\4 \2\3"),
    (rf"\b(is|are) {_THERE}(?=,|$)", r"\1 fitted"),
    (rf"\b({_MACHINE}s?) (?:that (?:is|are) |which (?:is|are) )?{_SETS} with\b", r"\1 with"),
    (rf"\b({_MACHINE}s?) (?:that|which) (?:has|have|uses?|takes?|holds?|carry|carries)\b",
     r"\1 with"),
    ((r"\b(?:that|which) (?:go|goes|sit|sits|fit|is|are)(?: fitted| installed| placed| mounted|"
     r" housed)? (?=(?:in|into|at)\b)"), ""),
    (r"\b(?:made up|made|consisting|composed|built up) (?:of|from|out of)\b", "with"),
    (r"\bbe (?:had|reached|achieved|obtained|got|attained|realised) (?:with|by|from|on|using)\b",
     "possible given"),
    ((r"^(.+?) (can|cannot|can't|may) be (?:driven|served|run|fed|controlled|handled|managed) "
     r"(?:by|with|from) (.+)$"), r"\3 \2 drive \1"),
    (r"\b(can|could|may|cannot|not|to) drive (?=(?:all |both )?zones?\b)", r"\1 serve "),
    (r"\btakes? up (?!to\b)", "occupies "),
    (r"\b(?:in |with )?(?:inlet |intake |cooling |supply |room )?air (?:at|of) (\d+ ?°C)",
     r"at \1"),
    (r"\bat (?:an? )?(?:inlet|room|ambient|air|intake)(?: air)? temperatures? of (\d+ ?°C)",
     r"at \1"),
    (r"\bat (\d[\d,.]* ?m) and (\d+ ?°C)(?: inlet(?: air| temperature)?| intake)?",
     r"at \1 at \2"),
    (r"\bin (?:an? )?(\d+ ?°C)(?: warm)? (?:room|air|aisle|environment)\b", r"at \1"),
)  # fmt: skip
"""Conditions, and how things are done."""

LINES = (*AMOUNTS, *HEADINGS, *DENIALS, *CHOICES, *NEEDS, *LIMITS, *ARRAYS, *CONDITIONS)
"""What is rewritten, as regular expressions, and what comes instead."""


@cache
def _compiled(names: tuple[str, ...]) -> tuple[tuple[re.Pattern[str], str], ...]:
    longest = sorted(map(re.escape, names), key=len, reverse=True)
    machine = f"(?:{'|'.join(longest)})" if longest else r"(?!)"
    return tuple(
        (re.compile(pattern.replace(_NAME, machine), re.IGNORECASE), instead)
        for pattern, instead in LINES
    )


def plain(text: str, names: tuple[str, ...] = ()) -> str:
    """Return a sentence with its turns of phrase rewritten, white space folded.

    Args:
        text: the sentence.
        names: what the machine is called.

    >>> plain("Drives: up to 24.")
    'up to 24 of Drives.'
    >>> plain("The machine tops out at 4 TB.")
    'The machine takes at most 4 TB.'
    """
    folded = " ".join(text.split())
    body = folded.rstrip(".!")
    end = folded[len(body) :]
    for pattern, instead in _compiled(names):
        body = pattern.sub(instead, body)
    return f"{' '.join(body.split())}{end}"
