"""The commands about papers: guide, sheet and verify."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import AsJson, AsOf, Book, Seconds
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import guides, paper_sheets
else:
    # The engines and the typesetter take longer to load than help may take.
    guides = later("baywright.cli.guides")
    paper_sheets = later("baywright.cli.paper_sheets")


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    app.command()(guide)
    app.command()(sheet)
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


def sheet(
    book: Book,
    kind: Annotated[
        str,
        typer.Argument(
            metavar="KIND",
            help="summary, models, comparison, questions, build, slides or quiz.",
        ),
    ],
    build: Annotated[
        str, typer.Argument(metavar="[BUILD]", help="A ready-made model, or a build file.")
    ] = "",
    *,
    out: Annotated[
        Path, typer.Option("--out", "-o", metavar="FILE|DIR", help="File or folder to write.")
    ] = Path("out/sheet"),
    other: Annotated[
        str, typer.Option("--with", metavar="BOOK", help="Compare with it; else the predecessor.")
    ] = "",
    length: Annotated[str, typer.Option(help="Of answers: line, paragraph or full.")] = "full",
    seed: Annotated[int, typer.Option(help="Which quiz; the same seed gives the same one.")] = 1,
    count: Annotated[int, typer.Option(help="Questions of a quiz.")] = 10,
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Write a short paper about a machine or a build, with its proof beside it.

    Example: baywright sheet f2 build F2-b -o out/f2-b.pdf
    """
    perform(
        lambda: paper_sheets.sheet(
            book,
            paper_sheets.Request(as_of, seconds=limit),
            paper_sheets.Wanted(kind, out, build, other, length, seed, count),
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
