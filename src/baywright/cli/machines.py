"""The command read: a running machine in, a build of a book out."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import typer
from rich.console import RenderableType
from rich.text import Text

from baywright.cli.guarding import ANSWERED, code_of, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import columns, heading, sheet
from baywright.desk.opening import Opened
from baywright.desk.reading import telling
from baywright.desk.reading.as_json import machine_json
from baywright.desk.reading.reading import MachineRead, read_machine
from baywright.desk.request import Request, opened
from baywright.desk.telling import judgement_sheet
from baywright.exchange.machines import Wanted, is_service
from baywright.exchange.redfish import Credentials, Limits
from baywright.files.drafts import check_draft, write_draft
from baywright.problems import problem

__all__ = ["Request", "Source", "read"]

USER, PASSWORD = "BAYWRIGHT_USER", "BAYWRIGHT_PASSWORD"
"""Variables of the environment that hold who asks; a password never stands in a command."""


@dataclass(frozen=True, slots=True)
class Source:
    """A source as typed.

    Args:
        source: an address, a folder or a file.
        system: id of the system, where there are several.
        certificates: certificates to trust.
        user: who asks, or empty for the environment or a question.
        anonymous: whether to ask without a session.
        incomplete: whether to go on where resources cannot be had.
    """

    source: str
    system: str
    certificates: Path | None
    user: str
    anonymous: bool
    incomplete: bool

    def wanted(self, seconds: float | None) -> Wanted:
        """Return what to read; ask for user and password where they are needed.

        Raises:
            Problems: kind ``no-credentials``.
        """
        limits = Limits()
        if seconds is not None:
            least = min(seconds, limits.reply_seconds)
            limits = replace(limits, seconds=seconds, reply_seconds=least)
        asks = is_service(self.source) and not self.anonymous
        who = _credentials(self.user) if asks else None
        return Wanted(self.source, self.system, self.certificates, who, self.incomplete, limits)


def _credentials(user: str) -> Credentials:
    user = user or os.environ.get(USER, "")
    password = os.environ.get(PASSWORD)
    if (not user or password is None) and not sys.stdin.isatty():
        message = "The service asks for a user and a password."
        hint = f"Set {USER} and {PASSWORD}, or give --anonymous."
        raise problem("no-credentials", message, None, hint)
    user = user or typer.prompt("User", err=True)
    if password is None:
        password = typer.prompt("Password", hide_input=True, err=True)
    return Credentials(user, password)


@guarded
def read(book: str, source: Source, out: Path | None, request: Request, *, as_json: bool) -> int:
    """Read a machine, put it on a book, and judge the build that follows."""
    if out is not None:
        check_draft(out)
    held = opened(book, request)
    wanted = source.wanted(request.seconds)
    with progress(f"Reading {source.source}", as_json=as_json):
        found = read_machine(held, wanted)
    if out is not None:
        write_draft(out, found.draft)
    if as_json:
        show_json(machine_json(found, held.book.book.id, None if out is None else str(out)))
    else:
        show(_sheet(held, found, out))
    return ANSWERED if found.judgement is None else code_of(found.judgement.verdict)


def _sheet(held: Opened, found: MachineRead, out: Path | None) -> Iterator[RenderableType]:
    yield Text(telling.title(found), style="bold")
    yield Text(telling.summary(found))
    for group in telling.groups(found):
        yield from heading(group.title)
        yield columns((Text(row.label), _said(row.says)) for row in group.rows)
    if found.judgement is not None:
        yield ""
        yield from sheet(judgement_sheet(held, found.judgement))
    if out is not None:
        yield Text(f"Draft written to {out}.")


def _said(says: str) -> Text:
    """Return a line as it is, and what it stands on below it."""
    first, _, rest = says.partition("\n")
    said = Text(first)
    return said.append(f"\n{rest}", style="dim") if rest else said
