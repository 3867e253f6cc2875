"""Making a sheet: a template filled, with what that kind of sheet may call beside the notation."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias

from baywright.desk.guide.by_hand import typed_numbers
from baywright.desk.guide.chapters import packaged
from baywright.desk.guide.making import Guide, standing
from baywright.desk.guide.notation import Notation, Template, filled
from baywright.desk.guide.writer import Writer
from baywright.desk.opening import Opened
from baywright.desk.sheets.against import Against, compared_in_short
from baywright.desk.sheets.answers import Answers
from baywright.desk.sheets.asked import Asked, Desk
from baywright.desk.sheets.brief import apart_list, maxima_table
from baywright.desk.sheets.build import BuildSheet
from baywright.desk.sheets.models import side_by_side
from baywright.desk.sheets.quiz.quiz import Quiz
from baywright.desk.statements.shared import Shared
from baywright.facts.cautions import PLANNING_AID
from baywright.papers.document import Block, Document, Form
from baywright.papers.numbering import numbered
from baywright.problems import Problems, problem, suggestion

Calls: TypeAlias = Callable[[Desk], Mapping[str, object]]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of sheet; its template has the same name.

    Args:
        title: what it is called on its head.
        form: how long it is.
        calls: what its template may call beside the notation of the guide.
    """

    title: str
    form: Form
    calls: Calls


def _brief(desk: Desk) -> Mapping[str, object]:
    return {
        "maxima_in_short": partial(maxima_table, desk),
        "apart_in_short": partial(apart_list, desk),
    }


def _models(desk: Desk) -> Mapping[str, object]:
    return {"models_side_by_side": partial(side_by_side, desk)}


def _against(desk: Desk) -> Mapping[str, object]:
    made = Against(desk)
    return {"other_name": made.other_name, "compared": made.rows, "fronts": made.fronts}


def _answers(desk: Desk) -> Mapping[str, object]:
    return {"answers": Answers(desk).all}


def _slides(desk: Desk) -> Mapping[str, object]:
    compared = {"compared_in_short": partial(compared_in_short, desk)}
    return {**_brief(desk), **_models(desk), **compared}


def _quiz(desk: Desk) -> Mapping[str, object]:
    made = Quiz(desk)
    return {"quiz_questions": made.questions, "quiz_answers": made.answers}


def _build(desk: Desk) -> Mapping[str, object]:
    return dict(BuildSheet(desk).calls())


KINDS: Mapping[str, Kind] = {
    "summary": Kind("summary", "page", _brief),
    "models": Kind("models", "sheet", _models),
    "comparison": Kind("comparison", "sheet", _against),
    "questions": Kind("questions and answers", "sheet", _answers),
    "build": Kind("build sheet", "sheet", _build),
    "slides": Kind("briefing", "slides", _slides),
    "quiz": Kind("quiz", "parts", _quiz),
}
"""Every kind of sheet. A new one is a template and a line here."""


def kind_of(name: str) -> Kind:
    """Return a kind of sheet by its name.

    Raises:
        Problems: kind ``no-sheet``, with the nearest.
    """
    if name not in KINDS:
        hint = suggestion(name, KINDS) or f"There are {', '.join(KINDS)}."
        raise problem("no-sheet", f"There is no sheet {name!r}.", None, hint)
    return KINDS[name]


def template_of(name: str) -> Template:
    """Return the template of a kind of sheet."""
    return next(each for each in packaged("sheets") if each.file == f"{name}.md")


def make_sheet(opened: Opened, asked: Asked) -> Guide:
    """Write a sheet about an open book.

    Args:
        opened: the book, with its day.
        asked: which sheet, and what about.

    Raises:
        Problems: for a kind, a build or another book that is not there.
        StoppedError: at a limit.
        RecheckError: when two engines do not agree.
    """
    kind, template = kind_of(asked.kind), template_of(asked.kind)
    typed = list(typed_numbers(template))
    if typed:
        raise Problems(typed)
    writer = Writer(Shared(opened))
    calls = kind.calls(Desk(writer, asked))
    blocks = filled(template, Notation(writer), calls)
    document = _document(opened, kind, str(calls.get("build_name", "")), blocks)
    return Guide(numbered(document), writer.statements)


def _document(opened: Opened, kind: Kind, build: str, blocks: tuple[Block, ...]) -> Document:
    about = opened.book.book
    lines = (
        f"{about.maker}. Book {about.id}, edition of {about.edition.text}.",
        f"As of {opened.as_of}: {standing(opened.status)}",
    )
    foot = f"{about.maker}. Book of {about.edition.text}, as of {opened.as_of}. {PLANNING_AID}"
    title = f"{about.name}: {build}" if build else str(about.name)
    return Document(title, kind.title, str(about.maker), lines, foot, blocks, form=kind.form)
