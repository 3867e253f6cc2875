"""The command spares: the stock of each depot for a fleet, kits of sites, failures and visits."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from rich.console import RenderableType
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import caution, heading, table
from baywright.desk.request import Request
from baywright.desk.service.fleet import Asked, interval, machines_of
from baywright.desk.service.spares import spares_of
from baywright.desk.service.spares_json import spares_json
from baywright.desk.service.spares_telling import SparesSheet, Stock, spares_sheet

__all__ = ["Asked", "Request", "spares"]


@guarded
def spares(book: str, build: Path | None, request: Request, asked: Asked, *, as_json: bool) -> int:
    """Say which spares a fleet needs."""
    with progress("Counting spares", as_json=as_json):
        found = spares_of(machines_of(book, build, request, asked), interval(asked))
    if as_json:
        show_json(spares_json(found))
    else:
        show(_sheet(spares_sheet(found)))
    return ANSWERED


def _sheet(told: SparesSheet) -> Iterator[RenderableType]:
    yield Text(told.title, style="bold")
    for each in told.cautions:
        yield ""
        yield from caution(each)
    for stock in told.stocks:
        yield from _stock(stock)
    yield ""
    for note in told.notes:
        yield Text(note, style="dim")
    yield Text(told.aid)


def _stock(stock: Stock) -> Iterator[RenderableType]:
    yield from heading(stock.title)
    if stock.table.rows:
        yield table(stock.table)
    for sentence in stock.sentences:
        yield Text(sentence)
