"""How many builds a book has, and what share of them has each option."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.counting import BuildCount, Counters, count_builds, count_values
from baywright.answers.verdicts import Proof
from baywright.desk.opening import Opened
from baywright.engines.diagram import Diagram
from baywright.facts.status import Status
from baywright.laws.machine import Machine
from baywright.laws.wishes import read_wishes, with_wishes
from baywright.problems import Mark
from baywright.space import Space
from baywright.terms import parse, wording

GIVEN = Mark("given", 1, 1)


@dataclass(frozen=True, slots=True)
class BookCount:
    """The number of legal builds of a book.

    Args:
        book: id of the book.
        name: its name.
        as_of: the day it holds for, in ISO form.
        status: what the machine is on that day.
        given: the condition that was asked for, in words, or empty.
        worlds: the count for each way the unknown facts that matter could be, with their values.
    """

    book: str
    name: str
    as_of: str
    status: Status
    given: str
    worlds: tuple[tuple[Mapping[str, str], BuildCount], ...]

    @property
    def numbers(self) -> frozenset[int]:
        """The numbers it can be: one, unless it depends on unknown facts."""
        return frozenset(found.number for _, found in self.worlds)


@dataclass(frozen=True, slots=True)
class ChoiceShares:
    """What share of the legal builds has each value of a choice.

    Args:
        choice: name of the choice.
        name: name of its place or setting.
        values: label and number of builds, for each value that some build has.
        total: number of all builds.
    """

    choice: str
    name: str
    values: tuple[tuple[str, int], ...]
    total: int

    def share(self, number: int) -> Fraction:
        """Return a number of builds as a share of all, from 0 to 1."""
        return Fraction(number, self.total)


@dataclass(frozen=True, slots=True)
class BookShares:
    """What share of the legal builds of a book has each option.

    Args:
        book: id of the book.
        total: number of legal builds.
        choices: the choices with their values.
        supposed: what unknown facts were taken to be, by path.
        proof: who counted and how it was checked.
    """

    book: str
    total: int
    choices: tuple[ChoiceShares, ...]
    supposed: Mapping[str, str]
    proof: Proof


def builds(opened: Opened, given: str = "") -> BookCount:
    """Count the legal builds of a book that meet a condition.

    Builds are told apart by what each place, cable and setting has; interchangeable parts by how
    many there are.

    Args:
        opened: the book, with day and site.
        given: the condition, or empty for none.

    Raises:
        Problems: when the condition makes no sense.
        StoppedError: at the limit of the engine.
        RecheckError: when a second count differs.
    """
    counters = _counters(opened)
    worlds = opened.in_worlds(lambda machine: count_builds(_space(machine, given), counters))
    machine = opened.machine
    said = (
        wording(machine.condition(parse(given, GIVEN), GIVEN), machine.vocabulary) if given else ""
    )
    about = opened.book.book
    found = tuple((world.given, count) for world, count in worlds)
    return BookCount(about.id, about.name, opened.as_of.isoformat(), opened.status, said, found)


def shares(opened: Opened, given: str = "") -> BookShares:
    """Count the legal builds that have each option, in the first way unknown facts could be.

    Args:
        opened: the book, with day and site.
        given: a condition that the builds have to meet, or empty for none.

    Raises:
        Problems: when the condition makes no sense.
        StoppedError: at the limit of the engine.
        RecheckError: when the numbers of a choice do not add up.
    """
    counters = _counters(opened)
    world, found = opened.in_worlds(lambda machine: count_values(_space(machine, given), counters))[
        0
    ]
    machine = world.machine
    choices = []
    for name, fitting in machine.frame.fittings.items():
        if not fitting.derived:
            place = machine.book.places.get(fitting.place)
            labels = (option.label for option in fitting.options)
            values = zip(labels, found.by_choice[name], strict=True)
            kept = tuple((label, number) for label, number in values if number)
            title = place.name if place else fitting.place
            choices.append(ChoiceShares(name, title, kept, found.total))
    return BookShares(machine.book.book.id, found.total, tuple(choices), world.given, found.proof)


def _counters(opened: Opened) -> Counters:
    return Counters(Diagram(), opened.panel.prover, opened.panel.limit)


def _space(machine: Machine, given: str) -> Space:
    wishes = read_wishes(machine, given, GIVEN) if given else []
    return with_wishes(machine.space, wishes)
