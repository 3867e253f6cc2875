"""Cutting a sentence into terms: numbers join their units, attributes join what they describe."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from baywright.facts.book import Book
from baywright.language.glossary import Glossary, Slot, glossary
from baywright.language.nouns import Nouns
from baywright.language.telling.book_words import Entry, entries
from baywright.language.telling.field_words import FIELD_WORDS
from baywright.language.telling.grouping import Grouping, own_senses
from baywright.language.telling.numbers import amount_at
from baywright.language.telling.terms import Term
from baywright.language.telling.verbs import VERBS, inflected
from baywright.language.telling.words import WORDS
from baywright.language.tokens import tokens
from baywright.terms import Vocabulary

SHARED = frozenset(
    [
        "kind",
        "parts",
        "feature",
        "port",
        "filter",
        "op",
        "count",
        "ordinal",
        "machine",
        "id",
        "place",
        "setting",
        "inlet_type",
        "generation",
        "core",
        "model",
        "figure",
    ]
)
"""Sorts of sense that are taken over from the glossary of the book."""

TOO_GENERAL = {("chip",), ("chips",), ("part",), ("parts",)}
"""Nouns for kinds of part that are too general in statements of facts."""

_COMPARING = ("faster", "slower", "higher")

_APART = re.compile(
    r"\b((?:tak|pull|lift|switch|turn|put|slid)\w*) ((?:[\w-]+ ){1,3}?)(out|off|away)\b",
    re.IGNORECASE,
)
_STOPS = ("stop", "dash", "id")


@dataclass(frozen=True)
class Cutter:
    """Cuts sentences about a book into terms.

    Args:
        book: the book.
        related: books of the machines it is compared with, by id.
        vocabulary: what expressions about it may speak of.
    """

    book: Book
    related: Mapping[str, Book]
    vocabulary: Vocabulary

    @cached_property
    def _nouns(self) -> Nouns:
        return Nouns(self.book, self.vocabulary)

    @cached_property
    def _glossary(self) -> Glossary:
        held = {
            words: kept
            for words, senses in glossary(self.book, self.related).phrases.items()
            if (kept := _shared(words, senses))
        }
        for phrase, sort, value in (*_general(), *entries(self.book, self.related)):
            words = tuple(token.folded for token in tokens(phrase))
            senses = held.setdefault(words, {})
            if value not in senses.get(sort, ()):
                senses[sort] = (*senses.get(sort, ()), value)
        return Glossary(self.book, self.related, held, max(map(len, held)))

    def terms(self, text: str) -> list[Term] | None:
        """Return the terms of a sentence, or ``None`` when a word is not known."""
        slots = self._glossary.slots(_together(" ".join(text.split())))
        if any(not slot.senses for slot in slots):
            return None
        return list(self._joined(slots))

    def _joined(self, slots: Sequence[Slot]) -> Iterator[Term]:
        at = 0
        while at < len(slots):
            term, at = self._next(slots, at)
            if term.senses:
                yield term

    def _next(self, slots: Sequence[Slot], at: int) -> tuple[Term, int]:
        release = _release(slots, at)
        if release is not None:
            return release
        amount = amount_at(slots, at)
        place = None if amount or slots[at].has("quant") else self._nouns.named_place(slots, at)
        if place is not None:
            names, after = place
            text = " ".join(slot.text for slot in slots[at:after])
            return Term({**own_senses(slots[after - 1]), "place": (tuple(names),)}, text), after
        return Grouping(self.book).read(slots, at) or amount or (_word(slots[at]), at + 1)


def _general() -> Iterator[Entry]:
    """Yield the phrases that are general in the trade."""
    for sort, table in VERBS.items():
        for value, listed in table.items():
            for entry in listed.split(", "):
                yield from ((form, sort, value) for form in inflected(entry))
    for words in (WORDS, FIELD_WORDS):
        for sort, table in words.items():
            for value, listed in table.items():
                yield from ((phrase, sort, value) for phrase in listed.split(", "))
    yield from ((sign, "join", "comma") for sign in (",", ";", ":"))
    yield from ((noun, "kind", "memory") for noun in ("memory", "RAM"))


def _shared(
    words: tuple[str, ...], senses: Mapping[str, tuple[str, ...]]
) -> dict[str, tuple[str, ...]]:
    """Return the senses of a phrase of the glossary that count in statements of facts."""
    kept = {sort: values for sort, values in senses.items() if sort in SHARED}
    if any(value.startswith("system=") for value in kept.get("setting", ())):
        return {}  # a release is read as the name of the system and a number
    if "machine" in kept:
        kept["machine"] = tuple(value for value in kept["machine"] if not value)
    if words[0] in _COMPARING:
        kept.pop("op", None)
    if words in TOO_GENERAL:
        kept.pop("kind", None)
    return {sort: values for sort, values in kept.items() if values}


def _together(text: str) -> str:
    """Return a text with verbs and their particles side by side.

    >>> _together("Take the cover off.")
    'Take off the cover.'
    """
    return _APART.sub(r"\1 \3 \2", text).replace(" .", ".").replace("  ", " ")


def _release(slots: Sequence[Slot], at: int) -> tuple[Term, int] | None:
    """Read a system with its releases: Reedbed 8 to 11."""
    if not slots[at].has("system") or at + 1 >= len(slots):
        return None
    found = amount_at(slots, at + 1)
    if found is None or "number" not in found[0].senses or found[0].senses["op"] != ("",):
        return None
    name = slots[at].of("system")[0].rpartition(" ")[0]
    spans = any(slot.has("to") or slot.has("dash") for slot in slots[at + 1 : found[1]])
    numbers = found[0].senses["number"][0]
    return Term({"release": ((name, releases(numbers, spans=spans)),)}, slots[at].text), found[1]


def releases(numbers: Sequence[Fraction], *, spans: bool) -> tuple[Fraction, ...]:
    """Return the releases that numbers stand for; the ends of a range, for all between them."""
    if spans and len(numbers) == 2:
        return tuple(Fraction(n) for n in range(int(numbers[0]), int(numbers[1]) + 1))
    return tuple(numbers)


def _word(slot: Slot) -> Term:
    """Return a word as a term; one without senses where it carries nothing."""
    if slot.has("date") and slot.token.date is not None:
        return Term({"date": (slot.token,)}, slot.text)
    if slot.has("number"):
        return Term({"number": ((slot.token.number,),), "op": ("",)}, slot.text)
    return Term({} if set(slot.senses) <= set(_STOPS) else slot.senses, slot.text)
