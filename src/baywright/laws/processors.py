"""Processors: how many, identical, and what the second one opens."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Part, Processor
from baywright.facts.places import Socket
from baywright.laws.frame import Fitting, Frame, Option, alternatives, same_or_empty, structure
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
    order = frame.law("processors.order", "Sockets are filled in the order the book lists them.")
    for pair in itertools.pairwise(scope):
        yield from frame.table(order, pair, lambda first, then: first.count >= then.count)
    yield from _counts(frame, scope)
    identical = frame.book.processors.identical
    if identical is None or identical.known:
        origin = frame.law("processors.identical", "All processors are of one model.", identical)
        for pair in itertools.combinations(scope, 2):
            yield from frame.table(origin, pair, same_or_empty)


def _counts(frame: Frame, scope: tuple[str, ...]) -> Iterator[Law]:
    """Exactly ``n`` are fitted where the last of the first ``n`` is, and the next one is not."""
    counts = frame.book.processors.counts
    allowed = {count.known for count in counts}
    words = listed([str(count) for count in sorted(allowed)], "or")
    origin = frame.law("processors.count", f"Processors fitted: {words}.", *counts)
    for number in set(range(len(scope) + 1)) - allowed:
        last, following = scope[number - 1 : number], scope[number : number + 1]
        yield from frame.table(origin, (*last, *following), _not_exactly(len(last)))


def _not_exactly(filled: int) -> Callable[..., bool]:
    """Return the test that it is not so that the first options are parts and the rest none."""

    def test(*options: Option) -> bool:
        first, rest = options[:filled], options[filled:]
        return not all(o.parts for o in first) or any(o.parts for o in rest)

    return test


def _cores(name: str, part: Part) -> Fraction | int:
    return part.cores.known if isinstance(part, Processor) else 0


def _names(frame: Frame) -> Mapping[str, Named]:
    processors = frame.linear(lambda name, part: int(isinstance(part, Processor)))
    return {
        "processors": Named(processors, "processors fitted", "the number of processors"),
        "cores": Named(frame.linear(_cores), "cores in all", "the number of cores"),
    }


SUBSYSTEM = Subsystem("processors", _choices, _laws, _names)
