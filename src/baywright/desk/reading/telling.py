"""A machine as read, in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from baywright.answers.wording import Group, Row
from baywright.desk.reading.findings import ORDER
from baywright.desk.reading.onbook import READ
from baywright.desk.reading.reading import MachineRead
from baywright.laws.wording import counted, listed


def title(found: MachineRead) -> str:
    """Return what was read."""
    record = found.record
    return f"{record.machine}, by {record.standard} from {record.source}"


def summary(found: MachineRead) -> str:
    """Return in one sentence how much of the record is on the book."""
    lines, left_open = found.on_book.lines, found.on_book.left_open
    read = sum(line.basis == READ for line in lines)
    places = f"{read} of {counted(len(lines) + len(left_open), 'place')} read"
    follows = f"{len(lines) - read} of what is read elsewhere"
    kinds = Counter(each.kind for each in found.findings)
    doubts = listed(f"{kinds[kind]} {kind}" for kind in ORDER if kinds[kind]) or "none"
    return (
        f"{places}, {follows}, {len(left_open)} left open; "
        f"{counted(len(found.on_book.not_fitted), 'part')} in no place; findings: {doubts}."
    )


def groups(found: MachineRead) -> Iterator[Group]:
    """Yield what is in each place, what is not, and what is doubtful in the record."""
    fitted = found.on_book
    findings = [Row(each.kind, f"{each.where}: {each.says}") for each in found.findings]
    lines = [
        Row(line.draft.place, "\n".join((line.draft.written, *line.draft.grounds)))
        for line in fitted.lines
    ]
    left_open = [Row(each.place, f"{each.why}.") for each in fitted.left_open]
    unplaced = [
        Row(each.entry.kind, f"{each.entry.where}: {each.why}.") for each in fitted.not_fitted
    ]
    refused = [Row(each.kind, f"{each.message} {each.hint}") for each in found.refused]
    for name, rows in (
        ("Doubtful in the record", findings),
        ("In the book", lines),
        ("Left open", left_open),
        ("In no place", unplaced),
        ("The book has no such build", refused),
    ):
        if rows:
            yield Group(name, tuple(rows))
