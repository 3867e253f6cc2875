"""Two books: what each machine can be at most, and every part, place and fact of either."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import TypeAlias

from baywright.answers.figures import amount
from baywright.answers.inquiry import StoppedError
from baywright.answers.verdicts import Bound, Stopped, Undecided
from baywright.answers.wording import Names
from baywright.desk.asking import ask
from baywright.desk.compare.rows import (
    Compared,
    Comparison,
    Side,
    differences,
    flat,
    side_by_side,
    word_of,
)
from baywright.desk.opening import Opened
from baywright.facts.book import Book
from baywright.facts.model import Model
from baywright.facts.parts import Drive
from baywright.facts.places import Socket
from baywright.laws.formula import encode
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Lowest
from baywright.laws.wording import listed
from baywright.problems import Mark, Problems
from baywright.space import Origin, Sum, Table
from baywright.terms import parse

LEAST = ("price", "load", "mass", "fans")
"""Numbers of which less is asked for; of all others the most is compared."""

EMPTY = "empty"

Reached: TypeAlias = Bound | Undecided
"""How far a machine goes, or how far by facts that nobody has stated yet."""

REACHED = Origin("compare.reached", "wish", "The number is reached.")

BY_ID = ("parts", "places", "settings", "models", "locks", "interlocks", "lights", "links", "rules")
"""Sections that hold things by id; each is one row."""

WHOLE = ("chassis", "power", "processors", "memory", "air", "service", "firmware")
"""Sections of single facts; each fact is one row."""


def compare_books(first: Opened, second: Opened) -> Comparison:
    """Compare two open books.

    Raises:
        StoppedError: at a limit.
        RecheckError: when an engine's result did not pass its re-check.
    """
    rows = [*_figures(first, second)]
    for section in BY_ID:
        rows += _things(section, first.book, second.book)
    for section in WHOLE:
        mine, theirs = (dict(flat(getattr(each.book, section))) for each in (first, second))
        rows += side_by_side(section.capitalize(), mine.items(), theirs.items())
    return Comparison(_side(first), _side(second), tuple(rows))


def _side(opened: Opened) -> Side:
    about = opened.book.book
    status = f"{opened.status.word}. {opened.status.note}".strip()
    return Side(about.name, f"book {about.id}, as of {opened.as_of}: {status}")


def _figures(first: Opened, second: Opened) -> Iterator[Compared]:
    """Yield the most or the least of every number that either machine has."""
    sides = _Reach(first), _Reach(second)
    for question in dict.fromkeys((*_questions(first.machine), *_questions(second.machine))):
        one, other = (side.answer(question) for side in sides)
        if one is None and other is None:
            continue
        mine, theirs = (side.conditions(question) for side in sides)
        only_if = tuple(each for each in theirs if each not in mine)
        word = word_of(_value(one), _value(other))
        if isinstance(one, Undecided) and isinstance(other, Undecided):
            word = "other"  # nobody knows yet whether they are the same
        yield Compared("At most", _what(one or other), _said(one), _said(other), word, only_if)


class _Reach:
    """What one machine reaches, each question asked once.

    Args:
        opened: the book.
    """

    def __init__(self, opened: Opened) -> None:
        self._opened = opened
        self._answers: dict[str, Reached | None] = {}
        self._usual = opened.inquiry().options(opened.machine.space)

    def answer(self, question: str) -> Reached | None:
        """Return the answer of a question, or ``None`` where the book has no such thing.

        Raises:
            StoppedError: at a limit; a number that was not found is not one that is gone.
        """
        if question not in self._answers:
            try:
                verdict = ask(self._opened, question).verdict
            except Problems:
                verdict = None
            if isinstance(verdict, Stopped):
                raise StoppedError(verdict.tried)
            self._answers[question] = verdict if isinstance(verdict, Bound | Undecided) else None
        return self._answers[question]

    def conditions(self, question: str) -> tuple[str, ...]:
        """Return how sockets and settings have to be for the most of a number to be reached."""
        found, machine, mark = self.answer(question), self._opened.machine, Mark("comparison", 1, 1)
        if not isinstance(found, Bound) or not found.most or not found.figure.value:
            return ()
        inner = question.partition("(")[2][:-1]
        number = machine.translator.value(machine.read(parse(inner, mark), mark).expression)
        if not isinstance(number, Linear | Lookup | Lowest):
            return ()
        level = machine.translator.level(number, "==", found.figure.value)
        reached = encode(level, REACHED, machine.sizes)
        space = machine.space.extended(
            reached.choices,
            (law for law in reached.laws if isinstance(law, Table)),
            (law for law in reached.laws if isinstance(law, Sum)),
        )
        return tuple(_forced(machine, self._opened.inquiry().options(space), self._usual))


def _bounds(found: Reached | None) -> list[Bound]:
    """Return a bound, or those of each way the unknown facts that decide could be."""
    if isinstance(found, Undecided):
        return [each for _, each in found.outcomes if isinstance(each, Bound)]
    return [found] if found is not None else []


def _what(found: Reached | None) -> str:
    bounds = _bounds(found)
    return f"{'most' if bounds[0].most else 'least'} of {bounds[0].figure.words}" if bounds else ""


def _value(found: Reached | None) -> Fraction | str | None:
    return found.figure.value if isinstance(found, Bound) else _said(found) or None


def _said(found: Reached | None) -> str:
    shown = [amount(each.figure.value, each.figure.dimension) for each in _bounds(found)]
    if isinstance(found, Undecided):
        facts = listed(fact.path for fact in found.facts)
        return f"{listed(dict.fromkeys(shown), 'or')}, not decided: depends on {facts}"
    return "".join(shown)


def _questions(machine: Machine) -> Iterator[str]:
    for name, named in machine.names.items():
        if isinstance(named.meaning, Linear | Lookup | Lowest):
            yield f"{'least' if name in LEAST else 'most'}({name})"
    for kind in dict.fromkeys(part.kind for part in machine.book.parts.values()):
        if kind != "kit":
            yield f"most(count({kind}))"
    yield from _ports(machine.book)
    drives = (part for part in machine.book.parts.values() if isinstance(part, Drive))
    for interface in dict.fromkeys(drive.interface for drive in drives):
        yield f'most(count(drive, interface="{interface}"))'


def _ports(book: Book) -> Iterator[str]:
    """Yield how many ports of each type there are by scope, those that parts bring included."""
    parts = (port for part in book.parts.values() for port in part.ports)
    for port in (*book.chassis.ports, *parts):
        yield f'most(ports("{port.type}", at="{port.scope}"))'


def _forced(
    machine: Machine, left: Mapping[str, frozenset[int]], usual: Mapping[str, frozenset[int]]
) -> Iterator[str]:
    """Yield what every build of some is like, where builds in general are not all like that."""
    names, frame = Names(machine.book), machine.frame
    layout = (name for name in machine.book.book.skeleton if name in frame.fittings)
    sockets, settings = machine.book.places_of(Socket), machine.book.settings
    for choice in dict.fromkeys((*sockets, *layout, *settings)):
        labels = [frame.options(choice)[value].label for value in sorted(left[choice])]
        fitted = EMPTY not in labels and 0 in usual[choice]
        if choice not in sockets and len(labels) == 1 and len(usual[choice]) > 1:
            yield f"{names.place(choice)} is {names.label(choice, labels[0])}"
        elif choice in sockets and fitted:
            yield f"{names.place(choice)} is fitted"


def _things(section: str, first: Book, second: Book) -> Iterator[Compared]:
    """Yield a row for each thing of a section: the same, other in some fields, new or gone."""
    mine, theirs = getattr(first, section), getattr(second, section)
    for name in dict.fromkeys((*mine, *theirs)):
        one, other = _fields(mine, name), _fields(theirs, name)
        said = tuple(differences(one, other)) if one is not None and other is not None else ()
        word = word_of(_key(one), _key(other))
        yield Compared(
            section.capitalize(),
            name,
            _title(mine, name),
            "; ".join(said) if said else _title(theirs, name),
            word,
        )


def _fields(held: Mapping[str, Model], name: str) -> dict[str, str] | None:
    return dict(flat(held[name])) if name in held else None


def _key(fields: Mapping[str, str] | None) -> str | None:
    return None if fields is None else repr(sorted(fields.items()))


def _title(held: Mapping[str, Model], name: str) -> str:
    return str(getattr(held[name], "name", name)) if name in held else ""
