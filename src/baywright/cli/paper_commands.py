"""The commands about papers: guide and verify."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import AsJson, AsOf, Book, Seconds
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import guides
else:
    # The engines and the typesetter take longer to load than help may take.
    guides = later("baywright.cli.guides")


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    app.command()(guide)
    app.command()(verify)


def guide(
    book: Book,
    *,
    out: Annotated[
        Path, typer.Option("--out", "-o", metavar="DIR", help="Folder to write to.")
    ] = Path("out/guide"),
    issue: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Folder of the last issue; what changed becomes errata."),
    ] = None,
    templates: Annotated[
        Path | None, typer.Option(metavar="DIR", help="Chapters to use in place of ours.")
    ] = None,
    copy_templates: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Write our chapters there to edit, and nothing else."),
    ] = None,
    form: Annotated[
        list[str] | None,
        typer.Option("--format", help="html, pdf or docx; all of them unless given."),
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Write the platform guide of a book, with the proof of all it says.

    Example: baywright guide f2 -o out/f2
    """
    perform(
        lambda: guides.guide(
            book,
            guides.Request(as_of, seconds=limit),
            guides.Wanted(out, issue, templates, copy_templates, tuple(form or ())),
            as_json=as_json,
        )
    )


def verify(
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="Folder of a guide.")],
    *,
    book: Annotated[
        str, typer.Option(metavar="BOOK", help="The book; else the one the folder names.")
    ] = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Prove each statement of a guide again, with an engine other than the one that found it.

    The exit code is 0 when all hold, 3 when some were not decided in time, and 4 when one no
    longer holds.

    Example: baywright verify out/f2 --book books/f2
    """
    perform(
        lambda: guides.verify_folder(
            folder, book, guides.Request(as_of, seconds=limit), as_json=as_json
        )
    )
