"""Opening a book: read, compiled for a day and a site, once for each way it could be."""

from __future__ import annotations

import datetime
import itertools
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from baywright.answers.inquiry import Inquiry, Panel
from baywright.engines.cpsat import CpSat
from baywright.engines.search import Search
from baywright.facts.book import Book
from baywright.facts.citation import Citation
from baywright.facts.fact import Fact, UnknownFactError
from baywright.facts.references import unknown_facts
from baywright.facts.status import Status, status
from baywright.files.books import find_book, read_book
from baywright.laws.conditions import Conditions
from baywright.laws.machine import Machine, compile_book
from baywright.problems import problem
from baywright.sizing.air.atmosphere import HIGHEST, LOWEST, ZERO_CELSIUS
from baywright.sizing.air.flow import heat_per_flow
from baywright.units import Quantity, parse

T = TypeVar("T")

MOST_WORLDS = 256
"""More combinations of unknown facts than this are not gone through."""

MOST_SITES = 16
"""Days and sites for which an open book is kept compiled beside its own."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What a question takes as given beside the book.

    Args:
        as_of: the day the answer holds for; the edition of the book unless given.
        altitude: altitude of the site; sea level unless given.
        inlet: temperature of the air taken in, or ``None`` to leave it out of account.
    """

    as_of: datetime.date | None = None
    altitude: Quantity | None = None
    inlet: Quantity | None = None


@dataclass(frozen=True, slots=True)
class World:
    """A book with every unknown fact given one of the values it could have.

    Args:
        given: the values, as written, by path of the fact.
        machine: the compiled book.
    """

    given: dict[str, str]
    machine: Machine


@dataclass(eq=False)
class Opened:
    """A book that is open on the desk.

    Args:
        folder: where it lies.
        book: its facts, unknown ones included.
        setting: day and site.
        panel: the engines that answer.
        unknown: facts whose value nobody has stated yet, by path.
    """

    folder: Path
    book: Book
    setting: Setting
    panel: Panel
    unknown: Mapping[str, Fact[Any]] = field(default_factory=dict)
    _asked_for: dict[str, Fact[Any]] = field(default_factory=dict)
    _compiled: dict[tuple[str, ...], World] = field(default_factory=dict)
    _elsewhere: dict[Setting, Opened] = field(default_factory=dict)

    @property
    def as_of(self) -> datetime.date:
        """The day answers hold for."""
        return self.setting.as_of or self.book.book.edition.known

    @property
    def status(self) -> Status:
        """What the machine is on that day."""
        return status(self.book, self.as_of)

    @property
    def machine(self) -> Machine:
        """The machine in the first world."""
        return self.in_worlds(lambda machine: machine)[0][1]

    @property
    def supposed(self) -> Mapping[str, str]:
        """What the first world takes unknown facts to be, those that compiling asks for."""
        return self.in_worlds(lambda machine: machine)[0][0].given

    def in_worlds(self, answer: Callable[[Machine], T]) -> list[tuple[World, T]]:
        """Return an answer for every way the unknown facts could be.

        Only unknown facts that compiling or answering asks for are gone through. Without any
        there is one world.

        Raises:
            Problems: when they could be too many ways together.
        """
        while True:
            try:
                return [(world, answer(world.machine)) for world in self._worlds()]
            except UnknownFactError as missing:
                path = str(missing)
                self._asked_for[path] = self.unknown[path]
                self._compiled.clear()
                _check_number(self.book, self._asked_for)

    def inquiry(self, machine: Machine | None = None) -> Inquiry:
        """Return a fresh inquiry about a machine, the first unless given."""
        return Inquiry(machine or self.machine, self.panel)

    def at(self, setting: Setting) -> Opened:
        """Return the book on another day or at another site, the same one as before.

        A book compiles once for each of its worlds, however many builds stand at that site. The
        oldest of many sites is let go, as a server holds a book open for long.
        """
        if setting == self.setting:
            return self
        found = self._elsewhere.get(setting)
        if found is None:
            while len(self._elsewhere) >= MOST_SITES:
                self._elsewhere.pop(next(iter(self._elsewhere)), None)
            found = Opened(self.folder, self.book, setting, self.panel, self.unknown)
            self._elsewhere[setting] = found
        return found

    def _worlds(self) -> Iterator[World]:
        for values in itertools.product(*(fact.could_be for fact in self._asked_for.values())):
            if values not in self._compiled:
                given = dict(zip(self._asked_for, values, strict=True))
                self._compiled[values] = self._world(given)
            yield self._compiled[values]

    def _world(self, given: dict[str, str]) -> World:
        book = read_book(self.folder, given) if given else self.book
        return World(given, compile_book(book, conditions(book, self.setting)))


def _check_number(book: Book, unknown: Mapping[str, Fact[Any]]) -> None:
    worlds = math.prod(len(fact.could_be) for fact in unknown.values())
    if worlds > MOST_WORLDS:
        message = f"The unknown facts of {book.book.id} could be {worlds:,} ways together."
        hint = f"Up to {MOST_WORLDS} can be gone through; state some of them, or narrow could_be."
        raise problem("too-many-unknown", message, None, hint)


def standard_panel() -> Panel:
    """Return the engines that answer unless others are chosen."""
    return Panel(Search(), CpSat())


def open_book(
    name: str | Path, setting: Setting | None = None, panel: Panel | None = None
) -> Opened:
    """Open a book by its folder or its bundled name.

    Raises:
        Problems: everything that is wrong with it.
    """
    folder = find_book(name)
    book = read_book(folder)
    return Opened(
        folder, book, setting or Setting(), panel or standard_panel(), unknown_facts(book)
    )


def conditions(book: Book, setting: Setting) -> Conditions:
    """Return the conditions to compile a book for.

    Raises:
        Problems: when the site lies outside the air that can be computed.
    """
    altitude = setting.altitude or parse("0 m")
    metres = float(altitude.to("m"))
    if not LOWEST <= metres <= HIGHEST:
        message = f"The air at {altitude} cannot be computed."
        raise problem("altitude", message, None, f"Give {LOWEST:g} to {HIGHEST:g} m.")
    if setting.inlet is not None and float(setting.inlet.to("°C")) <= -ZERO_CELSIUS:
        message = f"No air is at {setting.inlet}: that is not above absolute zero."
        raise problem("inlet", message, None, "Give a temperature such as 27 °C.")
    per_flow = heat_per_flow(metres)
    grounds = Citation(
        "site.air", f"{float(per_flow):.4f} W for each CFM and K at {altitude}", status="derived"
    )
    day = setting.as_of or book.book.edition.known
    return Conditions(day, per_flow, altitude, setting.inlet, (grounds,))
