"""The demo: a list of questions answered, the bundled builds judged, the bundled books checked."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from baywright.answers.as_json import Json
from baywright.desk.as_json import answer_json, checked_json, judgement_json
from baywright.desk.asking import ask
from baywright.desk.checking import check
from baywright.desk.opening import Opened
from baywright.desk.questions import Listed, read_questions
from baywright.desk.rechecking import recheck
from baywright.desk.request import Request, judged, opened
from baywright.desk.telling import answer_sheet, checked_sheet, judgement_sheet
from baywright.files.books import bundled_books
from baywright.papers.report import Entry, Report, build_page, report_page, report_text

BOOK = "f2"
QUESTIONS = "questions/demo.yaml"

Step = Callable[[str], None]
"""Told what is done next."""


@dataclass(frozen=True, slots=True)
class Demo:
    """What the demo found.

    Args:
        report: everything in words, for paper.
        data: the same as JSON values.
        rechecked: how many builds were checked once more.
    """

    report: Report
    data: Json
    rechecked: int


@dataclass(frozen=True, slots=True)
class _Found:
    """One thing found: its entry, its JSON values, its builds checked once more."""

    entry: Entry
    data: Json
    rechecked: int = 0


def run_demo(request: Request, step: Step) -> Demo:
    """Answer, judge and check all that the demo holds.

    Args:
        request: day and limits.
        step: told what is done next.

    Raises:
        Problems: for the request or a bundled file.
        RecheckError: when an answer does not pass its re-check.
    """
    books = bundled_books()
    answers = _answers(books[BOOK] / QUESTIONS, request, step)
    builds = [
        _judged(name, path, request, step)
        for name, folder in books.items()
        for path in sorted((folder / "builds").glob("*.yaml"))
    ]
    checks = [_checked(name, request, step) for name in books]
    held = opened(BOOK, request)
    about = held.book.book
    report = Report(
        f"{about.name}: questions and builds",
        f"{about.maker}. Book {about.id}, edition {about.edition.known.isoformat()}.",
        tuple(each.entry for each in answers),
        tuple(each.entry for each in builds),
        tuple(each.entry for each in checks),
        held.as_of.isoformat(),
    )
    data = {
        "answers": [each.data for each in answers],
        "judgements": [each.data for each in builds],
        "checks": [each.data for each in checks],
    }
    return Demo(report, data, sum(each.rechecked for each in (*answers, *builds)))


def _answers(path: Path, request: Request, step: Step) -> list[_Found]:
    by_day: dict[str, Opened] = {}
    found: list[_Found] = []
    for question in read_questions(path):
        day = question.as_of or request.as_of
        if day not in by_day:
            by_day[day] = opened(BOOK, replace(request, as_of=day))
        step(question.says)
        found.append(_answered(by_day[day], question, len(found) + 1))
    return found


def _answered(held: Opened, question: Listed, number: int) -> _Found:
    answer = ask(held, question.ask, question.mark)
    entry = Entry(f"q{number}", question.says, question.ask, answer_sheet(held, answer))
    rechecked = recheck(held.machine, answer.verdict)
    return _Found(entry, {"says": question.says, **answer_json(answer)}, rechecked)


def _judged(book: str, path: Path, request: Request, step: Step) -> _Found:
    step(f"{book}, {path.stem}")
    held, judgement = judged(book, path, request)
    entry = Entry(path.stem, judgement.name, "", judgement_sheet(held, judgement))
    return _Found(entry, judgement_json(judgement), recheck(held.machine, judgement.verdict))


def _checked(book: str, request: Request, step: Step) -> _Found:
    step(book)
    held = opened(book, request)
    checked = check(held)
    return _Found(
        Entry(book, checked.name, "", checked_sheet(held, checked)), checked_json(checked)
    )


def files_of(demo: Demo) -> dict[str, str]:
    """Return the files of the demo by their path."""
    report = demo.report
    return {
        "index.html": report_page(report),
        "answers.md": report_text(report),
        "answers.json": json.dumps(demo.data, indent=2, ensure_ascii=False) + "\n",
        **{f"builds/{entry.key}.html": build_page(report, entry) for entry in report.builds},
    }
