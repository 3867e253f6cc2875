"""Two books: what each machine can be at most, and every part, place and fact of either."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.answers.figures import amount
from baywright.answers.verdicts import Bound
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
from baywright.problems import Mark, Problems
from baywright.space import Origin, Sum, Table
from baywright.terms import parse

LEAST = ("price", "load", "mass", "fans")
"""Numbers of which less is asked for; of all others the most is compared."""

EMPTY = "empty"

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
        one, other = (side.bound(question) for side in sides)
        if one is None and other is None:
            continue
        a, b = one.figure.value if one else None, other.figure.value if other else None
        mine, theirs = (side.conditions(question) for side in sides)
        only_if = tuple(each for each in theirs if each not in mine)
        yield Compared(
            "At most", _what(one or other), _said(one), _said(other), word_of(a, b), only_if
        )


class _Reach:
    """What one machine reaches, each question asked once.

    Args:
        opened: the book.
    """

    def __init__(self, opened: Opened) -> None:
        self._opened = opened
        self._bounds: dict[str, Bound | None] = {}
        self._usual = opened.inquiry().options(opened.machine.space)

    def bound(self, question: str) -> Bound | None:
        """Return the answer of a question, or ``None`` where the book has no such thing."""
        if question not in self._bounds:
            try:
                verdict = ask(self._opened, question).verdict
            except Problems:
                verdict = None
            self._bounds[question] = verdict if isinstance(verdict, Bound) else None
        return self._bounds[question]

    def conditions(self, question: str) -> tuple[str, ...]:
        """Return how sockets and settings have to be for the most of a number to be reached."""
        found, machine, mark = self.bound(question), self._opened.machine, Mark("comparison", 1, 1)
        if found is None or not found.most or not found.figure.value:
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


def _what(bound: Bound | None) -> str:
    if bound is None:
        return ""
    return f"{'most' if bound.most else 'least'} of {bound.figure.words}"


def _said(bound: Bound | None) -> str:
    return amount(bound.figure.value, bound.figure.dimension) if bound else ""


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
