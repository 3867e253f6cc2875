"""The commands about service: lose."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import Altitude, AsJson, AsOf, Book, Inlet
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import losses
else:
    # The engines take longer to load than help may take.
    losses = later("baywright.cli.losses")


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    for command in (lose,):
        app.command()(command)


def lose(
    book: Book,
    build: Annotated[Path, typer.Argument(metavar="BUILD", help="A build file.")],
    things: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[THING]...",
            help="Places, parts, feeds and pieces of them, such as R1b, A.3, C16 or 'feed B'.",
        ),
    ] = None,
    *,
    list_things: Annotated[
        bool, typer.Option("--things", help="List everything that can be lost, and end.")
    ] = False,
    out: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="A drawing with the loss marked: .svg, .png or .pdf."),
    ] = None,
    view: Annotated[
        str, typer.Option(metavar="NAME", help="View of the drawing, as of the command draw.")
    ] = "inside",
    site: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A site file: feeds, what data survives.")
    ] = None,
    volts: Annotated[
        str, typer.Option(metavar="VOLTAGE", help="Voltage of the feeds, such as '230 V'.")
    ] = "",
    feed: Annotated[
        list[str] | None,
        typer.Option(metavar="NAME=CURRENT,SHARE", help="A feed, such as 'A=32 A, 80 %'."),
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
) -> None:
    """Say what stops, what degrades and to what when things are lost; else what stands on one.

    Example: baywright lose f2 office.yaml P2
    Example: baywright lose f2 office.yaml 'feed A' PS.2 --out loss.svg --view rear
    """
    perform(
        lambda: losses.lose(
            book,
            build,
            things or [],
            losses.Request(as_of, altitude, inlet),
            losses.SiteRequest(site, volts, tuple(feed or ())),
            losses.Output(list_things, view, out),
            as_json=as_json,
        )
    )
