"""Reviewing a book: every finder in turn, defects first."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from pathlib import Path

from baywright.desk.opening import Opened
from baywright.desk.questions import Listed, read_questions
from baywright.desk.review.finding import Finding
from baywright.desk.review.registry import FINDERS
from baywright.desk.review.subject import Reviewed, left_of
from baywright.files.disk import is_folder

STALE_AFTER = datetime.timedelta(days=3 * 365)
"""Sources older than this at the edition are stale unless another time is given."""


def review(
    opened: Opened,
    questions: Sequence[Listed] | None = None,
    stale_after: datetime.timedelta = STALE_AFTER,
) -> tuple[Finding, ...]:
    """Return what there is to put right in an open book, and then what is good to know.

    Args:
        opened: the book, with day and site.
        questions: what unknown facts are ranked by; the lists in its folder unless given.
        stale_after: age of a source at the edition from which it is stale.

    Raises:
        Problems: when a list of questions cannot be read.
        StoppedError: at the limit of an engine.
        RecheckError: when two engines do not agree.
    """
    asked = questions if questions is not None else own_questions(opened.folder)
    book = Reviewed(opened, left_of(opened), tuple(asked), stale_after)
    found = list(_findings(book))
    return tuple(sorted(found, key=lambda finding: not finding.defect))


def own_questions(folder: Path) -> list[Listed]:
    """Return the questions in the lists that lie beside a book.

    Raises:
        Problems: when a list cannot be read.
    """
    lists = folder / "questions"
    files = sorted(lists.glob("*.yaml")) if is_folder(lists) else []
    return [question for file in files for question in read_questions(file)]


def _findings(book: Reviewed) -> Iterator[Finding]:
    for finder in FINDERS:
        if book.buildable or not finder.of_builds:
            yield from finder.find(book)
