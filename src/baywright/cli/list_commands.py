"""The commands about lists of parts: order, parts, compare."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import Altitude, AsJson, AsOf, Book, Inlet, Seconds, With
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import compares, orders, parts_lists
else:
    # The engines take longer to load than help may take.
    compares = later("baywright.cli.compares")
    orders = later("baywright.cli.orders")
    parts_lists = later("baywright.cli.parts_lists")


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    for command in (order, parts, compare):
        app.command()(command)


def order(
    book: Book,
    path: Annotated[
        Path, typer.Argument(metavar="LIST", help="Parts with counts: .csv, .xlsx or .txt.")
    ],
    *,
    given: With = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Say whether a list of parts can be built, and the fewest changes if not.

    Example: baywright order f2 list.csv --with 'voltage == 230 V'
    """
    request = (as_of, altitude, inlet, limit)
    perform(lambda: orders.order(book, path, given, orders.Request(*request), as_json=as_json))


def parts(
    book: Book,
    build: Annotated[Path, typer.Argument(metavar="BUILD", help="A build file.")],
    *,
    out: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="File to write: .csv or .xlsx; else the terminal."),
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
) -> None:
    """List the parts of a build with masses, watts and prices.

    Example: baywright parts f2 office.yaml --out office.xlsx
    """
    perform(
        lambda: parts_lists.parts(book, build, out, parts_lists.Request(as_of), as_json=as_json)
    )


def compare(
    book: Book,
    first: Annotated[
        str, typer.Argument(metavar="BUILD|BOOK", help="A build file, or another book.")
    ],
    second: Annotated[
        str, typer.Argument(metavar="[BUILD]", help="A second build of the first book.")
    ] = "",
    *,
    to: Annotated[
        str, typer.Option("--to", metavar="BOOK", help="With one build: its like in that book.")
    ] = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Compare two builds of a book, two books, or a build with its like in another book.

    Example: baywright compare f1 f2
    Example: baywright compare f1 owned.yaml wanted.yaml
    Example: baywright compare f1 owned.yaml --to f2
    """
    request = (as_of, "", "", limit)
    perform(
        lambda: compares.compare(
            book, compares.Asked(first, second, to), compares.Request(*request), as_json=as_json
        )
    )
