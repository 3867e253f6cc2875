"""The commands about running machines: read."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import Altitude, AsJson, AsOf, Book, Inlet, Seconds
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import machines
else:
    # The engines take longer to load than help may take.
    machines = later("baywright.cli.machines")


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    app.command()(read)


def read(
    book: Book,
    source: Annotated[
        str,
        typer.Argument(
            metavar="SOURCE",
            help="https://HOST of a Redfish service, a folder of Redfish resources, or a folder "
            "or file of SMBIOS tables.",
        ),
    ],
    *,
    out: Annotated[
        Path | None, typer.Option(metavar="FILE", help="New build file to write the draft to.")
    ] = None,
    system: Annotated[
        str, typer.Option(metavar="ID", help="The system, where a service has several.")
    ] = "",
    ca: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Certificates to trust, in PEM form.")
    ] = None,
    user: Annotated[
        str,
        typer.Option(
            metavar="NAME",
            help="Who asks; else BAYWRIGHT_USER. The password is BAYWRIGHT_PASSWORD, or asked for.",
        ),
    ] = "",
    anonymous: Annotated[
        bool, typer.Option("--anonymous", help="Ask the service without a session.")
    ] = False,
    incomplete: Annotated[
        bool, typer.Option("--incomplete", help="Go on where resources cannot be had; list them.")
    ] = False,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Read a running machine: its build on a book, and what is doubtful in its record.

    Example: baywright read f2 /sys/firmware/dmi/tables --out machine.yaml
    Example: baywright read f2 https://10.1.2.3 --ca own.pem --user reader
    """
    request = (as_of, altitude, inlet, limit)
    perform(
        lambda: machines.read(
            book,
            machines.Source(source, system, ca, user, anonymous, incomplete),
            out,
            machines.Request(*request),
            as_json=as_json,
        )
    )
