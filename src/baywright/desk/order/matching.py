"""From the words of a line to parts of a book: by id, by name, or by what the words say of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from baywright.desk.order.words import FILLERS, SYNONYMS, key_of, several, spelled, tokens
from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import KINDS, Part

TELLING = frozenset(
    several(
        "size generation type speed cores tdp interface capacity power length bays holds mirrored"
    )
)
"""Fields of parts by whose values people tell them apart."""

OPPOSED = frozenset(
    several(
        "ddr3 ddr4 ddr5 registered unbuffered reduced sata sas fast nvme single double half full "
        "low mirrored fixed internal external"
    )
)
"""Words that make a part another one; a part that does not have them is not meant."""

MOST_CANDIDATES = 8
"""A line that could be more parts than this says too little."""


MOST_LEFT = 1
"""With more words beyond those understood, a line is a sentence that happens to name a part."""


@dataclass(frozen=True, slots=True)
class Match:
    """What a text stands for.

    Args:
        parts: ids of the parts it could be; one where it is clear, none where it is not read.
        how: ``id``, ``name`` or ``words``.
        respelled: words that were read as another, with that other.
        left: words of the text that nothing was made of.
    """

    parts: tuple[str, ...] = ()
    how: str = ""
    respelled: tuple[tuple[str, str], ...] = ()
    left: tuple[str, ...] = ()


@dataclass(frozen=True)
class PartIndex:
    """The parts of a book by their words.

    Args:
        book: the book.
    """

    book: Book

    @cached_property
    def _features(self) -> Mapping[str, frozenset[str]]:
        return {name: frozenset(features(name, part)) for name, part in self.book.parts.items()}

    @cached_property
    def _by_key(self) -> Mapping[str, tuple[str, str]]:
        found: dict[str, tuple[str, str]] = {}
        for name, part in self.book.parts.items():
            found.setdefault(key_of(part.name), (name, "name"))
        return found | {key_of(name): (name, "id") for name in self.book.parts}

    @cached_property
    def words(self) -> frozenset[str]:
        """Every token that tells something about a part of the book."""
        return frozenset().union(*self._features.values())

    def match(self, text: str) -> Match:
        """Return what a text stands for."""
        exact = self._by_key.get(key_of(text))
        if exact is not None:
            return Match((exact[0],), exact[1])
        said = tokens(text)
        by_id = self._named_in(text)
        respelled = dict(self._respelled(said))
        read = [respelled.get(word, word) for word in said]
        left = tuple(word for word in read if word not in self.words)
        known = frozenset(read) - set(left)
        found = self._having(known, by_id)
        too_much_left = len(left) > len(known) + MOST_LEFT
        unclear = not _tells(known) or len(found) > MOST_CANDIDATES
        if unclear or too_much_left or any(map(_excludes, left)):
            return Match(left=tuple(said))
        used = tuple((word, other) for word, other in respelled.items() if other in known)
        return Match(tuple(found), "words", used, left)

    def _having(self, known: frozenset[str], by_id: frozenset[str]) -> list[str]:
        """Return the parts that have all those words; an id among them decides, then a kind."""
        found = [name for name, has in self._features.items() if known <= has]
        kinds = [name for name in found if self.book.parts[name].kind in known]
        return [name for name in found if name in by_id] or kinds or found

    def _named_in(self, text: str) -> frozenset[str]:
        """Return the parts whose id is one of the words of a text."""
        words = {key_of(word) for word in text.split()}
        return frozenset(
            name for key, (name, how) in self._by_key.items() if key in words and how == "id"
        )

    def _respelled(self, said: Iterable[str]) -> Iterator[tuple[str, str]]:
        known = {*self.words, *(word for word, of in SYNONYMS.items() if of in self.words)}
        for word in said:
            other = None if word in self.words or word in OPPOSED else spelled(word, known)
            if other is not None:
                yield word, SYNONYMS.get(other, other)


def features(name: str, part: Part) -> Iterator[str]:
    """Yield the tokens that tell something about a part."""
    yield from tokens(name)
    yield from tokens(part.name)
    yield from tokens(part.kind)
    for field in TELLING & set(type(part).model_fields):
        for text in _texts(getattr(part, field), field):
            yield from tokens(text)


def _texts(value: object, field: str) -> Iterator[str]:
    if isinstance(value, Fact):
        if value.text in ("yes", "no"):
            yield field if value.text == "yes" else ""
        else:
            # A bare number says what it counts only with its field: 16 cores, 8 bays.
            yield f"{value.text} {field}" if value.text.replace(",", "").isdigit() else value.text
    elif isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for each in value.values():
            yield from _texts(each, field)
    elif isinstance(value, list):
        for each in value:
            yield from _texts(each, field)


def _tells(known: Iterable[str]) -> bool:
    """Say whether words name at least one thing and not a bare number alone."""
    return any(not word.replace(".", "").isdigit() and word not in FILLERS for word in known)


def _excludes(word: str) -> bool:
    """Say whether a word that a part does not have makes it another: a number, or an opposite."""
    return any(sign.isdigit() for sign in word) or word in OPPOSED or word in KINDS


class Library:
    """Books that parts are looked up in: that of the order first, then the others.

    Args:
        book: the book of the order.
        others: other books, the predecessor first.
    """

    def __init__(self, book: Book, others: Iterable[Book]) -> None:
        self.own = PartIndex(book)
        self.others = tuple(PartIndex(other) for other in others)

    def elsewhere(self, text: str) -> Iterator[tuple[Book, str]]:
        """Yield the part of each other book that a text clearly stands for."""
        for index in self.others:
            found = index.match(text)
            if len(found.parts) == 1:
                yield index.book, found.parts[0]
