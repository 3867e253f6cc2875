"""The words of a book: all that questions and rules about it may speak of, for newcomers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baywright.desk.asking import FORMS
from baywright.desk.opening import Opened
from baywright.facts.book import Book
from baywright.facts.parts import Cage, Drive
from baywright.facts.places import PlaceBase
from baywright.laws.wording import listed
from baywright.terms.vocabulary import TRUTH, FunctionEntry, KindEntry, NameEntry


@dataclass(frozen=True, slots=True)
class Word:
    """One word.

    Args:
        name: how it is written.
        sort: what sort of value it has, or empty.
        meaning: what it stands for.
    """

    name: str
    sort: str
    meaning: str


@dataclass(frozen=True, slots=True)
class WordList:
    """Words of one sort.

    Args:
        key: short name of the list.
        title: what they are.
        words: the words.
    """

    key: str
    title: str
    words: tuple[Word, ...]


def words(opened: Opened) -> tuple[WordList, ...]:
    """Return every word that a question about an open book may use."""
    vocabulary = opened.machine.vocabulary
    functions = (_function(*item) for item in sorted(vocabulary.functions.items()))
    kinds = (_kind(*item) for item in vocabulary.kinds.items() if _is_fitted(opened, item[0]))
    return (
        WordList("questions", "Ways to ask", tuple(_forms())),
        WordList("names", "Numbers and truths of a build", tuple(_names(opened))),
        WordList("places", "Places, and what each can hold", tuple(_places(opened))),
        WordList("settings", "Settings, and what each can be", tuple(_settings(opened))),
        WordList("functions", "Functions", tuple(functions)),
        WordList("kinds", "Kinds of part, and fields to filter by", tuple(kinds)),
        WordList("parts", "Parts", tuple(_parts(opened))),
    )


def truths(opened: Opened) -> tuple[Word, ...]:
    """Return the names of a book that hold or do not, such as ``supplies_redundant``."""
    names = opened.machine.vocabulary.names
    return tuple(word for word in _names(opened) if names[word.name].type == TRUTH)


def _forms() -> Iterator[Word]:
    yield Word("condition", "", "some legal build has it: the same as can(condition)")
    yield Word("number", "", "the most it can be: the same as most(number)")
    for form in FORMS.values():
        yield Word(form.usage, "", form.reading.format("...").removesuffix("; ..."))


def _names(opened: Opened) -> Iterator[Word]:
    for name in opened.machine.names:
        entry = opened.machine.vocabulary.names[name]
        yield Word(name, entry.type.phrase, entry.description)


def _places(opened: Opened) -> Iterator[Word]:
    names = opened.machine.vocabulary.names
    for name, place in opened.book.places.items():
        known = set(names[name].type.known or ()) & _fitting(opened.book, place)
        yield Word(name, place.type, f"{place.name}: {listed(sorted(known), 'or') or 'nothing'}")


def _fitting(book: Book, place: PlaceBase) -> set[str]:
    """Return the parts a place takes, with the drives of the cages among them.

    Compared with it may be more: a question whether a card is in another slot has an answer too.
    """
    takes = getattr(place, "takes", None)
    if takes is None:
        return set(book.parts)
    taken = book.taken(takes)
    held = {word for cage in taken.values() if isinstance(cage, Cage) for word in cage.holds}
    drives = book.parts_of("drive").items()
    return {*taken, *(n for n, d in drives if isinstance(d, Drive) and d.interface in held)}


def _settings(opened: Opened) -> Iterator[Word]:
    names = opened.machine.vocabulary.names
    for name, setting in opened.book.settings.items():
        yield Word(name, "", f"{setting.name}: {_known(names[name])}")
    yield Word("line", "", f"{names['line'].description}: {_known(names['line'])}")


def _known(entry: NameEntry) -> str:
    return listed(sorted(entry.type.known or ()), "or") or "nothing"


def _function(name: str, entry: FunctionEntry) -> Word:
    sort = entry.result.phrase if entry.result else "as its field"
    return Word(f"{name}({entry.usage})", sort, entry.description)


def _kind(name: str, entry: KindEntry) -> Word:
    return Word(name, "", f"{entry.description} Fields: {listed(sorted(entry.fields))}.")


def _is_fitted(opened: Opened, kind: str) -> bool:
    return any(part.kind == kind for part in opened.book.parts.values())


def _parts(opened: Opened) -> Iterator[Word]:
    for name, part in opened.book.parts.items():
        yield Word(name, part.kind, part.name)
