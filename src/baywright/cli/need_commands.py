"""The command about needs: fit."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import AsJson, AsOf, Book, Reasons, Seconds
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import fits
else:
    # The engines take longer to load than help may take.
    fits = later("baywright.cli.fits")


def add_to(app: typer.Typer) -> None:
    """Add the command to the program."""
    app.command()(fit)


def fit(
    book: Book,
    need: Annotated[Path, typer.Argument(metavar="NEED", help="A need file.")],
    *,
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
    reasons: Reasons = 1,
) -> None:
    """Propose builds for a need, or say why none exists and which comes nearest.

    Example: baywright fit f2 clinics.yaml
    """
    request = (as_of, "", "", limit, reasons)
    perform(lambda: fits.fit(book, need, fits.Request(*request), as_json=as_json))
