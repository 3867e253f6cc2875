"""Changes in words: facts first, then what flips."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.answers.wording import AID, Group, Row, Sheet
from baywright.desk.changes.changing import Changes
from baywright.desk.changes.said import Pair
from baywright.laws.wording import counted

KINDS = {
    "status": "Status",
    "date": "Dates",
    "last order": "Last orders",
    "part": "Parts",
    "answer": "Answers",
    "model": "Ready-made models",
    "build": "Builds",
    "nearest build": "Nearest builds",
    "order": "Orders",
    "draft": "Drafts",
    "need": "Needs",
}
"""Titles by kind of what flips; other kinds are files of statements, named as they are."""


def changes_sheet(found: Changes) -> Sheet:
    """Return changes in words."""
    flips = len(found.flips)
    return Sheet(
        f"{counted(flips, 'thing')} {'flips' if flips == 1 else 'flip'}"
        if flips
        else "Nothing flips",
        "changes",
        _sentence(found),
        notes=tuple(_groups(found)),
        standing=_standing(found),
        aid=AID,
    )


def _sentence(found: Changes) -> str:
    about = f"{found.title}: {found.says}" if found.says else f"{found.title}."
    facts = counted(sum(not _of_note(each.path) for each in found.facts), "fact")
    number, stay = counted(len(found.pairs), "thing"), len(found.pairs) - found.anew
    stays = f"; {stay} of them stay by what their proofs stand on, the rest were found anew"
    return f"{about} {facts} changed. {number} looked at{stays if stay else ''}."


def _groups(found: Changes) -> Iterator[Group]:
    rows = tuple(Row(each.path, each.words) for each in found.facts if not _of_note(each.path))
    if rows:
        yield Group("Facts", rows)
    kinds = dict.fromkeys(pair.kind for pair in found.flips)
    for kind in kinds:
        title = KINDS.get(kind, kind)
        yield Group(title, tuple(_row(pair) for pair in found.flips if pair.kind == kind))


def _of_note(path: str) -> bool:
    """Say whether a fact is only the entry of a change note among the sources."""
    return path.startswith("sources.")


def _row(pair: Pair) -> Row:
    return Row(pair.name, f"Before: {pair.before.words} Now: {pair.after.words}")


def _standing(found: Changes) -> str:
    first, last = found.days
    days = f"as of {first}" if first == last else f"from {first} to {last}"
    return f"Book {found.book}, {days}."
