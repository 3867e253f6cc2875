"""The glossary of a book: every phrase people use for what it holds, and what that stands for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from baywright.facts.book import Book
from baywright.facts.parts import KINDS, Supply
from baywright.language import build_words, capacity_words
from baywright.language.tokens import Token, tokens
from baywright.language.trade import NOUNS, WORDS

Senses = Mapping[str, tuple[str, ...]]
"""What a phrase can be: values by sort of sense."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A phrase of a sentence with what it can be.

    Args:
        text: as it was written.
        senses: what it can be; none when it is not known.
        token: its first token, for numbers, amounts and dates.
        start: first character in the sentence.
        end: character after the last.
    """

    text: str
    senses: Senses
    token: Token
    start: int
    end: int

    def of(self, sort: str) -> tuple[str, ...]:
        """Return what it is as one sort of sense."""
        return self.senses.get(sort, ())

    def has(self, sort: str, *values: str) -> bool:
        """Say whether it can be of a sort, with one of some values where any are given."""
        held = self.senses.get(sort, ())
        return bool(held) and (not values or any(value in held for value in values))


@dataclass(frozen=True)
class Glossary:
    """Every phrase that is known.

    Args:
        book: the book it is for.
        related: books of the machines it is compared with, by id.
        phrases: senses by the words of a phrase.
        longest: number of words of the longest phrase.
    """

    book: Book
    related: Mapping[str, Book] = field(default_factory=dict)
    phrases: Mapping[tuple[str, ...], Senses] = field(default_factory=dict)
    longest: int = 1

    def slots(self, text: str) -> tuple[Slot, ...]:
        """Return the phrases of a sentence, the longest that is known at each place."""
        pieces, found, at = tokens(text, self.book.book.currency), [], 0
        words = tuple(piece.folded for piece in pieces)
        while at < len(pieces):
            length, senses = self._longest(pieces, words, at)
            last = pieces[at + length - 1]
            start, end = pieces[at].start, last.end
            found.append(Slot(text[start:end], senses, pieces[at], start, end))
            at += length
        return tuple(found)

    def _longest(
        self, pieces: tuple[Token, ...], words: tuple[str, ...], at: int
    ) -> tuple[int, Senses]:
        for length in range(min(self.longest, len(pieces) - at), 0, -1):
            senses = self.phrases.get(words[at : at + length])
            if senses is not None and (length > 1 or pieces[at].kind in ("word", "sign")):
                return length, self._exact(senses, pieces[at : at + length])
        return 1, _own_senses(pieces[at])

    def _exact(self, senses: Senses, pieces: tuple[Token, ...]) -> Senses:
        """Leave out ids whose capitals differ: zone A is not an article."""
        if "id" not in senses or "machine" in senses:
            return {sort: values for sort, values in senses.items() if sort != "id"}
        text = " ".join(piece.text for piece in pieces)
        ids = tuple(value for value in senses["id"] if value == text)
        others = {sort: values for sort, values in senses.items() if sort != "id"}
        if not ids:
            return others or {}
        return {"id": ids} if text != "A" or len(others) == 0 else {**others, "id": ids}


def _own_senses(piece: Token) -> Senses:
    if piece.kind in ("number", "amount", "date"):
        return {piece.kind: (piece.text,)}
    if piece.text in ",;:()":
        return {"link": ("comma",)}
    if piece.text in ".?!\"'*`":
        return {"stop": ("",)}
    if piece.text in "\N{EN DASH}\N{EM DASH}-/":
        return {"dash": ("",), "link": ("comma",)}
    if piece.folded in ("x", "\N{MULTIPLICATION SIGN}"):
        return {"times": ("",)}
    return {}


def glossary(book: Book, related: Mapping[str, Book] = {}) -> Glossary:
    """Return the glossary of a book.

    Args:
        book: the book.
        related: other books whose machines may be named, by id.
    """
    gathered: dict[tuple[str, ...], dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for phrase, sort, value in _entries(book, related):
        words = tuple(piece.folded for piece in tokens(phrase))
        held = gathered[words][sort]
        if words and value not in held:
            held.append(value)
    known = frozenset(gathered)
    for phrase, sort, value in capacity_words.phrases():
        words = tuple(piece.folded for piece in tokens(phrase))
        if words not in known and value not in gathered[words][sort]:
            gathered[words][sort].append(value)
    phrases = {
        words: {sort: tuple(values) for sort, values in senses.items()}
        for words, senses in gathered.items()
    }
    return Glossary(book, related, phrases, max(map(len, phrases)))


def _entries(book: Book, related: Mapping[str, Book]) -> Iterator[tuple[str, str, str]]:
    """Yield phrase, sort of sense and value."""
    for sort, table in NOUNS.items():
        for value, listed in table.items():
            for phrase in listed.split(", "):
                yield from ((form, sort, value) for form in (phrase, plural(phrase)))
    for words in (WORDS, build_words.WORDS):
        for sort, table in words.items():
            for value, listed in table.items():
                yield from ((phrase, sort, value) for phrase in listed.split(", "))
    yield from _of_book(book)
    for each in {book.book.id: book, **related}.values():
        own = each.book.id == book.book.id
        for phrase in (each.book.id, each.book.name, each.book.name.split()[0]):
            clash = phrase == each.book.name.split()[0] and _shares_word(book, related)
            if not clash:
                yield phrase, "machine", "" if own else each.book.id
    yield from _roles(book, related)


def _roles(book: Book, related: Mapping[str, Book]) -> Iterator[tuple[str, str, str]]:
    """Yield who is meant by the predecessor and by the successor."""
    before = book.book.predecessor
    if before in related:
        yield "predecessor", "machine", str(before)
    for name, each in related.items():
        if each.book.predecessor == book.book.id:
            yield "successor", "machine", name
            if not before:
                yield "predecessor", "machine", ""


def _shares_word(book: Book, related: Mapping[str, Book]) -> bool:
    first = [each.book.name.split()[0] for each in (book, *related.values())]
    return len(set(first)) < len(first)


def _of_book(book: Book) -> Iterator[tuple[str, str, str]]:
    yield from _of_parts(book)
    yield from _of_places(book)
    yield from _of_settings(book)
    for maker in (book.book.maker, book.book.maker.split()[0]):
        yield from ((phrase, "stop", "") for phrase in (maker, f"{maker}'s"))
    for key, phrases in book.words.items():
        for phrase in phrases:
            sort, value = _named(book, key)
            yield from ((form, sort, value) for form in (phrase, plural(phrase)))


def _of_parts(book: Book) -> Iterator[tuple[str, str, str]]:
    for name, part in book.parts.items():
        # A name that starts with a number, such as 64 GB module, is read as number and kind.
        for phrase in (each for each in (name, part.name) if not each[0].isdigit()):
            yield from ((form, "parts", name) for form in (phrase, plural(phrase)))
        if isinstance(part, Supply) and part.inlet:
            yield part.inlet, "inlet_type", part.inlet
    for name, model in book.models.items():
        yield from ((phrase, "model", name) for phrase in (model.name, f"model {model.name}"))


def _of_places(book: Book) -> Iterator[tuple[str, str, str]]:
    for name, place in book.places.items():
        yield name, "id", name
        if place.type not in ("supplies", "fans"):
            yield place.name, "place", name
    insides = {str(place.inside) for place in book.places.values() if place.inside}
    for inside in insides - {"cover", "lid", "air guide"}:
        held = [name for name, place in book.places.items() if place.inside == inside]
        yield inside, "place", " ".join(held)


def _of_settings(book: Book) -> Iterator[tuple[str, str, str]]:
    for name, line in book.power.lines.items():
        yield line.name, "line", name
    system = book.settings.get("system")
    for value, words in system.values.items() if system else ():
        yield words.known, "setting", f"system={value}"


def _named(book: Book, key: str) -> tuple[str, str]:
    """Return the sort of sense and the value of an id in the section ``words``."""
    if key in book.parts:
        return "parts", key
    if key in book.places:
        return "place", key
    setting, _, value = key.partition(".")
    if setting in book.settings:
        return "setting", f"{setting}={value}"
    if key in KINDS:
        return "kind", key
    return "filter", f"drive.interface={key}"


def plural(phrase: str) -> str:
    """Return the plural of a noun phrase, whose last word takes it.

    >>> plural("memory module"), plural("power supply"), plural("switch")
    ('memory modules', 'power supplies', 'switches')
    """
    if phrase.endswith("y") and phrase[-2:-1] not in "aeiou":
        return f"{phrase[:-1]}ies"
    if phrase.endswith(("s", "x", "ch", "sh")):
        return f"{phrase}es"
    return f"{phrase}s"
