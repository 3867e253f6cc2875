"""The store from the terminal: who may sign in, and copies of it."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

import typer
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import show, show_json
from baywright.cli.sheets import columns
from baywright.store import Person, open_store

BY = "(terminal)"
"""Who stands in the audit trail for a change made here; no one signs in at a terminal."""


@guarded
def add(name: str, roles: Sequence[str], database: str, *, as_json: bool) -> int:
    """Add a person."""
    with open_store(database or None) as store:
        person = store.people.add(name, _asked_password(), roles, BY)
        _say(person, f"Added {person.name} to {store.place}.", as_json=as_json)
    return ANSWERED


@guarded
def list_people(database: str, *, as_json: bool) -> int:
    """List the people."""
    with open_store(database or None) as store:
        found, place = store.people.list(), store.place
    if as_json:
        show_json({"people": [_person_json(person) for person in found]})
    elif found:
        show([columns((Text(each.name), Text(" ".join(sorted(each.roles)))) for each in found)])
    else:
        show([Text(f"There is nobody in {place} yet; 'baywright people add' adds people.")])
    return ANSWERED


@guarded
def set_password(name: str, database: str, *, as_json: bool) -> int:
    """Give a person another password."""
    with open_store(database or None) as store:
        person = store.people.existing(name)
        store.people.set_password(name, _asked_password(), BY)
        _say(person, f"{person.name} has another password now.", as_json=as_json)
    return ANSWERED


@guarded
def set_roles(name: str, roles: Sequence[str], database: str, *, as_json: bool) -> int:
    """Give a person other roles."""
    with open_store(database or None) as store:
        person = store.people.set_roles(name, roles, BY)
        _say(person, f"{person.name} now has: {' '.join(sorted(person.roles))}.", as_json=as_json)
    return ANSWERED


@guarded
def remove(name: str, database: str, *, as_json: bool) -> int:
    """Remove a person."""
    with open_store(database or None) as store:
        person = store.people.existing(name)
        store.people.remove(name, BY)
        _say(person, f"Removed {person.name}; builds and answers stay.", as_json=as_json)
    return ANSWERED


@guarded
def back_up(path: Path, database: str, *, as_json: bool) -> int:
    """Copy the store to a new file."""
    with open_store(database or None) as store:
        store.back_up(path)
        if as_json:
            show_json({"store": store.place, "written": str(path)})
        else:
            show([Text(f"Copied {store.place} to {path}.")])
    return ANSWERED


def _asked_password() -> str:
    """Return a new password: typed twice unseen, or the first line of standard input."""
    if sys.stdin.isatty():
        return str(typer.prompt("Password", hide_input=True, confirmation_prompt=True, err=True))
    return sys.stdin.readline().rstrip("\r\n")


def _say(person: Person, sentence: str, *, as_json: bool) -> None:
    if as_json:
        show_json({"person": _person_json(person)})
    else:
        show([Text(sentence)])


def _person_json(person: Person) -> dict[str, object]:
    return {"name": person.name, "roles": sorted(person.roles)}
