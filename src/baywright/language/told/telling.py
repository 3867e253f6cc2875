"""A sentence that a book tells, and how it is known again in a draft."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.citation import Citation
from baywright.language.spoken import spoken_number, written
from baywright.language.tokens import tokens


@dataclass(frozen=True, slots=True)
class Told:
    """A sentence that follows from facts of a book without a proof by an engine.

    Args:
        topic: what it is about, such as ``lock``.
        says: the sentence.
        facts: the facts it stands on; none for a sentence that states nothing of the machine.
    """

    topic: str
    says: str
    facts: tuple[Citation, ...] = ()


_SIGNS = (".", ":", ",", ";", "\N{WARNING SIGN}")


def key_of(sentence: str) -> tuple[str, ...]:
    """Return what two sentences have in common that say the same in the same words.

    Numbers are the same in digits and in words, and letters large and small.
    """
    found = tokens(written(" ".join(sentence.split())))
    pieces = (
        f"{each.number} {each.unit}" if each.kind in ("number", "amount") else each.folded
        for each in found
    )
    return tuple(piece for piece in pieces if piece not in _SIGNS)


def with_article(name: str) -> str:
    """Return a name with its article; a name with a letter or number, and a plural, has none.

    >>> [with_article(name) for name in ("zone A", "media bay", "supplies", "processor 1")]
    ['zone A', 'the media bay', 'supplies', 'processor 1']
    """
    last = name.rsplit(maxsplit=1)[-1]
    plain = last.islower() and last.isalpha() and not last.endswith("s")
    return f"the {name}" if plain and not name.startswith(("everything", "remote")) else name


def few(number: int) -> str:
    """Return a whole number as it is written in a sentence: up to twelve in words."""
    return spoken_number(Fraction(number)) if number <= MOST_IN_WORDS else f"{number:,}"


MOST_IN_WORDS = 12
"""Numbers above this are written in digits."""
