"""What findings compare a draft with."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from baywright.facts.citation import Citation

WORDS_PER_MINUTE = 180.0
"""Speech above this is hard to follow; 160 to 180 is common practice, no source."""


@dataclass(frozen=True, slots=True)
class Quoted:
    """Facts that a remark stands on.

    Args:
        facts: the facts as they are quoted.
    """

    facts: tuple[Citation, ...]

    @property
    def sentences(self) -> tuple[str, ...]:
        """One line for each source: its facts with their paths, its title and date."""
        by_source: dict[str, list[str]] = {}
        for fact in self.facts:
            source = f"{fact.source}, {fact.date}" if fact.date else fact.source
            by_source.setdefault(source, []).append(f"{fact.text} ({fact.path})")
        return tuple(
            f"{', '.join(quoted)}: {source}" if source else ", ".join(quoted)
            for source, quoted in by_source.items()
        )

    def as_json(self) -> Mapping[str, object]:
        """Return the facts as plain JSON values."""
        return {"facts": [fact.as_json() for fact in self.facts]}


@dataclass(frozen=True, slots=True)
class Exact:
    """An exact amount that can stand in place of a vague one.

    Args:
        says: the amount with its thing, such as ``32 memory sockets``.
        taken: how many of the words that were looked up it stands for.
        facts: the facts it stands on.
    """

    says: str
    taken: int
    facts: tuple[Citation, ...] = ()


Amounts: TypeAlias = Callable[[Sequence[str]], Exact | None]
"""Takes the words that follow a vague amount; returns the exact amount of what they start with."""


@dataclass(frozen=True, slots=True)
class Hazard:
    """An act and the caution that has to come before it.

    Args:
        key: its id, such as ``interlocks.guide-pulled``.
        things: what the act is done to: phrases in small letters.
        signs: what a sentence says that tells the hazard.
        caution: the caution in full.
        facts: the facts it stands on.
        immediate: whether it strikes at once, so that an offer ("you can lift it out") needs its
            caution as an instruction does.
    """

    key: str
    things: tuple[str, ...]
    signs: re.Pattern[str]
    caution: str
    facts: tuple[Citation, ...]
    immediate: bool = False


@dataclass(frozen=True, slots=True)
class Needed:
    """A sentence that a draft must not leave out.

    Args:
        key: its id in the book.
        says: the sentence.
        counts: phrases of which any one counts as having said it.
        about: phrases of which one has to be in a draft that must say it; none for any draft.
        facts: the facts it stands on.
    """

    key: str
    says: str
    counts: tuple[str, ...]
    about: tuple[str, ...]
    facts: tuple[Citation, ...]


def no_amounts(words: Sequence[str]) -> Exact | None:
    """Know no exact amount."""
    return None


@dataclass(frozen=True, slots=True)
class Grounds:
    """What a draft is compared with.

    Args:
        names: what each phrase stands for; phrases in small letters.
        places: call-outs: names of places as a draft can say them.
        amounts: the exact amount of a thing.
        tellings: a sentence about what some naming words, without plural endings, name.
        hazards: acts with their cautions.
        needed: sentences that must not be left out.
        words_per_minute: the fastest speech that captions may ask for.
    """

    names: Mapping[str, str] = field(default_factory=dict)
    places: tuple[str, ...] = ()
    amounts: Amounts = no_amounts
    tellings: Amounts = no_amounts
    hazards: tuple[Hazard, ...] = ()
    needed: tuple[Needed, ...] = ()
    words_per_minute: float = WORDS_PER_MINUTE
