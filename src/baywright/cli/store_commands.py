"""The commands about the store: people add, list, password, roles, remove; backup."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeAlias

import typer

from baywright.cli.arguments import AsJson
from baywright.cli.later import later
from baywright.cli.performing import perform

if TYPE_CHECKING:
    from baywright.cli import stores
else:
    # The database library takes longer to load than help may take.
    stores = later("baywright.cli.stores")

Name: TypeAlias = Annotated[str, typer.Argument(metavar="NAME", help="Name to sign in with.")]
Roles: TypeAlias = Annotated[
    list[str],
    typer.Option("--role", metavar="ROLE", help="read, work, or own:BOOK; give it once for each."),
]
Database: TypeAlias = Annotated[
    str,
    typer.Option(
        metavar="URL",
        envvar="BAYWRIGHT_DATABASE",
        help="sqlite:///FILE or postgresql://USER@HOST/NAME; else a file in your data folder.",
    ),
]

_people = typer.Typer(
    name="people",
    help="Who may sign in to the workbench.",
    rich_markup_mode=None,
    no_args_is_help=True,
)


def add_to(app: typer.Typer) -> None:
    """Add the commands to the program."""
    for name, command in (
        ("add", add),
        ("list", list_),
        ("password", password),
        ("roles", roles),
        ("remove", remove),
    ):
        _people.command(name)(command)
    app.add_typer(_people)
    app.command()(backup)


def add(name: Name, *, role: Roles, database: Database = "", as_json: AsJson = False) -> None:
    """Add a person; the password is asked for, or read from standard input.

    Example: baywright people add anna --role work --role own:f2
    """
    perform(lambda: stores.add(name, role, database, as_json=as_json))


def list_(*, database: Database = "", as_json: AsJson = False) -> None:
    """List the people with their roles.

    Example: baywright people list
    """
    perform(lambda: stores.list_people(database, as_json=as_json))


def password(name: Name, *, database: Database = "", as_json: AsJson = False) -> None:
    """Give a person another password; whoever is signed in as that person is no more.

    Example: baywright people password anna
    """
    perform(lambda: stores.set_password(name, database, as_json=as_json))


def roles(name: Name, *, role: Roles, database: Database = "", as_json: AsJson = False) -> None:
    """Give a person other roles in place of those there were.

    Example: baywright people roles anna --role read
    """
    perform(lambda: stores.set_roles(name, role, database, as_json=as_json))


def remove(name: Name, *, database: Database = "", as_json: AsJson = False) -> None:
    """Remove a person with sessions and tokens; what the person kept stays.

    Example: baywright people remove anna
    """
    perform(lambda: stores.remove(name, database, as_json=as_json))


def backup(
    path: Annotated[Path, typer.Argument(metavar="FILE", help="New file to write.")],
    *,
    database: Database = "",
    as_json: AsJson = False,
) -> None:
    """Copy the store with all that people keep to a new file, while others work with it.

    Example: baywright backup monday.sqlite
    """
    perform(lambda: stores.back_up(path, database, as_json=as_json))
