"""Words that point: whoever reads or listens does not see the finger."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from baywright.language.findings.grounds import Grounds
from baywright.language.passages import Passage, Remark

PHRASES = (
    "this one here",
    "this one",
    "that one there",
    "that one",
    "these ones",
    "those ones",
    "over there",
    "over here",
    "right here",
    "right there",
    "up here",
    "down here",
    "up there",
    "down there",
    "back here",
    "back there",
    "in here",
    "in there",
    "this thing",
    "that thing",
    "these things",
    "these guys",
    "this guy",
    "here you see",
    "here you can see",
    "here we have",
    "here we see",
    "as you can see here",
    "where i'm pointing",
    "the one on the left",
    "the one on the right",
    "the one in the middle",
)
"""Phrases that point, the longer ones before those they hold."""

_KINDS = "port|slot|bay|drive|connector|fan|card|module|zone|light|button|socket|handle|lever|part"
_POINTS = re.compile(
    rf"\b(?:(?:this|that|these|those) (?:little |small |big )?(?:{_KINDS})s? (?:right |over |down "
    rf"|up |back )?(?:here|there)|{'|'.join(map(re.escape, PHRASES))})\b"
)


def pointing(passages: Sequence[Passage], grounds: Grounds) -> Iterator[Remark]:
    """Yield a remark on each sentence that points and names no place.

    A place that the same paragraph named before is offered; which one is meant is not guessed at.
    """
    named = _pattern(grounds.places)
    block, before = -1, list[str]()
    for passage in passages:
        if passage.block != block:
            block, before = passage.block, []
        text = passage.text.casefold().replace("’", "'")
        here = named.findall(text)
        found = _POINTS.search(text)
        if found and not here:
            yield Remark(passage, "pointing", said=_said(found.group(), before, grounds))
        before += here


def _pattern(names: Sequence[str]) -> re.Pattern[str]:
    longest = sorted((name.casefold() for name in names), key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, longest))})\b" if longest else r"(?!)")


def _said(phrase: str, before: Sequence[str], grounds: Grounds) -> str:
    written = {name.casefold(): name for name in grounds.places}
    instead = "say the name of the place, or the number of its call-out"
    if before:
        instead = f"say its name; {written[before[-1]]} was named last"
    elif grounds.places:
        instead += f", such as {grounds.places[0]}"
    return f"“{phrase}” points; {instead}."
