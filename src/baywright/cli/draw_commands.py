"""The command that draws: draw."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from baywright.cli.arguments import Altitude, AsJson, AsOf, Book, Inlet
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import draws
else:
    # The renderers take longer to load than help may take.
    draws = later("baywright.cli.draws")


def add_to(app: typer.Typer) -> None:
    """Add the command to the program."""
    app.command()(draw)


def draw(
    book: Book,
    build: Annotated[
        Path | None, typer.Argument(metavar="BUILD", help="A build file; else all is open.")
    ] = None,
    *,
    view: Annotated[
        list[str] | None,
        typer.Option(
            metavar="NAME",
            help="front, rear, inside, side, slots, airflow, feeds, memory or cabling; else all.",
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(metavar="PATH", help="A file ending in svg, png or pdf, or a folder."),
    ] = None,
    form: Annotated[
        Literal["svg", "png", "dark.png", "pdf"], typer.Option(help="Form of files in a folder.")
    ] = "svg",
    width: Annotated[float, typer.Option(metavar="PIXELS", help="Width it is shown at.")] = 1100.0,
    numbers: Annotated[
        Literal["all", "needed", "none"], typer.Option(help="Which places get a number.")
    ] = "all",
    orientation: Annotated[
        str, typer.Option(metavar="NAME", help="How it stands; else as the build says.")
    ] = "",
    mark: Annotated[
        list[str] | None,
        typer.Option(
            metavar="PLACE=WORD",
            help="Highlight a place: free, if, cannot, undecided, preview or picked.",
        ),
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
) -> None:
    """Draw a machine: a build in its places, or what is open.

    With --json, print what each drawing shows, read back from it.

    Example: baywright draw f2 office.yaml --view front --out front.svg
    Example: baywright draw f2 office.yaml --out drawings --form pdf
    """
    perform(
        lambda: draws.draw_views(
            book,
            build,
            draws.Request(as_of, altitude, inlet),
            draws.Wanted(width, numbers, orientation, tuple(mark or ())),
            draws.Output(tuple(view or ()), out, form),
            as_json=as_json,
        )
    )
