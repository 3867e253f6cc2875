"""The command that plans a walkthrough: walk."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from baywright.cli.arguments import AsJson, AsOf, Book, Seconds
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import walks
else:
    # The engines take longer to load than help may take.
    walks = later("baywright.cli.walks")


def add_to(app: typer.Typer) -> None:
    """Add the command to the program."""
    app.command()(walk)


def walk(
    book: Book,
    build: Annotated[
        Path | None, typer.Argument(metavar="BUILD", help="A build file; else what can be built.")
    ] = None,
    *,
    minutes: Annotated[
        float | None,
        typer.Option(metavar="MINUTES", help="How long it takes; else all there is, up to 12."),
    ] = None,
    audience: Annotated[
        Literal["sellers", "engineers", "service"], typer.Option("--for", help="Who listens.")
    ] = "sellers",
    rate: Annotated[
        float, typer.Option(metavar="WORDS", help="Words a minute while somebody speaks.")
    ] = 140.0,
    orientation: Annotated[
        str, typer.Option(metavar="NAME", help="How it stands; else as the build says.")
    ] = "",
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="DIR", help="Folder to write to.")
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Plan a walkthrough on camera: script, captions for a prompter, cards, drawings, notes.

    Example: baywright walk f2 --minutes 12 --for sellers -o walk
    Example: baywright walk p1 --minutes 5 --for service --orientation wall -o walk
    """
    wanted = (minutes, audience, rate, orientation, out)
    perform(
        lambda: walks.show_walk(
            book,
            build,
            walks.Request(as_of, seconds=limit),
            walks.Wanted(*wanted),
            as_json=as_json,
        )
    )
