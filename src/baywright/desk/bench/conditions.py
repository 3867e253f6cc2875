"""Conditions of the bench: day, site and what must hold, beside the choices of places."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baywright.desk.bench.bench import Bench
from baywright.desk.opening import open_book
from baywright.desk.request import Request
from baywright.engines.diagram import Diagram
from baywright.facts.build import Build
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, read_wishes
from baywright.problems import Mark, problem

MOST_MUSTS = 12
"""Conditions that must hold beside the laws; more of them are a question, not a site."""


@dataclass(frozen=True, slots=True)
class Conditions:
    """What is given beside the choices, as typed; an empty text leaves it out of account.

    Args:
        volts: voltage of the feeds with its unit.
        altitude: altitude of the site with its unit.
        inlet: temperature of the air taken in, with its unit.
        day: the day, in ISO form; that of the book unless given.
        must: expressions that have to hold, such as ``supplies_redundant``.
    """

    volts: str = ""
    altitude: str = ""
    inlet: str = ""
    day: str = ""
    must: tuple[str, ...] = ()

    @property
    def any(self) -> bool:
        """Whether anything is given."""
        return bool(self.volts or self.altitude or self.inlet or self.day or self.must)

    @property
    def site(self) -> dict[str, str]:
        """The site as a build file states it."""
        said = {"altitude": self.altitude, "inlet": self.inlet, "voltage": self.volts}
        return {name: text for name, text in said.items() if text}

    @property
    def words(self) -> str:
        """What is given, in one line."""
        said = (
            f"{self.volts} at the feeds" if self.volts else "",
            f"{self.altitude} above sea level" if self.altitude else "",
            f"{self.inlet} air taken in" if self.inlet else "",
            f"as of {self.day}" if self.day else "",
            *(f"must hold: {each}" for each in self.must),
        )
        return ", ".join(filter(None, said))

    @property
    def question(self) -> str:
        """What must hold and the voltage as one expression, to ask why nothing has them all."""
        volts = [f"voltage == {self.volts}"] if self.volts else []
        return " and ".join([*volts, *(f"({each})" for each in self.must)])


FREE = Conditions()
"""Nothing given: the day of the book, any site."""


def conditions_of(build: Build) -> Conditions:
    """Return the site of a build and what it must have, as conditions of the bench."""
    site = build.site
    volts, altitude, inlet = (
        fact.text if fact is not None else "" for fact in (site.voltage, site.altitude, site.inlet)
    )
    return Conditions(volts, altitude, inlet, must=tuple(map(str, build.must)))


def under(bench: Bench, given: Conditions) -> Bench:
    """Return a book on the bench as it is under conditions, compiled.

    Args:
        bench: the book on the bench without conditions.
        given: the conditions.

    Raises:
        Problems: for conditions that make no sense, and kind ``no-build`` when no legal build
            has them.
        StoppedError: when it was not compiled in time.
    """
    if len(given.must) > MOST_MUSTS:
        message = f"{len(given.must)} conditions are too many for the bench."
        raise problem("too-many-musts", message, None, f"Give at most {MOST_MUSTS}.")
    opened = bench.opened
    if given.day or given.altitude or given.inlet:
        setting = Request(given.day, given.altitude, given.inlet).setting()
        opened = open_book(opened.folder, setting, opened.panel)
    made = Bench(opened, Diagram(), tuple(_wishes(opened.machine, given)))
    made.warm()
    if not all(made.free.values()):
        message = "No legal build of this book has all these conditions."
        hint = "Leave one of them out, or ask why."
        raise problem("no-build", message, None, hint)
    return made


def _wishes(machine: Machine, given: Conditions) -> Iterator[Wish]:
    asked = ((f"must {n}", text) for n, text in enumerate(given.must, 1))
    volts = (("voltage", f"voltage == {given.volts}"),) if given.volts else ()
    number = 1
    for name, text in (*volts, *asked):
        found = read_wishes(machine, text, Mark(name, 1, 1), number)
        number += len(found)
        yield from found
