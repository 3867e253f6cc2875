"""The prose of a book held against its facts: what it says of itself in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from weakref import WeakKeyDictionary

from baywright.desk.opening import Opened
from baywright.desk.proofreading.proofreading import Proofreader
from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.language.passages import Passage, Place, Remark
from baywright.laws.wording import capitalised

_HELD: WeakKeyDictionary[Opened, tuple[Remark, ...]] = WeakKeyDictionary()
"""What was found of the books that are open."""


def own_findings(opened: Opened) -> tuple[Remark, ...]:
    """Return what is to be said of the purpose, rules, notes and must-say sentences of a book.

    Sentences that nothing can be said of, or that are not understood, are left out: a book states
    much in words for which it has no facts. A remark's place is a file of the book with its line;
    its heading is the path of the fact. An open book is gone through once.

    Args:
        opened: the book, with day and site.
    """
    if opened not in _HELD:
        _HELD[opened] = tuple(_remarks(opened))
    return _HELD[opened]


def _remarks(opened: Opened) -> Iterator[Remark]:
    proofreader = Proofreader.of(opened)
    for block, (fact, readings) in enumerate(_prose(opened.book), 1):
        shown = _passage(fact, block)
        found = (proofreader.remark(replace(shown, text=text)) for text in readings)
        said = next((each for each in found if each.kind not in _SILENT), None)
        if said is not None:
            yield replace(said, passage=shown)


_SILENT = frozenset({"nothing", "not-understood", "not-in-the-book"})


def _prose(book: Book) -> Iterator[tuple[Fact[str], tuple[str, ...]]]:
    """Yield each piece of prose with the sentences it can be read as, the likeliest first."""
    for stated in _stated(book):
        if stated.value is not None:
            yield stated, (_sentence(stated.known),)
    for owner in (*book.places.values(), *book.parts.values()):
        note = getattr(owner, "note", None)
        if note is not None and note.value is not None:
            yield note, (_sentence(f"the {owner.name} {note.known}"), _sentence(note.known))
    for lock in book.locks.values():
        if lock.note is not None and lock.note.value is not None:
            yield lock.note, (_sentence(lock.note.known),)


def _stated(book: Book) -> Iterator[Fact[str]]:
    yield book.book.purpose
    yield from (rule.says for rule in book.rules.values())
    yield from (needed.says for needed in book.must_say.values())


def _sentence(text: str) -> str:
    return f"{capitalised(text).rstrip('.')}."


def _passage(fact: Fact[str], block: int) -> Passage:
    mark = fact.mark
    if mark is None:
        return Passage(fact.text, Place(fact.path, 1, 1), block, fact.path)
    where = f"{mark.file.rpartition('/')[2]}:{mark.line}"
    return Passage(fact.text, Place(where, mark.line, mark.column), block, fact.path)
