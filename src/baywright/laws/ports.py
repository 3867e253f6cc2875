"""Ports by the side they are reached from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.model import Port
from baywright.facts.parts import Part
from baywright.laws.frame import Frame
from baywright.laws.linear import Linear
from baywright.laws.selection import word
from baywright.laws.subsystem import Function, Subsystem
from baywright.terms import Arguments, FunctionEntry, Parameter
from baywright.terms.vocabulary import NUMBER, Words, one_of


def _all_ports(book: Book) -> Iterator[Port]:
    yield from book.chassis.ports
    for part in book.parts.values():
        yield from part.ports


def _entry(book: Book) -> FunctionEntry:
    ports = list(_all_ports(book))
    types = frozenset(str(port.type) for port in ports)
    scopes = frozenset(str(port.scope) for port in ports)
    return FunctionEntry(
        (Parameter("type", type=one_of(types)),),
        NUMBER,
        "How many ports of a type there are, on one side of the machine or on all.",
        keywords=(Parameter("at", type=one_of(scopes), required=False),),
        words=Words("{type} port{at}", "{type} ports{at}"),
    )


def _ports(frame: Frame, arguments: Arguments) -> Linear:
    kind = word(arguments.given["type"])
    side = arguments.given.get("at")
    scope = word(side) if side is not None else None

    def counted(ports: list[Port]) -> int:
        return sum(
            port.count.known
            for port in ports
            if port.type == kind and scope in (None, str(port.scope))
        )

    def weigh(name: str, part: Part) -> int:
        return counted(part.ports)

    return Linear(frame.linear(weigh).weights, Fraction(counted(frame.book.chassis.ports)))


def _functions(frame: Frame) -> Mapping[str, Function]:
    return {"ports": Function(_entry(frame.book), _ports)}


SUBSYSTEM = Subsystem("ports", functions=_functions)
