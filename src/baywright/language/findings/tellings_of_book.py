"""Sentences that tell at once what a draft only promised."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.places import Slot
from baywright.language.findings.grounds import Amounts, Exact
from baywright.language.word_forms import several
from baywright.units.printing import plain_number

_OF_SLOTS = several("width wide lane length long size")


def tellings_of(book: Book, amounts: Amounts) -> Amounts:
    """Return a function that tells a sentence about what some naming words name.

    Args:
        book: the book.
        amounts: the exact amount of a thing.
    """
    slots = _slots(book)

    def tell(words: Sequence[str]) -> Exact | None:
        if slots is not None and "slot" in words and _OF_SLOTS.intersection(words):
            return slots
        for begin in range(len(words)):
            found = amounts(words[begin:])
            if found is not None:
                return Exact(f"There are {found.says}.", len(words), found.facts)
        return None

    return tell


def _slots(book: Book) -> Exact | None:
    """Tell width and length of the slots for cards, those that are alike together."""
    alike: dict[tuple[str, str], list[str]] = {}
    facts: list[Fact[Any]] = []
    for key, slot in book.places_of(Slot).items():
        if slot.lanes is None or slot.length is None or slot.lanes.value is None:
            continue
        width = f"x{plain_number(slot.lanes.known)}"
        alike.setdefault((width, slot.length.text), []).append(str(key))
        facts += [slot.lanes, slot.length]
    if not alike:
        return None
    return Exact(" ".join(_sentences(alike.items())), 1, book.cite(*facts))


def _sentences(alike: Iterable[tuple[tuple[str, str], list[str]]]) -> Iterator[str]:
    for (width, length), keys in alike:
        named = " and ".join(filter(None, (", ".join(keys[:-1]), keys[-1])))
        noun = "Slot" if len(keys) == 1 else "Slots"
        verb = "is" if len(keys) == 1 else "are"
        size = f"{length}-length" if length.isalpha() else f"{length} long"
        yield f"{noun} {named} {verb} {width} and {size}."
