"""The program: its commands and options. What they do is loaded when a command runs."""

from __future__ import annotations

import io
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Literal, TypeAlias

import typer

from baywright import __version__
from baywright.cli import (
    ask_commands,
    capture_commands,
    change_commands,
    draft_commands,
    draw_commands,
    list_commands,
    machine_commands,
    need_commands,
    paper_commands,
    serve_commands,
    service_commands,
    store_commands,
    upgrade_commands,
    walk_commands,
)
from baywright.cli.arguments import (
    Altitude,
    AsJson,
    AsOf,
    Book,
    Choose,
    Inlet,
    Reasons,
    Seconds,
    SpaceFile,
    Terms,
    With,
)
from baywright.cli.later import later
from baywright.cli.performing import perform as _perform

if TYPE_CHECKING:
    from baywright.cli import bulk, commands, counts, fronts, random_builds, sizes, spaces
else:
    # The engines take longer to load than help may take.
    bulk = later("baywright.cli.bulk")
    commands = later("baywright.cli.commands")
    counts = later("baywright.cli.counts")
    fronts = later("baywright.cli.fronts")
    random_builds = later("baywright.cli.random_builds")
    sizes = later("baywright.cli.sizes")
    spaces = later("baywright.cli.spaces")

app = typer.Typer(
    name="baywright",
    help="Hold the facts of a machine once, and prove what is said about it.",
    rich_markup_mode=None,
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
)


def _show_version(*, wanted: bool) -> None:
    if wanted:
        typer.echo(f"baywright {__version__}")
        raise typer.Exit


Version: TypeAlias = Annotated[
    bool,
    typer.Option(
        "--version", callback=_show_version, is_eager=True, help="Show the version and end."
    ),
]


@app.callback()
def _start(*, version: Version = False) -> None:
    """Hold the facts of a machine once, and prove what is said about it."""


@app.command()
def check(
    book: Book,
    *,
    questions: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE",
            help="Questions to rank unknown facts by; those beside the book unless given.",
        ),
    ] = None,
    stale: Annotated[
        float,
        typer.Option(metavar="YEARS", min=0, max=100, help="Age from which a source is stale."),
    ] = 3,
    as_json: AsJson = False,
    as_of: AsOf = "",
) -> None:
    """Read a book; say what it holds, and all that is wrong with it or good to know.

    Example: baywright check f2
    """
    _perform(
        lambda: commands.check(book, commands.Request(as_of), questions, stale, as_json=as_json)
    )


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
    reasons: Reasons = 1,
) -> None:
    """Say whether a build can be built, and what comes nearest if not.

    Example: baywright judge f2 office.yaml --altitude '1200 m'
    """
    request = (as_of, altitude, inlet, limit, reasons)
    _perform(lambda: commands.judge(book, build, commands.Request(*request), as_json=as_json))


@app.command()
def size(
    book: Book,
    build: Annotated[Path, typer.Argument(metavar="BUILD", help="A build file.")],
    *,
    site: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A site file: feeds, battery, rack, room.")
    ] = None,
    volts: Annotated[
        str, typer.Option(metavar="VOLTAGE", help="Voltage of the feeds, such as '230 V'.")
    ] = "",
    feed: Annotated[
        list[str] | None,
        typer.Option(metavar="NAME=CURRENT,SHARE", help="A feed, such as 'A=32 A, 80 %'."),
    ] = None,
    figures: Annotated[
        list[str] | None,
        typer.Option(metavar="SUBJECT", help="Figures and tables of power, air and so on, or all."),
    ] = None,
    why: Annotated[
        str, typer.Option(metavar="KEY", help="One figure with its formula and its inputs.")
    ] = "",
    charts: Annotated[
        Path | None, typer.Option(metavar="DIR", help="Folder to write charts to, as SVG.")
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
) -> None:
    """Show what a build draws, delivers, cools, keeps and risks, and what breaks first.

    Example: baywright size f2 office.yaml --volts '120 V' --altitude '1200 m'
    """
    _perform(
        lambda: sizes.size(
            book,
            build,
            sizes.Request(as_of, altitude, inlet),
            sizes.SiteRequest(site, volts, tuple(feed or ())),
            sizes.Wanted(why, tuple(figures or ()), charts),
            as_json=as_json,
        )
    )


@app.command()
def options(
    book: Book = "",
    *,
    given: With = "",
    space: SpaceFile = None,
    choose: Choose = None,
    shares: Annotated[
        bool, typer.Option("--shares", help="What share of the builds of a book has each option.")
    ] = False,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Show what each place can still be, and what it cannot.

    Example: baywright options f2 --with 'O2 == "net-25"'
    """
    request, made = (as_of, altitude, inlet, limit), choose or []
    if space is not None:
        _instead_of_a_book(book)
        _perform(
            lambda: spaces.options(space, made, given, commands.Request(*request), as_json=as_json)
        )
    _only_with_space(made)
    asked = _wanted(book, "BOOK")
    if shares:
        _perform(lambda: counts.shares(asked, given, commands.Request(*request), as_json=as_json))
    _perform(lambda: commands.options(asked, given, commands.Request(*request), as_json=as_json))


@app.command()
def count(
    book: Book = "",
    terms: Terms = None,
    *,
    given: With = "",
    space: SpaceFile = None,
    choose: Choose = None,
    builds: Annotated[
        bool, typer.Option("--builds", help="Count all legal builds of a book.")
    ] = False,
    without_budget: Annotated[
        bool, typer.Option("--without-budget", help="With --space: leave budget sums out.")
    ] = False,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Count the combinations of some names that legal builds have, or all legal builds.

    Example: baywright count f2 --with 'variant == "hot_swap"'
    Example: baywright count f2 --builds
    """
    request, made = (as_of, altitude, inlet, limit), choose or []
    if space is not None:
        _instead_of_a_book(book)
        _perform(
            lambda: spaces.count(
                space,
                made,
                given,
                commands.Request(*request),
                without_budget=without_budget,
                as_json=as_json,
            )
        )
    _only_with_space([*made, without_budget])
    asked = _wanted(book, "BOOK")
    if builds:
        _no_terms(terms)
        _perform(lambda: counts.builds(asked, given, commands.Request(*request), as_json=as_json))
    _perform(
        lambda: commands.combinations(
            "ways", asked, terms or [], given, commands.Request(*request), as_json=as_json
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
def front(
    book: Book,
    numbers: Annotated[
        list[str] | None,
        typer.Argument(metavar="[NUMBER NUMBER]", help="Two numbers; else price and load."),
    ] = None,
    *,
    given: With = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Show the builds that no other one beats in two numbers, such as price and load.

    Example: baywright front f2 price load --with 'memory >= 1 TB'
    """
    request = (as_of, altitude, inlet, limit)
    _perform(
        lambda: fronts.front(
            book, numbers or [], given, commands.Request(*request), as_json=as_json
        )
    )


@app.command(name="random")
def random_(
    book: Book,
    *,
    number: Annotated[int, typer.Option(metavar="COUNT", help="How many builds.")] = 1,
    seed: Annotated[int, typer.Option(help="The same seed draws the same builds.")] = 1,
    given: With = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
    limit: Seconds = None,
) -> None:
    """Draw legal builds at random, each as likely as any other.

    Example: baywright random f2 --number 5 --seed 1 --with 'memory >= 1 TB'
    """
    request = (as_of, altitude, inlet, limit)
    _perform(
        lambda: random_builds.draw(
            book, number, seed, given, commands.Request(*request), as_json=as_json
        )
    )


@app.command(name="space")
def space_(
    book: Book,
    *,
    out: Annotated[
        Path | None, typer.Option(metavar="FILE", help="File to write; else standard output.")
    ] = None,
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
) -> None:
    """Write the space of a book, its choices, tables and sums, as a file.

    Example: baywright space f2 --out f2.json
    """
    _perform(
        lambda: spaces.export(book, out, commands.Request(as_of, altitude, inlet), as_json=as_json)
    )


@app.command(name="bulk")
def bulk_(
    book: Book = "",
    path: Annotated[
        str, typer.Argument(metavar="PATH", help="Builds: a Parquet or Arrow file, or a folder.")
    ] = "",
    *,
    space: SpaceFile = None,
    out: Annotated[
        Path | None, typer.Option(metavar="FILE", help="File or folder to write verdicts to.")
    ] = None,
    every: Annotated[
        bool, typer.Option("--all/--first", help="All broken laws of a build, or the first.")
    ] = False,
    keep: Annotated[
        list[str] | None, typer.Option(metavar="COLUMN", help="A column to carry along.")
    ] = None,
    integers: Annotated[
        Literal["index", "label"] | None,
        typer.Option(help="What whole numbers in a column stand for."),
    ] = None,
    on: Annotated[
        str, typer.Option("--on", metavar="SCHEDULER", help="A cluster that does the work.")
    ] = "",
    as_json: AsJson = False,
    as_of: AsOf = "",
    altitude: Altitude = "",
    inlet: Inlet = "",
) -> None:
    """Judge a table of builds: which are legal, and which law each of the others breaks.

    Example: baywright bulk f2 orders.parquet --out judged.parquet
    """
    if space is not None:
        _instead_of_a_book(path)
        book, path = "", book
    asked = Path(_wanted(path, "PATH"))
    source = space or _wanted(book, "BOOK")
    _perform(
        lambda: bulk.bulk(
            source,
            bulk.Wanted(asked, out, every, tuple(keep or ()), integers),
            bulk.Request(as_of, altitude, inlet),
            on,
            as_json=as_json,
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
        Literal["book", "build", "need", "site"],
        typer.Argument(help="A file of a book, a build file, a need file, or a site file."),
    ],
) -> None:
    """Print the JSON Schema of a book, build, need or site file.

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
    reasons: Reasons = 1,
) -> None:
    """Answer the demo questions and write a report to a folder.

    Example: baywright demo --out out/demo
    """
    request = (as_of, "", "", None, reasons)
    _perform(lambda: commands.demo(out, commands.Request(*request), as_json=as_json))


ask_commands.add_to(app)
capture_commands.add_to(app)
change_commands.add_to(app)
draft_commands.add_to(app)
draw_commands.add_to(app)
list_commands.add_to(app)
machine_commands.add_to(app)
need_commands.add_to(app)
paper_commands.add_to(app)
serve_commands.add_to(app)
service_commands.add_to(app)
store_commands.add_to(app)
upgrade_commands.add_to(app)
walk_commands.add_to(app)


def _wanted(text: str, name: str) -> str:
    """Return an argument that may be missing only beside ``--space``."""
    if not text:
        raise typer.BadParameter(f"Missing argument '{name}'.")
    return text


def _instead_of_a_book(text: str) -> None:
    if text:
        raise typer.BadParameter("--space FILE stands in place of BOOK; give one of them.")


def _no_terms(terms: list[str] | None) -> None:
    if terms:
        raise typer.BadParameter("--builds counts whole builds; leave out the names.")


def _only_with_space(given: list[Any]) -> None:
    if any(given):
        raise typer.BadParameter("--choose and --without-budget go with --space FILE.")


def main() -> None:
    """Run the program on the arguments of its process."""
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a sign shows a question mark instead of failing.
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    app()
