"""The commands that help to capture facts: new, missing, capture."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from baywright.cli.arguments import AsJson, AsOf, Book
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import captures, new_books
else:
    # The engines take longer to load than help may take.
    captures = later("baywright.cli.captures")
    new_books = later("baywright.cli.new_books")


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    for command in (new, missing, capture):
        app.command()(command)


def new(
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="Folder of the new book.")],
    *,
    answers: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Answers in the shape of a book; else they are asked."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Begin a book with a question list, and say what is missing for which questions.

    Example: baywright new mybook
    Example: baywright new mybook --answers answers.yaml
    """
    perform(lambda: new_books.new(folder, answers, as_json=as_json))


def missing(
    book: Book,
    *,
    about: Annotated[
        str,
        typer.Option(
            metavar="KIND",
            help="One kind: unsettled, laws, drawings, service, or a subject of sizing.",
        ),
    ] = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
) -> None:
    """Say which facts a book leaves out, and what cannot be answered without them.

    Example: baywright missing mybook
    Example: baywright missing mybook --about power
    """
    perform(lambda: captures.missing(book, about, captures.Request(as_of), as_json=as_json))


def capture(
    book: Book,
    table: Annotated[
        str,
        typer.Argument(metavar="TABLE", help="A table: .csv, .txt, .xlsx, or - to paste it."),
    ],
    *,
    about: Annotated[
        str,
        typer.Option(
            "--as",
            metavar="WHAT",
            help="What the rows are: parts, memory, drives, supplies, places, ports, ...",
        ),
    ] = "",
    mapped: Annotated[
        list[str] | None,
        typer.Option("--map", metavar="HEADING=FIELD", help="What a column is; none after =."),
    ] = None,
    decimal: Annotated[
        Literal["comma", "point"] | None,
        typer.Option(help="The sign before decimals, where the table does not tell."),
    ] = None,
    source: Annotated[
        str, typer.Option(metavar="ID", help="The source of the book that new facts cite.")
    ] = "",
    replace: Annotated[
        bool, typer.Option("--replace", help="Go over facts that say something else.")
    ] = False,
    write: Annotated[bool, typer.Option("--write", help="Write it into the book.")] = False,
    leave_rest: Annotated[
        bool, typer.Option("--leave-rest", help="With --write: leave out what cannot be taken.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Take a table into a book: each cell becomes a fact, or is reported with the reason.

    Example: baywright capture mybook modules.csv --as memory
    Example: baywright capture mybook - --as supplies --write
    """
    perform(
        lambda: captures.capture(
            book,
            table,
            captures.Taken(
                about, tuple(mapped or ()), decimal or "", source, replace, write, leave_rest
            ),
            as_json=as_json,
        )
    )
