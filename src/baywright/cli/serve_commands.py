"""The command that opens the workbench: serve."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.later import later
from baywright.cli.performing import perform
from baywright.cli.store_commands import Database

if TYPE_CHECKING:
    from baywright.cli import serving
else:
    # The server takes longer to load than help may take.
    serving = later("baywright.cli.serving")


def add_to(app: typer.Typer) -> None:
    """Add the command to the program."""
    app.command()(serve)


def serve(
    books: Annotated[
        list[str] | None,
        typer.Argument(metavar="[BOOK]...", help="Books to offer; else those of the package."),
    ] = None,
    *,
    host: Annotated[str, typer.Option(metavar="ADDRESS", help="Address to listen on.")] = (
        "127.0.0.1"
    ),
    port: Annotated[int, typer.Option(min=1, max=65535, help="Port to listen on.")] = 8765,
    database: Database = "",
    accounts: Annotated[
        bool, typer.Option("--accounts", help="Ask people to sign in on this machine too.")
    ] = False,
) -> None:
    """Open the workbench: pages to work on builds in a browser.

    On this machine nobody has to sign in; at any other address everybody has to.

    Example: baywright serve --port 8765
    """
    perform(lambda: serving.serve(tuple(books or ()), host, port, database, accounts=accounts))
