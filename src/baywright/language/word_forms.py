"""Words as they are compared: small letters, plurals off."""

from __future__ import annotations

import re
from collections.abc import Iterable

_WORD = re.compile(r"[^\W_]+(?:['’.,/+-][^\W_]+)*\+?")
_OES = ("ches", "shes", "sses", "xes", "zes")


def several(words: str) -> frozenset[str]:
    """Return the words of a text, for lists that are easier to read without quotes."""
    return frozenset(words.split())


def words_of(text: str) -> list[str]:
    """Return the words and numbers of a text in small letters.

    >>> words_of("It's 5,600 MT/s, N+1.")
    ["it's", '5,600', 'mt/s', 'n+1']
    """
    return _WORD.findall(text.replace("’", "'").casefold())


def stem(word: str) -> str:
    """Return a word without its plural ending.

    >>> [stem(word) for word in ("supplies", "boxes", "drives", "chassis", "R1a", "bus")]
    ['supply', 'box', 'drive', 'chassis', 'R1a', 'bus']
    """
    if word.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    if word.endswith(_OES):
        return word[:-2]
    if word.endswith("s") and not word.endswith(("ss", "us", "is")) and len(word) > 3:
        return word[:-1]
    return word


def stems(text: str) -> list[str]:
    """Return the words of a text without plural endings."""
    return [stem(word) for word in words_of(text)]


JOINING = several(
    "a an and any are as at be been both but by can each every for from had has have he her his "
    "how i if in into is it its it's more most much no not of on or our out over she so some such "
    "than that the their them then there these they this those to under until up us was we were "
    "what when where which while who why will with without would you your"
)
"""Words that name nothing."""


def naming(words: Iterable[str]) -> tuple[str, ...]:
    """Return the stems of those words that name something."""
    return tuple(stem(word) for word in words if word not in JOINING)
