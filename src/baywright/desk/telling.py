"""What the desk gives back, in words: sheets for a terminal, a page or paper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baywright.answers.wording import AID, Group, Row, Sheet, Voice, quote, told
from baywright.answers.wording.numbers import against
from baywright.desk.asking import Answer
from baywright.desk.checking import Checked
from baywright.desk.judging import Judgement, Margin, asks_redundancy
from baywright.desk.opening import Opened
from baywright.desk.review.finding import Finding
from baywright.facts.status import Status, standing_line
from baywright.laws.wording import capitalised, counted, listed


def answer_sheet(opened: Opened, answer: Answer) -> Sheet:
    """Return an answer in words."""
    sheet = told(answer.verdict, opened.machine)
    standing = _standing(opened, answer.as_of, answer.status)
    return replace(sheet, reading=f"Read as: {answer.reading}.", standing=standing)


def judgement_sheet(opened: Opened, judgement: Judgement) -> Sheet:
    """Return a judgement in words."""
    voice = Voice(
        "It can be built as asked.",
        "It cannot be built as asked.",
        redundant=asks_redundancy(judgement.must),
    )
    return replace(
        told(judgement.verdict, opened.machine, voice),
        reading=f"{judgement.name}: {judgement.site}.",
        notes=tuple(_notes(judgement)),
        standing=_standing(opened, judgement.as_of, judgement.status),
        aid=AID,
    )


def _notes(judgement: Judgement) -> Iterator[Group]:
    if judgement.margins:
        yield Group("Limits of the build as asked", tuple(map(_margin_row, judgement.margins)))
    if judgement.made_from:
        row = Row("Starts from", f"{listed(judgement.made_from)}, options added")
        yield Group("Ready-made models", (row,))
    asked = [Row(str(number), line) for number, line in enumerate(judgement.asked, 1)]
    asked += [Row("must have", must) for must in judgement.must]
    yield Group("Asked", tuple(asked))


def _margin_row(margin: Margin) -> Row:
    said = against(margin.used, margin.given, margin.dimension)
    return Row(capitalised(margin.words), f"peak draw {said}")


def checked_sheet(opened: Opened, checked: Checked) -> Sheet:
    """Return what a check of a book found, in words."""
    known = tuple(finding for finding in checked.findings if not finding.defect)
    groups = (("To put right", checked.defects), ("Good to know", known))
    return Sheet(
        _outcome(checked),
        "checked",
        _contents(checked),
        structure=tuple(quote(fact) for fact in checked.unknown),
        notes=tuple(
            Group(title, tuple(Row(str(n), _said(each)) for n, each in enumerate(findings, 1)))
            for title, findings in groups
            if findings
        ),
        standing=_standing(opened, checked.as_of, opened.status),
    )


def _outcome(checked: Checked) -> str:
    if not checked.buildable:
        return "Nothing can be built"
    number = len(checked.defects)
    return f"{number} to put right" if number else "No problems"


def _said(finding: Finding) -> str:
    """Return a finding with its proof and its place."""
    where = f" ({finding.where})" if finding.where else ""
    return " ".join((finding.says, *finding.proof)) + where


def _contents(checked: Checked) -> str:
    held = listed(
        (
            counted(checked.facts, "fact"),
            counted(checked.sources, "source"),
            counted(checked.places, "place"),
            counted(checked.parts, "part"),
        )
    )
    compiled = (
        f"{counted(checked.choices, 'choice')} under {counted(checked.laws, 'law')} and rules"
    )
    exists = "a legal build exists" if checked.buildable else "no legal build exists"
    unknown = len(checked.unknown)
    stated = f", {counted(unknown, 'fact')} not stated yet" if unknown else ""
    return f"{held}{stated}; {compiled}; {exists}."


def _standing(opened: Opened, as_of: str, status: Status) -> str:
    about = opened.book.book
    return standing_line(about.name, about.id, as_of, status)
