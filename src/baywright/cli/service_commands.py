"""The commands about service: service, faults, lose, spares."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from baywright.cli.arguments import Altitude, AsJson, AsOf, Book, Inlet
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import faults as faults_
    from baywright.cli import losses, services
    from baywright.cli import spares as spares_
else:
    # The engines take longer to load than help may take.
    faults_ = later("baywright.cli.faults")
    losses = later("baywright.cli.losses")
    services = later("baywright.cli.services")
    spares_ = later("baywright.cli.spares")


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    for command in (service, faults, lose, spares):
        app.command()(command)


def service(
    book: Book,
    build: Annotated[Path, typer.Argument(metavar="BUILD", help="A build file.")],
    places: Annotated[
        list[str],
        typer.Argument(
            metavar="PLACE...",
            help="Places such as M1, A or A:S8, labels of the log such as 'Fan 3', or steps on the "
            "way in such as 'board'; one that stands twice counts twice.",
        ),
    ],
    *,
    job: Annotated[
        Literal["replace", "add", "remove"], typer.Option(help="What is done with them.")
    ] = "replace",
    lock: Annotated[
        Literal["open", "key", "closed"],
        typer.Option(help="Locks are open; closed with the key at hand; or closed without it."),
    ] = "open",
    people: Annotated[
        int | None, typer.Option(metavar="COUNT", help="People at hand; else as many as it takes.")
    ] = None,
    keep_running: Annotated[
        bool, typer.Option("--keep-running", help="Refuse what the machine has to be stopped for.")
    ] = False,
    least: Annotated[
        Literal["time", "off"], typer.Option(help="Least time in all, or least time off.")
    ] = "time",
    site: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A site file: voltage, lifting rule.")
    ] = None,
    volts: Annotated[
        str, typer.Option(metavar="VOLTAGE", help="Voltage of the feeds, such as '230 V'.")
    ] = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
) -> None:
    """Plan how parts are reached and changed: steps, minutes, people, tools, cautions first.

    Example: baywright service f2 office.yaml M1 'Fan 3'
    Example: baywright service f2 office.yaml A --lock closed
    """
    asked = (tuple(places), job, lock, people, keep_running, least)
    perform(
        lambda: services.service(
            book,
            build,
            services.AccessRequest(*asked),
            services.Request(as_of),
            services.SiteRequest(site, volts),
            as_json=as_json,
        )
    )


def faults(
    book: Book,
    build: Annotated[Path, typer.Argument(metavar="BUILD", help="A build file.")],
    *,
    seen: Annotated[
        list[str] | None,
        typer.Option(metavar="SIGN", help="What is seen, such as 'summary light' or 'code 21'."),
    ] = None,
    not_seen: Annotated[
        list[str] | None,
        typer.Option(metavar="SIGN", help="What is looked for and not seen."),
    ] = None,
    nothing_else: Annotated[
        bool,
        typer.Option("--nothing-else", help="Nothing else is seen of what can be seen now."),
    ] = False,
    cover: Annotated[
        Literal["on", "off"], typer.Option(help="Covers are on, or off already.")
    ] = "on",
    cords: Annotated[
        Literal["in", "out"], typer.Option(help="Cords are in; or out already, covers off.")
    ] = "in",
    list_signs: Annotated[
        bool, typer.Option("--list", help="List everything that can be seen, and end.")
    ] = False,
    out: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="The decision tree drawn: .svg, .png or .pdf."),
    ] = None,
    site: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A site file: voltage, lifting rule.")
    ] = None,
    volts: Annotated[
        str, typer.Option(metavar="VOLTAGE", help="Voltage of the feeds, such as '230 V'.")
    ] = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
) -> None:
    """Say what can be behind what is seen, what to check next, and the whole decision tree.

    Example: baywright faults f2 office.yaml --seen 'summary light' --seen 'no power'
    Example: baywright faults f2 office.yaml --out tree.svg
    """
    asked = (tuple(seen or ()), tuple(not_seen or ()), nothing_else, cover, cords)
    perform(
        lambda: faults_.faults(
            book,
            build,
            faults_.FaultRequest(*asked),
            faults_.Request(as_of),
            faults_.SiteRequest(site, volts),
            list_signs=list_signs,
            out=out,
            as_json=as_json,
        )
    )


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


def spares(
    book: Annotated[
        str, typer.Argument(metavar="[BOOK]", help="Folder of a book, or a bundled one.")
    ] = "",
    build: Annotated[Path | None, typer.Argument(metavar="[BUILD]", help="A build file.")] = None,
    *,
    machines: Annotated[
        str, typer.Option(metavar="COUNT", help="Machines of that build; else as its site says.")
    ] = "",
    level: Annotated[
        str, typer.Option(metavar="ODDS", help="Odds wanted that a spare is there: '99 %'.")
    ] = "",
    lead: Annotated[
        str, typer.Option(metavar="TIME", help="Time until a spare is replaced: '14 d'.")
    ] = "",
    unit_lead: Annotated[
        str, typer.Option(metavar="TIME", help="That time for a whole machine.")
    ] = "",
    unit_rate: Annotated[
        str, typer.Option(metavar="SHARE", help="Machines replaced whole in a year: '1 %'.")
    ] = "",
    sites: Annotated[
        str, typer.Option(metavar="COUNT", help="Sites, each with a kit; else one a machine.")
    ] = "",
    visits: Annotated[
        str, typer.Option(metavar="TIME", help="Each site is visited every so often: '7 d'.")
    ] = "",
    fleet: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE", help="A table, .csv or .parquet: count, book, build, depot, sites."
        ),
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
) -> None:
    """Count the spares of a fleet for a service level, and its failures and visits in a year.

    Example: baywright spares p1 shop.yaml --machines 140 --level '99 %' --lead '14 d'
    Example: baywright spares --fleet fleet.csv --level '99 %' --lead '14 d'
    """
    asked = (machines, level, lead, unit_lead, unit_rate, sites, visits, fleet)
    perform(
        lambda: spares_.spares(
            book, build, spares_.Request(as_of), spares_.Asked(*asked), as_json=as_json
        )
    )
