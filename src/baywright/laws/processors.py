"""Processors: how many, identical, and what the second one opens."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Part, Processor
from baywright.facts.places import Socket
from baywright.laws.frame import Fitting, Frame, Option, alternatives, structure
from baywright.laws.subsystem import Named, Subsystem
from baywright.laws.wording import listed
from baywright.space import Law


def sockets(book: Book) -> tuple[str, ...]:
    """Return the ids of the processor sockets, in the order they are filled."""
    return tuple(book.places_of(Socket))


def _choices(book: Book) -> Iterator[Fitting]:
    options = alternatives(book.parts_of("processor"))
    for name, socket in book.places_of(Socket).items():
        yield Fitting(
            name, name, options, structure(book, name, f"{socket.name} holds one processor.")
        )


def _laws(frame: Frame) -> Iterable[Law]:
    scope = sockets(frame.book)
    counts = frame.book.processors.counts
    allowed = {count.known for count in counts}
    words = listed([str(count) for count in sorted(allowed)], "or")

    def in_order(*options: Option) -> bool:
        fitted = [option.count > 0 for option in options]
        return sum(fitted) in allowed and fitted == sorted(fitted, reverse=True)

    yield from frame.table(
        frame.law("processors.count", f"Fitted, in order of the sockets: {words}.", *counts),
        scope,
        in_order,
    )
    identical = frame.book.processors.identical
    if identical is None or identical.known:
        origin = frame.law("processors.identical", "All processors are of one model.", identical)
        for first, second in itertools.pairwise(scope):
            yield from frame.table(origin, (first, second), _same_or_empty)


def _same_or_empty(first: Option, second: Option) -> bool:
    return first.part == second.part or not first.parts or not second.parts


def _cores(name: str, part: Part) -> Fraction | int:
    return part.cores.known if isinstance(part, Processor) else 0


def _names(frame: Frame) -> Mapping[str, Named]:
    processors = frame.linear(lambda name, part: int(isinstance(part, Processor)))
    return {
        "processors": Named(processors, "processors fitted", "the number of processors"),
        "cores": Named(frame.linear(_cores), "cores in all", "the number of cores"),
    }


SUBSYSTEM = Subsystem("processors", _choices, _laws, _names)
