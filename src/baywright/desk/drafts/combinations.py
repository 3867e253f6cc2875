"""The exact number behind "various combinations"."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from baywright.answers.verdicts import Count
from baywright.desk.asking import ask
from baywright.desk.opening import Opened
from baywright.language.findings.grounds import Amounts, Exact
from baywright.language.word_forms import several, stems
from baywright.laws.wording import listed

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
        return Exact(f"{len(found.rows):,} combinations of {listed(names)}", 1)

    def amount(words: Sequence[str]) -> Exact | None:
        # Combinations of one thing are not those of the whole machine.
        if words and _WORDS.intersection(stems(words[0])) and "of" not in words[1:2]:
            return layouts()
        return amounts(words)

    return amount
