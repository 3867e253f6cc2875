"""Kept answers in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from baywright.answers.wording import Group, Row, Sheet
from baywright.desk.changes.said import Pair
from baywright.desk.kept.asking import Before
from baywright.desk.kept.desk import Asked, Corrected
from baywright.desk.kept.entry import Entry
from baywright.facts.citation import Citation
from baywright.laws.wording import counted


def kept_sheet(entry: Entry, before: Sequence[Before]) -> Sheet:
    """Return an answer that was just kept, with those to the same question before."""
    said = entry.statement
    groups = [
        Group("Facts", tuple(Row(fact.path, _quoted(fact)) for fact in said.facts)),
        Group("The same question before", tuple(_row(each.entry) for each in before if each.same)),
        Group("Near words", tuple(_row(each.entry) for each in before if not each.same)),
    ]
    return Sheet(
        "Kept",
        "kept",
        said.words,
        reading=f"Read as: {said.query.text}.",
        notes=tuple(group for group in groups if group.rows),
        standing=f"Kept {_when(entry)}, as of {said.query.as_of}.",
    )


def list_sheet(entries: Sequence[Entry]) -> Sheet:
    """Return all kept answers."""
    rows = tuple(_row(entry) for entry in entries)
    return _sheet(counted(len(entries), "answer"), "Kept answers, oldest first.", "Answers", rows)


def left_aside(number: int) -> str:
    """Say how many answers of a file are about other books."""
    are = "is" if number == 1 else "are"
    return f"{counted(number, 'answer')} of the file {are} about other books and left aside."


def again_sheet(pairs: Sequence[Pair]) -> Sheet:
    """Return what became of kept answers under the book as it is."""
    flips = [pair for pair in pairs if pair.flips]
    stay = sum(not pair.anew for pair in pairs)
    sentence = (
        f"{counted(len(pairs), 'answer')} held against the book; {stay} stay by what their proofs "
        "stand on, the rest were found anew."
    )
    word = f"{len(flips)} changed" if flips else "All hold"
    return _sheet(word, sentence, "Changed", tuple(map(_pair, flips)))


def most_sheet(asked: Sequence[Asked]) -> Sheet:
    """Return the questions asked most."""
    rows = tuple(
        Row(f"{each.times} ×", f"{each.entry.asked} {each.entry.statement.words}") for each in asked
    )
    return _sheet(counted(len(asked), "question"), "The most asked first.", "Questions", rows)


def open_sheet(waiting: Sequence[tuple[str, Sequence[Entry]]]) -> Sheet:
    """Return the facts that would answer what stayed open."""
    rows = tuple(
        Row(path, " ".join(dict.fromkeys(entry.asked for entry in entries)))
        for path, entries in waiting
    )
    word = counted(len(waiting), "fact") if waiting else "Nothing is open"
    return _sheet(word, "Facts that would decide what stayed open.", "Facts", rows)


def corrected_sheet(found: Corrected) -> Sheet:
    """Return which answers were wrong, given a corrected fact."""
    groups = (("Were wrong", found.wrong), ("Name the fact and hold", found.still))
    return Sheet(
        f"{len(found.wrong)} wrong" if found.wrong else "None wrong",
        "kept",
        f"With {found.path} at {found.value}.",
        notes=tuple(Group(t, tuple(map(_pair, pairs))) for t, pairs in groups if pairs),
    )


def _sheet(word: str, sentence: str, title: str, rows: tuple[Row, ...]) -> Sheet:
    return Sheet(word, "kept", sentence, notes=(Group(title, rows),) if rows else ())


def _row(entry: Entry) -> Row:
    by = f", {entry.by}" if entry.by else ""
    return Row(f"{_when(entry)}{by}", f"{entry.asked} {entry.statement.words}")


def _when(entry: Entry) -> str:
    return entry.when.date().isoformat()


def _pair(pair: Pair) -> Row:
    if not pair.flips:
        return Row(pair.name, pair.before.words)
    return Row(pair.name, f"Before: {pair.before.words} Now: {pair.after.words}")


def _quoted(fact: Citation) -> str:
    return ", ".join(_parts(fact))


def _parts(fact: Citation) -> Iterator[str]:
    yield fact.text
    yield from filter(None, (fact.source, fact.date.isoformat() if fact.date else ""))
