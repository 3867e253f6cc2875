"""Reading a machine: its record, the build that follows from it, and the verdict on that."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.desk.judging import Judgement, judge_build
from baywright.desk.opening import Opened
from baywright.desk.reading.findings import findings
from baywright.desk.reading.fitting import fit
from baywright.desk.reading.onbook import OnBook
from baywright.exchange.machines import Wanted, read_record
from baywright.facts.record import Finding, Record
from baywright.files.books import build_from
from baywright.files.drafts import draft_text
from baywright.problems import Problem, Problems

DRAFT = "the draft"
"""What problems call the draft, which no file holds yet."""


@dataclass(frozen=True, slots=True)
class MachineRead:
    """A machine as read.

    Args:
        record: what it says of itself.
        on_book: what of it is where in the book.
        findings: what is inconsistent, fragile or unknown in the record.
        draft: the build file that follows, as text.
        judgement: the verdict on it, or ``None`` when the book has no such build.
        refused: why the book has no such build.
    """

    record: Record
    on_book: OnBook
    findings: tuple[Finding, ...]
    draft: str
    judgement: Judgement | None
    refused: tuple[Problem, ...]


def read_machine(opened: Opened, wanted: Wanted) -> MachineRead:
    """Read a machine on a book.

    Raises:
        Problems: for the source.
    """
    return on_book(opened, read_record(wanted))


def on_book(opened: Opened, record: Record) -> MachineRead:
    """Put a record on a book, and judge the build that follows."""
    fitted = fit(opened.book, record)
    draft = draft_text(
        opened.book.book.id,
        f"{record.machine}, as read",
        (line.draft for line in fitted.lines),
        ((each.place, f"{each.why}.") for each in fitted.left_open),
    )
    judgement, refused = _judged(opened, draft)
    found = findings(record, fitted.crowded)
    return MachineRead(record, fitted, found, draft, judgement, refused)


def _judged(opened: Opened, draft: str) -> tuple[Judgement | None, tuple[Problem, ...]]:
    """Judge the text of the draft itself, so that what is written is what was judged."""
    build = build_from(draft.encode("utf-8"), DRAFT)
    try:
        return judge_build(opened, build), ()
    except Problems as problems:
        return None, problems.problems
