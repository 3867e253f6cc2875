"""The command about changes of a book: changes."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import AsJson, AsOf, Seconds
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import changed
else:
    # The engines take longer to load than help may take.
    changed = later("baywright.cli.changed")


def add_to(app: typer.Typer) -> None:
    """Add the command to the program."""
    app.command()(changes)


def changes(
    old: Annotated[
        str,
        typer.Argument(metavar="[OLD]", help="The book before; every bundled one unless given."),
    ] = "",
    new: Annotated[
        str,
        typer.Argument(
            metavar="[NEW]",
            help="The book after: a folder, BOOK@REVISION of git, or a change note; each note "
            "beside the book unless given.",
        ),
    ] = "",
    *,
    until: Annotated[
        str, typer.Option("--to", metavar="DATE", help="The day after; --as-of is the one before.")
    ] = "",
    statements: Annotated[
        list[Path] | None,
        typer.Option(metavar="FILE", help="Statements of a guide, sheet or file of answers."),
    ] = None,
    draft: Annotated[list[Path] | None, typer.Option(metavar="FILE", help="A draft.")] = None,
    order: Annotated[list[Path] | None, typer.Option(metavar="FILE", help="An order.")] = None,
    build: Annotated[
        list[Path] | None, typer.Option(metavar="FILE", help="A build, or an installed machine.")
    ] = None,
    need: Annotated[
        list[Path] | None, typer.Option(metavar="FILE", help="A need; takes seconds each.")
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Show what flips when facts change: answers, builds, orders, drafts, dates.

    Example: baywright changes f2 cn-3
    Example: baywright changes f2@v1 f2 --draft talk.md
    Example: baywright changes f2 --as-of 2031-03-17 --to 2031-10-01
    """
    watched = (statements, draft, order, build, need)
    request = (as_of, "", "", limit)
    if not old:
        perform(lambda: changed.all_notes(changed.Request(*request), as_json=as_json))
    perform(
        lambda: changed.changed(
            old,
            new,
            changed.Request(*request),
            until,
            changed.Watched(*(tuple(each or ()) for each in watched)),
            as_json=as_json,
        )
    )
