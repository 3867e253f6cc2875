"""The command about machines that stand: upgrade."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import Altitude, AsJson, AsOf, Book, Inlet, Seconds
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import upgrades
else:
    # The engines take longer to load than help may take.
    upgrades = later("baywright.cli.upgrades")


def add_to(app: typer.Typer) -> None:
    """Add the command to the program."""
    app.command()(upgrade)


def upgrade(
    book: Book,
    start: Annotated[
        Path, typer.Argument(metavar="FROM", help="The build file of the machine as it stands.")
    ],
    need: Annotated[Path, typer.Argument(metavar="NEED", help="A need file.")],
    *,
    to: Annotated[
        list[str] | None,
        typer.Option(
            metavar="BOOK", help="A machine that may take its place; else those that follow it."
        ),
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Show the cheapest legal steps from a machine to a need, and the path to its successor.

    Example: baywright upgrade f1 owned.yaml wanted.yaml
    """
    request = (as_of, altitude, inlet, limit)
    perform(
        lambda: upgrades.upgrade(
            book, start, need, to or [], upgrades.Request(*request), as_json=as_json
        )
    )
