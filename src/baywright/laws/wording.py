"""Small helpers for the sentences of laws."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from baywright.units import Quantity, number


def listed(words: Iterable[str], join: str = "and") -> str:
    """Return words as a list in a sentence.

    >>> listed(["A", "B", "C"], "or")
    'A, B or C'
    """
    parts: Sequence[str] = list(words)
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} {join} {parts[-1]}"


def counted(count: int, singular: str, plural: str | None = None) -> str:
    """Return a number with its noun.

    >>> counted(1, "bay"), counted(8, "bay")
    ('1 bay', '8 bays')
    """
    return f"{number(count)} {singular if count == 1 else plural or singular + 's'}"


def capitalised(sentence: str) -> str:
    """Return a sentence with a capital at its start.

    >>> capitalised("zone A takes S8.")
    'Zone A takes S8.'
    """
    return sentence[:1].upper() + sentence[1:]


def plain(amount: Quantity) -> str:
    """Return an amount as it is said in a sentence, thousands separated."""
    return f"{number(amount.magnitude)} {amount.unit}"
