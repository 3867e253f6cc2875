"""Comparisons in words and as plain JSON values."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.answers.as_json import Json, build_json
from baywright.answers.wording import AID, Group, Names, Row, Rows, Sheet
from baywright.desk.compare.asking import Found
from baywright.desk.compare.builds import TRUTHS
from baywright.desk.compare.like import Like
from baywright.desk.compare.rows import Compared, Comparison
from baywright.desk.order.as_json import steps_json
from baywright.desk.space_telling import proof_json, proof_words
from baywright.laws.wording import counted

HEADS = ("", "What", "First", "Second")


def compared_sheet(found: Found) -> Sheet:
    """Return a comparison in words: what is lost first, then the rest, then what is the same."""
    held = found.comparison if isinstance(found, Like) else found
    gone = held.having("gone", "less")
    return Sheet(
        _title(held),
        "compared",
        _sentence(held),
        table=Rows(HEADS, tuple(_row(row) for row in gone)) if gone else None,
        notes=(*_becomes(found), *_groups(held), *_same(held), *_remarks(held)),
        proof=proof_words(found.proof) if isinstance(found, Like) else "",
        standing=f"First: {held.first.about}\nSecond: {held.second.about}",
        aid=AID,
    )


def _title(held: Comparison) -> str:
    return f"{held.first.name} and {held.second.name}"


def _sentence(held: Comparison) -> str:
    counts = ", ".join(f"{number} {word}" for word, number in held.counts().items() if number)
    gone = held.having("gone", "less")
    lost = f" {counted(len(gone), 'line')} of the first are less or gone:" if gone else ""
    return f"From the first to the second: {counts}.{lost}"


def _row(row: Compared) -> tuple[str, ...]:
    return (row.word, f"{row.group}: {row.what}", row.first or "none", _second(row) or "none")


def _second(row: Compared) -> str:
    conditions = f" (only if {' and '.join(row.only_if)})" if row.only_if else ""
    return f"{row.second}{conditions}"


def _becomes(found: Found) -> Iterator[Group]:
    """Yield what became of each part, where a build was carried over to another book."""
    if not isinstance(found, Like):
        return
    old, new = Names(found.first.opened.book), Names(found.second.opened.book)
    rows = []
    for step in found.repair.steps:
        if step.kind == "swap":
            said = f"{new.part(step.part)}"
            rows.append(Row(f"{step.count} × {old.part(step.instead_of)}", said))
        elif step.kind == "add":
            rows.append(Row("nothing of the first", f"{step.count} × {new.part(step.part)} added"))
        else:
            rows.append(Row(f"{step.count} × {old.part(step.part)}", "has no like and is left out"))
    yield Group("What becomes of each part", tuple(rows))


def _groups(held: Comparison) -> Iterator[Group]:
    for group in dict.fromkeys(row.group for row in held.rows):
        rows = [row for row in held.rows if row.group == group]
        told = [row for row in rows if row.word in ("more", "new", "other") or row.only_if]
        if told:
            yield Group(group, tuple(Row(row.what, _told(row)) for row in told))


def _told(row: Compared) -> str:
    if row.word == "new":
        return f"new: {_second(row)}"
    if row.word == "other" and "→" in row.second:
        return row.second
    if row.word == "same":
        return f"the same, {_second(row)}"
    return f"{row.word}: {row.first} → {_second(row)}"


def _same(held: Comparison) -> Iterator[Group]:
    rows = []
    for group in dict.fromkeys(row.group for row in held.rows):
        same = [_alike(row) for row in held.having("same") if row.group == group]
        if same:
            rows.append(Row(group, ", ".join(same)))
    if rows:
        yield Group("The same on both sides", tuple(rows))


def _alike(row: Compared) -> str:
    # "The supplies are redundant" would read as a fact where it is false on both sides.
    return f"{row.what}: {row.second}" if row.group == TRUTHS else row.what


def _remarks(held: Comparison) -> Iterator[Group]:
    if held.remarks:
        yield Group("Remarks", tuple(Row("", each) for each in held.remarks))


def compared_json(found: Found) -> Json:
    """Return a comparison as plain JSON values."""
    held = found.comparison if isinstance(found, Like) else found
    said: Json = {
        "first": {"name": held.first.name, "about": held.first.about},
        "second": {"name": held.second.name, "about": held.second.about},
        "counts": held.counts(),
        "rows": [
            {
                "group": row.group,
                "what": row.what,
                "first": row.first or None,
                "second": row.second or None,
                "word": row.word,
                "only_if": list(row.only_if),
            }
            for row in held.rows
        ],
        "like": None,
    }
    if isinstance(found, Like):
        said["like"] = {
            "steps": steps_json(found.repair),
            "build": build_json(found.repair.witness),
            "proof": proof_json(found.proof),
        }
    return said
