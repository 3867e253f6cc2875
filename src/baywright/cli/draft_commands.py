"""The command about drafts: proofread."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from baywright.cli.arguments import AsJson, AsOf, Book, Seconds
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import proofs
else:
    # The engines take longer to load than help may take.
    proofs = later("baywright.cli.proofs")


def add_to(app: typer.Typer) -> None:
    """Add the command to the program."""
    app.command()(proofread)


def proofread(
    book: Book,
    path: Annotated[
        Path,
        typer.Argument(
            metavar="DRAFT", help="A .txt, .md, .html, .vtt, .srt, .docx or .pptx file."
        ),
    ],
    *,
    form: Annotated[
        Literal["terminal", "editor", "html", "json", "docx"],
        typer.Option("--format", help="How the remarks are written."),
    ] = "terminal",
    out: Annotated[
        Path | None, typer.Option(metavar="FILE", help="New file to write: editor, html or docx.")
    ] = None,
    pace: Annotated[
        float, typer.Option(metavar="WORDS", help="Most words a minute in captions.")
    ] = 180.0,
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Check each statement of a draft against a book, and what it promises and leaves out.

    Example: baywright proofread f2 page.md --format html --out page.proof.html
    """
    request = (as_of, "", "", limit)
    shown = "json" if as_json else form
    perform(
        lambda: proofs.proofread(
            book,
            path,
            proofs.Request(*request),
            proofs.Wanted(shown, out, pace),
            as_json=shown == "json",
        )
    )
