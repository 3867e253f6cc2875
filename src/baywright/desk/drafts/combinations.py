"""The exact number behind "various combinations"."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from baywright.answers.verdicts import Count
from baywright.desk.asking import ask
from baywright.desk.opening import Opened
from baywright.language.findings.grounds import Amounts, Exact
from baywright.language.word_forms import several, stems

_WORDS = several("combination layout configuration arrangement")


def with_combinations(opened: Opened, amounts: Amounts) -> Amounts:
    """Return a function that knows the number of main layouts besides other amounts.

    It is counted, and proven, when a draft first speaks of it.
    """

    @cache
    def layouts() -> Exact | None:
        names = opened.book.book.skeleton
        if not names:
            return None
        found = ask(opened, f"ways({', '.join(names)})").verdict
        if not isinstance(found, Count):
            return None
        return Exact(f"{len(found.rows):,} combinations of {', '.join(names)}", 1)

    def amount(words: Sequence[str]) -> Exact | None:
        if words and stems(words[0])[:1] and stems(words[0])[0] in _WORDS:
            return layouts()
        return amounts(words)

    return amount
