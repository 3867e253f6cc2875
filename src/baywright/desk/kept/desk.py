"""The desk of kept answers: held against the book, counted, traced to the facts they stand on."""

from __future__ import annotations

import tempfile
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from baywright.desk.changes.answers import said
from baywright.desk.changes.said import Pair, Said
from baywright.desk.changes.watched import said_or_why
from baywright.desk.kept.asking import normal
from baywright.desk.kept.entry import Entry
from baywright.desk.opening import Opened, open_book
from baywright.desk.statements.query import Query
from baywright.desk.statements.seals import Sealer
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.stating import state
from baywright.files.notes import Note, write_noted
from baywright.problems import Problems


def again(opened: Opened, entries: Iterable[Entry]) -> tuple[Pair, ...]:
    """Hold kept answers against the book as it is now, in their order.

    An answer whose seal is unbroken is known to stay; the others are found anew.
    """
    shared = Shared(opened)
    sealer = Sealer(shared)
    known: dict[Query, tuple[Said, bool]] = {}

    def now(entry: Entry) -> tuple[Said, bool]:
        if _stays(sealer, entry):
            return said(entry.statement), False
        return said_or_why(partial(_anew, shared, entry.statement.query)), True

    pairs = []
    for entry in entries:
        query = entry.statement.query
        if query not in known:
            known[query] = now(entry)
        after, anew = known[query]
        pairs.append(Pair("answer", entry.asked, said(entry.statement), after, anew))
    return tuple(pairs)


def _stays(sealer: Sealer, entry: Entry) -> bool:
    try:
        return entry.seal is not None and sealer.holds(entry.statement, entry.seal)
    except Problems:
        return False  # It makes no sense any more; the answer anew says why.


def _anew(shared: Shared, query: Query) -> Said:
    return said(state(shared, query))


@dataclass(frozen=True, slots=True)
class Asked:
    """A question with how often it was asked.

    Args:
        entry: the answer kept last.
        times: how often it was asked, in whatever words.
        by: who asked.
    """

    entry: Entry
    times: int
    by: tuple[str, ...]


def most_asked(entries: Sequence[Entry]) -> tuple[Asked, ...]:
    """Return each question once, the most asked first."""
    groups: dict[tuple[str, str], list[Entry]] = {}
    for entry in entries:
        groups.setdefault(normal(entry.statement.query), []).append(entry)
    found = [
        Asked(group[-1], len(group), tuple(dict.fromkeys(each.by for each in group if each.by)))
        for group in groups.values()
    ]
    return tuple(sorted(found, key=lambda each: -each.times))


def left_open(entries: Iterable[Entry]) -> tuple[tuple[str, tuple[Entry, ...]], ...]:
    """Return the facts that would decide what stayed open, with the questions each is part of."""
    waiting: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry.statement.verdict == "undecided":
            for path in entry.statement.value["facts"]:
                waiting.setdefault(path, []).append(entry)
    ranked = Counter({path: len(each) for path, each in waiting.items()}).most_common()
    return tuple((path, tuple(waiting[path])) for path, _ in ranked)


@dataclass(frozen=True, slots=True)
class Corrected:
    """What became of the answers that a corrected fact touches.

    Args:
        path: the fact.
        value: its corrected value.
        wrong: answers that come out otherwise.
        still: answers whose proof names the fact and that hold all the same.
    """

    path: str
    value: str
    wrong: tuple[Pair, ...]
    still: tuple[Pair, ...]


def corrected(opened: Opened, entries: Sequence[Entry], path: str, value: str) -> Corrected:
    """Return which kept answers were wrong, given the right value of a fact.

    Args:
        opened: the book, with the fact as it was; it stays as it is.
        entries: the kept answers.
        path: the fact.
        value: its corrected value, as written.

    Raises:
        Problems: for a fact or a value that makes no sense.
    """
    note = Note("correction", "A corrected fact", opened.as_of, "", {path: value})
    with tempfile.TemporaryDirectory(prefix="baywright-") as scratch:
        folder = write_noted(opened.folder, note, Path(scratch) / opened.folder.name)
        pairs = again(open_book(folder, opened.setting, opened.panel), entries)
        wrong = tuple(pair for pair in pairs if pair.flips)
    still = tuple(pair for pair in pairs if not pair.flips and path in pair.before.facts)
    return Corrected(path, value, wrong, still)
