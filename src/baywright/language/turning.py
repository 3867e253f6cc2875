"""Questions turned into the statements that yes would make, or that would give the number asked.

The number that is asked for is written as a number nobody says, ``MARKED``; where the statement is
read, the expression that stands beside it is what was asked.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baywright.language.claims import Claim

MARKED = 7777
"""Stands for the number that is asked for."""

MODALS = frozenset(["can", "could", "may", "might", "will", "would", "should"])
PLAIN = frozenset(["does", "do", "did"])
BE = frozenset(["is", "are", "has", "have", "was", "were", "must"])

_AUXILIARIES = MODALS | PLAIN | BE
_LONGEST_NOUN = 4
_UNIT_OF = {"fast": "MT/s", "draw": "W", "draws": "W", "cost": "", "costs": ""}


_BARELY = re.compile(r"(?i)\b(?:only|just|merely) (?=(?:an? )?(?:single|one|two|three|\d+)\b)")


def statements(text: str) -> Iterator[str]:
    """Yield the statements a question may turn, its first word moved behind its subject."""
    asked = text.strip().rstrip("?").strip()
    colon = re.sub(r"(?i):?\s*is (?:that|this|it) possible$", " can be fitted", asked)
    if colon != asked:
        yield colon
        return
    asked = re.sub(r"(?i)^is (?:it|that) (?:possible|ok|allowed|legal) to\b", "can you", asked)
    asked = re.sub(
        r"(?i)^(?:is|would) there (?:be )?(?:any |a |some )?(?:way|chance|possibility) (?:to|of)\b",
        "can you", asked,
    )  # fmt: skip
    asked = _BARELY.sub("", asked)
    asked = re.sub(r"(?i)^(?:am i|are we|are you|is one|is it) able to\b", "can you", asked)
    asked = re.sub(
        r"(?i)^(?:we|i) (?:want|need|would like|plan|have in mind) (.+?)[:;,.] ?(?:does|do|will|"
        r"would|is|can) (?:that|this|it) (?:work|fit|possible|go|ok)$", r"can you have \1", asked,
    )  # fmt: skip
    lead = ""
    held = re.match(r"(?i)^(?:and |so |but )?((?:with|at|on|in|given|if) [^?]*?),\s*(.*)$", asked)
    if held:
        lead, asked = f" {held[1]}", held[2]
    asked = re.sub(r"(?i)^(?:and|so|but)\s+", "", asked)
    words = asked.split()
    if not words:
        return
    first = words[0].casefold()
    if first not in _AUXILIARIES:
        yield asked + lead
        return
    if first in ("is", "are") and words[1:2] == ["there"]:
        yield f"there {words[0]} {' '.join(words[2:])}{lead}"
    elif first in BE:
        yield asked
    yield from (each + lead for each in _moved(words))


def _moved(words: Sequence[str]) -> Iterator[str]:
    """Yield statements with the first word, an auxiliary, at each place behind the subject."""
    first = words[0].casefold()
    auxiliary = "" if first in PLAIN else "can" if first in MODALS else words[0]
    for at in range(2, len(words) + 1):
        moved = [*words[1:at], auxiliary, *words[at:]]
        yield " ".join(word for word in moved if word)
        if first in PLAIN:
            break


def counting(text: str) -> Iterator[str]:
    """Yield the statements that give how many or how much of something, the number marked."""
    asked = text.strip().rstrip("?").strip()
    asked = re.sub(r"(?i)^(at (?:the )?(?:most|least)),? (how .+)$", r"\2 \1", asked)
    asked = re.sub(r"(?i)^up to (how .+)$", r"\1", asked)
    needed = re.match(
        r"(?i)^how (?:many|much) (.+?) (?:are|is) (?:needed|required|necessary) (for|to \w+) (.+)$",
        asked,
    )
    if needed:
        yield f"you need {MARKED} {needed[1]} {needed[2]} {needed[3]}"
        return
    found = re.match(r"(?i)^(?:and |so )?how (many|much|few|little) (.+)$", asked)
    if found:
        unit = "" if found[1].casefold() in ("many", "few") else " GB of"
        yield from _of_noun(found[2].split(), f"{MARKED}{unit}")
        return
    fast = re.match(r"(?i)^how fast (?:does|do|is|are|can) (.+?)(?: (?:run|be|get|go))?$", asked)
    if fast:
        yield f"{fast[1]} runs at {MARKED} MT/s"
        return
    extreme = re.match(
        r"(?i)^what(?:'s| is| are)? (?:the )?(?:most|least|fewest|smallest number of|largest "
        r"number of|maximum number of|minimum number of|highest number of|lowest number of) "
        r"(.+)$", asked,
    )  # fmt: skip
    if extreme:
        yield from _of_noun(extreme[1].split(), str(MARKED))
        yield re.sub(r"(?i)\bdraws?\b", f"draws at least {MARKED} W", extreme[1], count=1)


def _of_noun(words: Sequence[str], number: str) -> Iterator[str]:
    """Yield statements with the number before what is counted, wherever that stands in them."""
    at = next((i for i, word in enumerate(words) if word.casefold() in _AUXILIARIES), None)
    if at == 0:
        return  # how much of what is not said
    if at is None:
        yield f"{number} {' '.join(words)}"
        swapped = re.match(r"(?i)^(.+?) (?:come|comes|ship|ships) with (.+)$", " ".join(words))
        if swapped:
            yield f"{swapped[2]} comes with {number} {swapped[1]}"
        for length in range(1, min(_LONGEST_NOUN, len(words) - 1)):
            yield f"{' '.join(words[length:])} {number} {' '.join(words[:length])}"
        return
    noun = f"{number} {' '.join(words[:at])}"
    rest = [*words[at:]]
    if rest[0].casefold() in ("is", "are") and rest[1:2] == ["there"]:
        yield f"there are {noun} {' '.join(rest[2:])}".strip()
    yield f"{noun} {' '.join(rest)}"
    for statement in _moved(rest):
        said = statement.split()
        for place in range(len(said), 0, -1):
            yield " ".join([*said[:place], noun, *said[place:]])


@dataclass(frozen=True, slots=True)
class Asked:
    """A number that is asked for.

    Args:
        number: its expression.
        given: conditions, as expressions.
        least: whether the least of it was asked for.
        altitude: altitude of the site, with its unit.
        inlet: temperature of the air taken in, with its unit.
    """

    number: str
    given: tuple[str, ...]
    least: bool = False
    altitude: str = ""
    inlet: str = ""


def asked_in(claim: Claim) -> Asked | None:
    """Return the number that stands beside the mark in a claim, or ``None`` where none does."""
    if claim.mode in ("most", "least") and claim.value == MARKED and claim.number:
        least = claim.mode == "least"
        return Asked(claim.number, claim.given, least, claim.altitude, claim.inlet)
    if claim.mode not in ("can", "always") or claim.absent:
        return None
    every = (*claim.terms, *claim.given)
    marked = [term for term in every if re.search(rf"\b{MARKED}\b", term)]
    if len(marked) != 1:
        return None
    found = re.fullmatch(rf"(.+) (?:==|>=|<=) {MARKED}(?: [\w/]+)?", marked[0])
    if found is None or " or " in found[1] or " and " in found[1]:
        return None
    given = tuple(term for term in every if term != marked[0])
    return Asked(found[1], given, altitude=claim.altitude, inlet=claim.inlet)
