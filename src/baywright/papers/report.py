"""A report: questions with their answers, builds with their judgements, books with their checks."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.answers.wording import Sheet
from baywright.papers.environment import environment


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that was asked.

    Args:
        key: short id, used as an anchor and in names of files.
        title: what was asked, in words.
        expression: the same as an expression, or empty.
        sheet: what came out.
    """

    key: str
    title: str
    expression: str
    sheet: Sheet


@dataclass(frozen=True, slots=True)
class Report:
    """What was asked and what came out.

    Args:
        title: title of the report.
        subtitle: what it stands on.
        questions: the questions.
        builds: the builds that were judged.
        books: the books that were checked.
        as_of: the day it holds for, in ISO form.
    """

    title: str
    subtitle: str
    questions: tuple[Entry, ...]
    builds: tuple[Entry, ...]
    books: tuple[Entry, ...]
    as_of: str

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Everything that was asked, in the order of the page."""
        return (*self.questions, *self.builds, *self.books)


def report_page(report: Report) -> str:
    """Return the whole report as one page of HTML that needs nothing else."""
    return environment().get_template("report.html.j2").render(report=report)


def build_page(report: Report, entry: Entry) -> str:
    """Return the judgement of one build as a page of its own."""
    return environment().get_template("build.html.j2").render(report=report, entry=entry)


def report_text(report: Report) -> str:
    """Return the report as text in Markdown."""
    return environment().get_template("report.md.j2").render(report=report)
