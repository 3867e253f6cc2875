"""Vague amounts where the book has an exact one."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from baywright.language.findings.grounds import Exact, Grounds, Quoted
from baywright.language.passages import Passage, Remark

PHRASES = (
    "an array of",
    "a range of",
    "a variety of",
    "a large number of",
    "a number of",
    "a great many",
    "a good many",
    "a lot of",
    "a whole lot of",
    "lots of",
    "lots and lots of",
    "loads of",
    "tons of",
    "plenty of",
    "a handful of",
    "a few",
    "quite a few",
    "a couple of",
    "several",
    "numerous",
    "various",
    "different",
    "multiple",
    "many",
    "some",
    "enough",
)
"""Amounts that say no number."""

_VAGUE = re.compile(
    rf"\b(?:{'|'.join(re.escape(each) for each in sorted(PHRASES, key=len, reverse=True))})\b ?",
    re.IGNORECASE,
)
_WORD = re.compile(r"[\w/-]+")

MOST_WORDS = 4
"""Words after the amount that can name its thing."""


def vague_amounts(passages: Sequence[Passage], grounds: Grounds) -> Iterator[Remark]:
    """Yield a remark on each vague amount of a thing whose exact amount is known."""
    for passage in passages:
        for found in _VAGUE.finditer(passage.text):
            after = list(_WORD.finditer(passage.text, found.end()))[:MOST_WORDS]
            exact = grounds.amounts([word.group() for word in after])
            if exact is not None:
                end = after[exact.taken - 1].end()
                yield _remark(passage, found.start(), end, exact)


def _remark(passage: Passage, begin: int, end: int, exact: Exact) -> Remark:
    text = passage.text
    proof = Quoted(exact.facts) if exact.facts else None
    return Remark(
        passage,
        "vague",
        sentence=f"{text[:begin]}{exact.says}{text[end:]}",
        said=f"“{text[begin:end]}” has an exact amount: {exact.says}.",
        proof=proof,
    )
