"""The commands about changes and what was said before them: changes, keep, kept."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from baywright.cli.arguments import AsJson, AsOf, Book, Seconds
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import changed, kept
else:
    # The engines take longer to load than help may take.
    changed = later("baywright.cli.changed")
    kept = later("baywright.cli.kept")

ANSWERS = Path("answers.jsonl")
"""File of kept answers unless another is named."""

KeptIn = Annotated[
    Path, typer.Option("--in", metavar="FILE", help="File of kept answers.", show_default=True)
]


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    app.command()(changes)
    app.command()(keep)
    app.command(name="kept")(kept_)


def changes(
    old: Annotated[
        str,
        typer.Argument(metavar="[OLD]", help="The book before; every bundled one unless given."),
    ] = "",
    new: Annotated[
        str,
        typer.Argument(
            metavar="[NEW]",
            help="The book after: a folder, BOOK@REVISION of git, or a change note; each note "
            "beside the book unless given.",
        ),
    ] = "",
    *,
    until: Annotated[
        str, typer.Option("--to", metavar="DATE", help="The day after; --as-of is the one before.")
    ] = "",
    statements: Annotated[
        list[Path] | None,
        typer.Option(metavar="FILE", help="Statements of a guide, sheet or file of answers."),
    ] = None,
    draft: Annotated[list[Path] | None, typer.Option(metavar="FILE", help="A draft.")] = None,
    order: Annotated[list[Path] | None, typer.Option(metavar="FILE", help="An order.")] = None,
    build: Annotated[
        list[Path] | None, typer.Option(metavar="FILE", help="A build, or an installed machine.")
    ] = None,
    need: Annotated[
        list[Path] | None, typer.Option(metavar="FILE", help="A need; takes seconds each.")
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Show what flips when facts change: answers, builds, orders, drafts, dates.

    Example: baywright changes f2 cn-3
    Example: baywright changes f2@v1 f2 --draft talk.md
    Example: baywright changes f2 --as-of 2031-03-17 --to 2031-10-01
    """
    watched = (statements, draft, order, build, need)
    request = (as_of, "", "", limit)
    if not old:
        perform(lambda: changed.all_notes(changed.Request(*request), as_json=as_json))
    perform(
        lambda: changed.changed(
            old,
            new,
            changed.Request(*request),
            until,
            changed.Watched(*(tuple(each or ()) for each in watched)),
            as_json=as_json,
        )
    )


def keep(
    book: Book,
    question: Annotated[str, typer.Argument(metavar="QUESTION", help="As ask takes it.")],
    *,
    file: KeptIn = ANSWERS,
    by: Annotated[str, typer.Option(metavar="NAME", help="Who asked.")] = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Answer a question and keep the answer; show whether it was asked before.

    Example: baywright keep f2 'How much memory at most?' --by 'Tern Vale'
    """
    request = (as_of, "", "", limit)
    perform(lambda: kept.keep(book, question, file, by, kept.Request(*request), as_json=as_json))


def kept_(
    book: Book,
    *,
    file: KeptIn = ANSWERS,
    again: Annotated[
        bool, typer.Option("--again", help="Hold them against the book as it is now.")
    ] = False,
    most: Annotated[bool, typer.Option("--most", help="The questions asked most.")] = False,
    undecided: Annotated[
        bool, typer.Option("--open", help="The facts that would answer what stayed open.")
    ] = False,
    corrected: Annotated[
        str,
        typer.Option(metavar="FACT=VALUE", help="Which answers were wrong, given the right value."),
    ] = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    limit: Seconds = None,
) -> None:
    """Show kept answers, or what became of them.

    Example: baywright kept f2 --again
    Example: baywright kept f2 --corrected 'parts.ps-1300.ratings.low=1100 W'
    """
    request, wanted = (as_of, "", "", limit), (again, most, undecided, corrected)
    perform(
        lambda: kept.kept(book, file, kept.Wanted(*wanted), kept.Request(*request), as_json=as_json)
    )
