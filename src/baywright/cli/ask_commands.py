"""The command about questions: ask."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import (
    Altitude,
    AsJson,
    AsOf,
    Book,
    Inlet,
    Reasons,
    Seconds,
    SpaceFile,
)
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import plain, spaces
else:
    # The engines take longer to load than help may take.
    plain = later("baywright.cli.plain")
    spaces = later("baywright.cli.spaces")


def add_to(app: typer.Typer) -> None:
    """Add the command to the program."""
    app.command()(ask)


def ask(
    book: Book = "",
    question: Annotated[
        str, typer.Argument(metavar="QUESTION", help="An expression, or plain words.")
    ] = "",
    *,
    mail: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A mail: answer each of its questions.")
    ] = None,
    space: SpaceFile = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
    reasons: Reasons = 1,
) -> None:
    """Answer a question, written as an expression or in plain words.

    The command words shows what an expression may use.

    Example: baywright ask f2 'Can one controller drive 24 SAS drives?'
    """
    request = (as_of, altitude, inlet, limit, reasons)
    if space is not None:
        if question:
            raise typer.BadParameter("--space FILE stands in place of BOOK; give one of them.")
        asked = _wanted(book)
        perform(lambda: spaces.ask(space, asked, plain.Request(*request), as_json=as_json))
    if mail is not None:
        perform(lambda: plain.ask_mail(book, mail, plain.Request(*request), as_json=as_json))
    asked = _wanted(question)
    perform(lambda: plain.ask(book, asked, plain.Request(*request), as_json=as_json))


def _wanted(text: str) -> str:
    """Return a question that may be missing only beside a mail."""
    if not text:
        raise typer.BadParameter("Missing argument 'QUESTION'.")
    return text
