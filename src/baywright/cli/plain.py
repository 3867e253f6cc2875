"""Questions in plain words at the terminal: one, or all of a mail."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from rich.console import RenderableType
from rich.padding import Padding
from rich.text import Text

from baywright.cli import commands
from baywright.cli.guarding import ANSWERED, BAD_INPUT, code_of, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import sheet
from baywright.desk.opening import Opened
from baywright.desk.proofreading.answering import Answerer, Told, is_expression
from baywright.desk.proofreading.as_json import told_json
from baywright.desk.request import Request, opened
from baywright.desk.telling import answer_sheet
from baywright.exchange.drafts.draft import read_draft

__all__ = ["Request", "ask", "ask_mail"]


def ask(book: str, question: str, request: Request, *, as_json: bool) -> int:
    """Answer a question, written as an expression or in plain words."""
    if is_expression(question):
        return int(commands.ask(book, question, request, as_json=as_json))
    return int(_ask(book, question, request, as_json=as_json))


@guarded
def _ask(book: str, question: str, request: Request, *, as_json: bool) -> int:
    """Answer one question in plain words."""
    with progress(f"Asking {book}", as_json=as_json):
        held = opened(book, request)
        told = Answerer(held).ask(question)
    if as_json:
        show_json(told_json(told))
    else:
        show(tuple(_told(held, told, whole=True)))
    if told.not_understood:
        return BAD_INPUT
    return code_of(told.verdict.verdict) if told.verdict is not None else ANSWERED


@guarded
def ask_mail(book: str, path: Path, request: Request, *, as_json: bool) -> int:
    """Answer each question of a mail, with a reply to paste."""
    passages = read_draft(path).passages
    questions = [each.text for each in passages if each.text.endswith("?")]
    with progress(f"Asking {book}", as_json=as_json):
        held = opened(book, request)
        answerer = Answerer(held)
        answers = [answerer.ask(question) for question in questions]
    if as_json:
        show_json({"mail": str(path), "questions": [told_json(each) for each in answers]})
    else:
        show(tuple(line for each in answers for line in (*_told(held, each, whole=False), "")))
    return BAD_INPUT if any(each.not_understood for each in answers) else ANSWERED


def _told(held: Opened, told: Told, *, whole: bool) -> Iterator[RenderableType]:
    yield Text(told.question, style="bold")
    if told.reading:
        yield Text(f"Read as: {told.reading}", style="dim")
    if told.not_understood:
        yield Text(f"Not understood: {', '.join(told.not_understood)}. There is no answer.")
        return
    if told.verdict is not None and whole:
        yield from sheet(answer_sheet(held, told.verdict))
    else:
        yield Text(told.answer)
    yield Padding(Text(told.reply), (1, 0, 0, 2))
