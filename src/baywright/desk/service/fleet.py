"""A fleet to keep spares for: builds with their numbers, depots and sites, as asked for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from baywright.desk.judging import setting_of
from baywright.desk.opening import open_book
from baywright.desk.request import Request
from baywright.desk.size.sized import case_of
from baywright.exchange.fleets import Row, read_fleet
from baywright.facts.references import check_build
from baywright.facts.site import Site, Upkeep
from baywright.files.books import read_build, site_from
from baywright.problems import Mark, Problem, Problems, problem
from baywright.sizing.case import Case
from baywright.units import UnitError, parse

ONE_DEPOT = "depot"
"""Name of the depot where none is said."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of the spares, as typed; empty texts leave what the build's site says.

    Args:
        machines: machines of the build.
        level: odds wanted that a spare is there.
        lead: time until a spare is replaced.
        unit_lead: that time for a whole machine.
        unit_rate: share of machines that are replaced whole in a year.
        sites: sites the machines stand at, evenly; one for each machine unless given.
        visits: interval at which each site is visited; a visit for each failure unless given.
        fleet: a table of builds in place of one build, or ``None``.
    """

    machines: str = ""
    level: str = ""
    lead: str = ""
    unit_lead: str = ""
    unit_rate: str = ""
    sites: str = ""
    visits: str = ""
    fleet: Path | None = None


@dataclass(frozen=True, slots=True)
class Machines:
    """Machines alike that one depot serves.

    Args:
        case: the build at its site.
        name: what the build is called.
        upkeep: how they are looked after.
        count: how many there are.
        depot: name of the depot.
        sites: sites they stand at, evenly.
        sites_said: whether anybody said how many sites there are.
    """

    case: Case
    name: str
    upkeep: Upkeep
    count: int
    depot: str
    sites: int
    sites_said: bool


def machines_of(
    book: str, build: Path | None, request: Request, asked: Asked
) -> tuple[Machines, ...]:
    """Return the machines of a fleet.

    Args:
        book: the book of rows that name none.
        build: the build file of rows that name none, or ``None``.
        request: day and site.
        asked: what is asked of the spares.

    Raises:
        Problems: for the request, the fleet, a build or a book.
    """
    told = _told(asked)
    if asked.fleet is not None:
        rows = [_beside(row, asked.fleet, book, build) for row in read_fleet(asked.fleet)]
    else:
        rows = [_single(book, build, told, _sites(asked))]
    read = {key: _read(*key, request) for key in dict.fromkeys((r.book, r.build) for r in rows)}
    return tuple(_machines(row, *read[row.book, row.build], told) for row in rows)


def _told(asked: Asked) -> Upkeep:
    """Read what is asked of the upkeep, with the problems of a site file."""
    texts = {
        "machines": ("machines", asked.machines),
        "level": ("service_level", asked.level),
        "lead": ("lead_time", asked.lead),
        "unit-lead": ("unit_lead_time", asked.unit_lead),
        "unit-rate": ("unit_failure_rate", asked.unit_rate),
    }
    found: list[Problem] = []
    said: dict[str, Any] = {}
    for option, (field, text) in texts.items():
        try:
            upkeep = site_from({"upkeep": {field: text}}).upkeep if text else None
        except Problems as problems:
            found += [replace(p, message=f"{option}: {p.message}") for p in problems.problems]
        else:
            said |= {field: getattr(upkeep, field)} if upkeep is not None else {}
    if found:
        raise Problems(found)
    return Upkeep().model_copy(update=said)


def _sites(asked: Asked) -> int:
    if not asked.sites:
        return 0
    if not (asked.sites.isascii() and asked.sites.isdigit() and int(asked.sites) > 0):
        message = f"sites: {asked.sites!r} is not a number of sites."
        raise problem("not-a-count", message, None, "Write a whole number such as 12.")
    return int(asked.sites)


def _single(book: str, build: Path | None, told: Upkeep, sites: int) -> Row:
    if build is None:
        hint = "Give BOOK and BUILD, or a table with --fleet."
        raise problem("no-build", "It is not said which build to keep spares for.", None, hint)
    mark = Mark(str(build), 1, 1)
    if told.machines is not None:
        count = told.machines.known
    else:
        upkeep = read_build(build).site.upkeep
        stated = upkeep.machines if upkeep else None
        if stated is None:
            hint = "Give --machines, such as --machines 140."
            raise problem("no-machines", "It is not said how many machines there are.", None, hint)
        count = stated.known
    if count < 1:
        message = "Spares are kept for one machine at least."
        raise problem("no-machines", message, None, "Give --machines, such as --machines 140.")
    if not 0 <= sites <= count:
        message = f"{count:,} machines cannot stand at {sites:,} sites."
        raise problem("sites", message, None, "Give at most one site for each machine.")
    return Row(book, str(build), count, ONE_DEPOT, sites, mark)


def _beside(row: Row, fleet: Path, book: str, build: Path | None) -> Row:
    """Return a row with what it leaves out; its build lies beside the table unless absolute."""
    path = str(fleet.parent / row.build) if row.build else str(build or "")
    if not (row.book or book) or not path:
        hint = "Name them in the columns book and build, or give BOOK and BUILD."
        raise problem("no-build", "A row says neither book nor build.", row.mark, hint)
    return replace(row, book=row.book or book, build=path, depot=row.depot or ONE_DEPOT)


def _read(book: str, build: str, request: Request) -> tuple[Case, str, Site]:
    found = read_build(Path(build))
    opened = open_book(book, setting_of(found, request.setting()), request.panel())
    problems: Sequence[Problem] = check_build(found, opened.book)
    if problems:
        raise Problems(problems)
    return case_of(opened.machine, found), found.name.known, found.site


def _machines(row: Row, case: Case, name: str, site: Site, told: Upkeep) -> Machines:
    said = {field: getattr(told, field) for field in told.model_fields_set}
    upkeep = (site.upkeep or Upkeep()).model_copy(update=said)
    lacks = list(_lacking(upkeep))
    if lacks:
        raise Problems(lacks)
    sites = row.sites or row.count
    return Machines(case, name, upkeep, row.count, row.depot, sites, bool(row.sites))


def _lacking(upkeep: Upkeep) -> Iterator[Problem]:
    needed = {
        "service_level": ("the odds wanted", "--level '99 %'"),
        "lead_time": ("the time until a spare is replaced", "--lead '14 d'"),
    }
    for field, (what, option) in needed.items():
        if getattr(upkeep, field) is None:
            message = f"Nobody says {what}."
            yield Problem("not-stated", message, None, f"Give {option}, or site.upkeep.{field}.")


def interval(asked: Asked) -> float | None:
    """Return the interval between visits [d], or ``None`` where none is asked for.

    Raises:
        Problems: for one that is no time, or none at all.
    """
    if not asked.visits:
        return None
    try:
        found = float(parse(asked.visits, "time").to("d"))
    except UnitError as error:
        raise problem(error.kind, f"visits: {error.message}", None, error.hint) from error
    if found <= 0:
        message = f"visits: {asked.visits!r} is no interval."
        raise problem("not-an-interval", message, None, "Write a time such as '7 d'.")
    return found
