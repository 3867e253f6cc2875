"""The command new: a book from a question list, asked one by one or answered in a file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import typer
from rich.console import RenderableType
from rich.text import Text

from baywright.answers.as_json import Json
from baywright.cli.guarding import ANSWERED, BAD_INPUT, STOPPED, guarded
from baywright.cli.output import console, show, show_json, show_problems
from baywright.cli.sheets import columns, heading
from baywright.desk.capture.answering import checked, read_answers
from baywright.desk.capture.beginning import Begun, asked_by, begun, check_new, write_begun
from baywright.desk.capture.cells import NotUnderstoodError
from baywright.desk.capture.keeping import keep_answers, kept_answers, to_ask_again
from baywright.desk.capture.missing import missing
from baywright.desk.capture.questions import MORE, UNKNOWN, Answers, Question, open_questions
from baywright.desk.opening import open_book
from baywright.laws.wording import counted

__all__ = ["new"]

STOP, BACK = "stop", "back"
_INTRODUCTION = (
    "Answer with a value and its unit. Say unknown where nobody knows, and unknown: 8 W or 9 W "
    "where it is one of several. Say back to take the last answer back, and stop to go on later."
)


@guarded
def new(folder: Path, answers: Path | None, *, as_json: bool) -> int:
    """Begin a book: ask, or read the answers; write it, and say what is missing."""
    earlier = kept_answers(folder)
    check_new(folder, earlier)
    if answers is not None:
        given = read_answers(answers)
    else:
        given = to_ask_again(earlier)
        if not _asked(folder, given):
            return STOPPED
    made = begun(given)
    write_begun(folder, made)
    keep_answers(folder, given)
    if as_json:
        show_json(_json(folder, made, given))
    else:
        show(_sheet(folder, made, given))
        show_problems(made.problems, as_json=False)
    return BAD_INPUT if made.problems else ANSWERED


def _asked(folder: Path, answers: Answers) -> bool:
    """Ask what is open and keep each answer; false when the person stops."""
    out, section, order = console(errors=True), "", list(answers)
    out.print(Text(_INTRODUCTION))
    while (question := next(open_questions(answers), None)) is not None:
        if question.path[0] not in (section, MORE):
            section = question.path[0]
            out.print(Text(f"\n{section}", style="bold"))
        said = _answer(question)
        if said == BACK and order:
            del answers[order.pop()]
        elif said in (STOP, BACK):
            command = f"baywright new {folder}"
            out.print(Text(f"\n{len(answers)} answers are kept; go on with {command}."))
            return False
        else:
            answers[question.path] = said
            order.append(question.path)
        keep_answers(folder, answers)
    return True


def _answer(question: Question) -> str:
    """Return an answer that makes sense."""
    path = ".".join(question.path)
    while True:
        try:
            text = f"{path}: {question.says} ({question.such_as})"
            said: str = typer.prompt(text, default="", show_default=False, err=True).strip()
        except typer.Abort:
            return STOP
        if said in (STOP, BACK):
            return said
        if not said and not question.needed:
            said = UNKNOWN if question.shape in ("value", "list", "pairs") else "none"
            said = "0" if question.shape == "number" else said
        try:
            checked(question, said)
        except NotUnderstoodError as error:
            console(errors=True).print(Text(error.why), soft_wrap=True)
        else:
            return said


def _sheet(folder: Path, made: Begun, answers: Answers) -> Iterator[RenderableType]:
    yield Text(f"Written to {folder}: {', '.join(made.files)}.", style="bold")
    if made.unknown or made.needed:
        yield from heading("Not known")
        yield columns(
            (Text(".".join(question.path)), _without(question, answers))
            for question in dict.fromkeys((*made.needed, *made.unknown))
        )
    if made.book is None:
        yield ""
        yield Text("The book cannot be asked yet:")
        return
    yield from heading("Left open")
    yield columns(
        (Text(each.title), Text(counted(sum(len(gap.entries) for gap in each.gaps), "fact"), "dim"))
        for each in missing(open_book(folder))
    )
    yield Text(f"baywright missing {folder} lists them; baywright check {folder} looks for slips.")


def _without(question: Question, answers: Answers) -> Text:
    """Say what cannot be decided without an answer, and what would do."""
    asks = asked_by(question, answers)
    laws = f"without it nothing is decided by the laws of {'; '.join(asks)}" if asks else ""
    hint = "; needed: unknown: A or B would do" if question.needed else ""
    return Text(f"{laws or 'no law asks for it'}{hint}", style="dim")


def _json(folder: Path, made: Begun, answers: Answers) -> Json:
    unknown = dict.fromkeys((*made.needed, *made.unknown))
    return {
        "folder": str(folder),
        "files": list(made.files),
        "sound": made.book is not None,
        "unknown": [
            {
                "path": ".".join(question.path),
                "needed": question.needed,
                "laws": list(asked_by(question, answers)),
            }
            for question in unknown
        ],
        "problems": [found.as_json() for found in made.problems],
    }
