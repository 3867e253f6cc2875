"""The program: its commands and options. What they do is loaded when a command runs."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, TypeAlias

import typer

from baywright import __version__
from baywright.cli.later import later

if TYPE_CHECKING:
    from baywright.cli import commands
else:
    # The engines take longer to load than help may take.
    commands = later("baywright.cli.commands")

STOPPED_BY_HAND = 130
"""Exit code after Ctrl-C, as shells give it."""

app = typer.Typer(
    name="baywright",
    help="Hold the facts of a machine once, and prove what is said about it.",
    rich_markup_mode=None,
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
)

Book: TypeAlias = Annotated[
    str, typer.Argument(metavar="BOOK", help="Folder of a book, or a bundled one: f1, f2, l4, p1.")
]
Terms: TypeAlias = Annotated[
    list[str] | None,
    typer.Argument(metavar="[TERM]...", help="Names; without any, the skeleton of the book."),
]
AsJson: TypeAlias = Annotated[bool, typer.Option("--json", help="Print JSON.")]
AsOf: TypeAlias = Annotated[
    str, typer.Option(metavar="DATE", help="Day the answer holds for; else the edition.")
]
Altitude: TypeAlias = Annotated[
    str, typer.Option(metavar="LENGTH", help="Altitude of the site, such as '2300 m'.")
]
Inlet: TypeAlias = Annotated[
    str, typer.Option(metavar="TEMPERATURE", help="Air taken in, such as '27 °C'.")
]
Seconds: TypeAlias = Annotated[
    float | None, typer.Option("--limit", metavar="SECONDS", help="Most time for one step.")
]
With: TypeAlias = Annotated[
    str, typer.Option("--with", metavar="CONDITION", help="Legal builds with this only.")
]


@app.callback()
def _start(
    ctx: typer.Context,
    *,
    version: Annotated[bool, typer.Option("--version", help="Show the version and end.")] = False,
) -> None:
    """Hold the facts of a machine once, and prove what is said about it."""
    if version:
        typer.echo(f"baywright {__version__}")
        raise typer.Exit


@app.command()
def check(book: Book, *, as_json: AsJson = False, as_of: AsOf = "") -> None:
    """Read a book; say what it holds, or all that is wrong with it.

    Example: baywright check f2
    """
    _perform(lambda: commands.check(book, commands.Request(as_of), as_json=as_json))


@app.command()
def judge(
    book: Book,
    build: Annotated[Path, typer.Argument(metavar="BUILD", help="A build file.")],
    *,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Say whether a build can be built, and what comes nearest if not.

    Example: baywright judge f2 office.yaml --altitude '1200 m'
    """
    _perform(
        lambda: commands.judge(
            book, build, commands.Request(as_of, altitude, inlet, limit), as_json=as_json
        )
    )


@app.command()
def ask(
    book: Book,
    question: Annotated[str, typer.Argument(metavar="QUESTION", help="An expression.")],
    *,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Answer a question written as an expression.

    The command words shows what a question may use.

    Example: baywright ask f2 'count(drive, interface="fast") == 24'
    """
    _perform(
        lambda: commands.ask(
            book, question, commands.Request(as_of, altitude, inlet, limit), as_json=as_json
        )
    )


@app.command()
def options(
    book: Book,
    *,
    given: With = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Show what each place can still be, and what it cannot.

    Example: baywright options f2 --with 'O2 == "net-25"'
    """
    _perform(
        lambda: commands.options(
            book, given, commands.Request(as_of, altitude, inlet, limit), as_json=as_json
        )
    )


@app.command()
def count(
    book: Book,
    terms: Terms = None,
    *,
    given: With = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Count the combinations of some names that legal builds have.

    Example: baywright count f2 --with 'variant == "hot_swap"'
    """
    request = (as_of, altitude, inlet, limit)
    _perform(
        lambda: commands.combinations(
            "ways", book, terms or [], given, commands.Request(*request), as_json=as_json
        )
    )


@app.command(name="list")
def list_(
    book: Book,
    terms: Terms = None,
    *,
    given: With = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """List the combinations of some names that legal builds have.

    Example: baywright list f2 A B C --with 'processors == 1'
    """
    request = (as_of, altitude, inlet, limit)
    _perform(
        lambda: commands.combinations(
            "list", book, terms or [], given, commands.Request(*request), as_json=as_json
        )
    )


@app.command()
def words(book: Book, *, as_json: AsJson = False, as_of: AsOf = "") -> None:
    """Show what a question may use: names, functions, parts.

    Example: baywright words f2
    """
    _perform(lambda: commands.words(book, commands.Request(as_of), as_json=as_json))


@app.command()
def schema(
    what: Annotated[
        Literal["book", "build"], typer.Argument(help="A file of a book, or a build file.")
    ],
) -> None:
    """Print the JSON Schema of a book file or a build file.

    Example: baywright schema book > book.schema.json
    """
    _perform(lambda: commands.schema(what))


@app.command()
def demo(
    *,
    out: Annotated[Path, typer.Option(metavar="DIR", help="Folder to write to.")] = Path(
        "out/demo"
    ),
    as_json: AsJson = False,
    as_of: AsOf = "",
) -> None:
    """Answer the demo questions and write a report to a folder.

    Example: baywright demo --out out/demo
    """
    _perform(lambda: commands.demo(out, commands.Request(as_of), as_json=as_json))


def _perform(work: Callable[[], int]) -> None:
    """Do the work and end with its exit code."""
    try:
        code = work()
        sys.stdout.flush()
    except KeyboardInterrupt:
        typer.echo("Stopped by Ctrl-C; nothing was left half written.", err=True)
        code = STOPPED_BY_HAND
    except BrokenPipeError:
        # Whoever read the output has seen enough; what is still buffered goes nowhere.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = 0
    raise typer.Exit(code)


def main() -> None:
    """Run the program on the arguments of its process."""
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a sign shows a question mark instead of failing.
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    app()
