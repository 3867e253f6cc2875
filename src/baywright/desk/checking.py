"""Checking a book: what it holds, what nobody knows yet, and what a review finds in it."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass

from baywright.desk.opening import Opened
from baywright.desk.questions import Listed
from baywright.desk.review.finding import Finding
from baywright.desk.review.review import STALE_AFTER, review
from baywright.facts.book import facts_of
from baywright.facts.citation import Citation


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check of a book found.

    Args:
        book: id of the book.
        name: name of the machine.
        as_of: the day it was checked for, in ISO form.
        facts: how many facts it states.
        sources: how many sources it names.
        places: how many places it has.
        parts: how many parts it has.
        choices: choices of the compiled space that are not derived.
        laws: laws and rules of the compiled space.
        unknown: facts whose value nobody has stated yet, or sources dispute.
        buildable: whether some legal build exists.
        findings: what there is to put right, and then what is good to know.
        status: what the machine is on that day.
    """

    book: str
    name: str
    as_of: str
    facts: int
    sources: int
    places: int
    parts: int
    choices: int
    laws: int
    unknown: tuple[Citation, ...]
    buildable: bool
    findings: tuple[Finding, ...]
    status: str

    @property
    def defects(self) -> tuple[Finding, ...]:
        """What there is to put right."""
        return tuple(finding for finding in self.findings if finding.defect)


def check(
    opened: Opened,
    questions: Sequence[Listed] | None = None,
    stale_after: datetime.timedelta = STALE_AFTER,
) -> Checked:
    """Check an open book; reading and compiling it has already found its problems.

    Args:
        opened: the book, with day and site.
        questions: what unknown facts are ranked by; the lists in its folder unless given.
        stale_after: age of a source at the edition from which it is stale.

    Raises:
        Problems: when a list of questions cannot be read.
        StoppedError: at the limit of an engine.
        RecheckError: when two engines do not agree.
    """
    book, machine = opened.book, opened.machine
    findings = review(opened, questions, stale_after)
    return Checked(
        book.book.id,
        book.book.name,
        opened.as_of.isoformat(),
        sum(1 for _ in facts_of(book)),
        len(book.sources),
        len(book.places),
        len(book.parts),
        sum(1 for choice in machine.space.choices if not choice.derived),
        len(machine.space.origins),
        book.cite(*opened.unknown.values()),
        opened.inquiry().possible(machine.space) is not None,
        findings,
        opened.status.word,
    )
