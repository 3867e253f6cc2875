"""Parts of any kind: how many in a machine, when they ship, what they cost and weigh."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction

from baywright.facts.fact import Fact
from baywright.facts.parts import Part
from baywright.laws.frame import Frame, Option
from baywright.laws.linear import Linear
from baywright.laws.subsystem import Named, Subsystem
from baywright.space import Law
from baywright.units import Quantity


def _laws(frame: Frame) -> Iterable[Law]:
    for name, part in frame.book.parts.items():
        if part.at_most is not None:
            yield from _at_most(frame, name, part.at_most)
        yield from _dates(frame, name, part)


def _at_most(frame: Frame, name: str, most: Fact[int]) -> Iterator[Law]:
    total = frame.linear(lambda other, part: int(other == name))
    sentence = f"A machine has at most {most.known} of {name}."
    yield from frame.at_most(frame.law(f"parts.at_most/{name}", sentence, most), total, most.known)


def orderable_from(frame: Frame) -> datetime.date:
    """Return the day parts are asked for: the day of the question, or the machine's first."""
    ships = frame.book.book.ships
    return max(frame.conditions.as_of, ships.known) if ships else frame.conditions.as_of


def _dates(frame: Frame, name: str, part: Part) -> Iterator[Law]:
    """A part that does not ship yet, or cannot be ordered any more, is in no build."""
    day = orderable_from(frame)
    for what, fact, sentence in (
        ("ships", part.ships, f"{part.name} ships from {{}}."),
        ("last_order", part.last_order, f"{part.name} could be ordered until {{}}."),
    ):
        if fact is None or (day >= fact.known if what == "ships" else day <= fact.known):
            continue
        origin = frame.law(f"parts.{what}/{name}", sentence.format(fact.known.isoformat()), fact)
        for choice, fitting in frame.fittings.items():
            if not fitting.derived:
                yield from frame.table(
                    origin, (choice,), lambda option: not _has(frame, option, name)
                )


def _has(frame: Frame, option: Option, wanted: str) -> bool:
    return any(name == wanted for name, _, _ in frame.parts_in(option))


def _names(frame: Frame) -> Mapping[str, Named]:
    chassis = frame.book.chassis
    currency = f"money:{frame.book.book.currency}"
    price = _total(frame, lambda part: part.price, currency, chassis.price.known.canonical)
    mass = _total(frame, lambda part: part.mass, "mass", chassis.mass_empty.known.canonical)
    return {
        "price": Named(price, "list price of the chassis and all parts", "the price"),
        "mass": Named(mass, "mass of the chassis and all parts", "the mass"),
    }


def _total(
    frame: Frame, of: Callable[[Part], Fact[Quantity] | None], dimension: str, base: Fraction
) -> Linear:
    def weigh(name: str, part: Part) -> Fraction:
        fact = of(part)
        return fact.known.canonical if fact is not None else Fraction(0)

    return Linear(frame.linear(weigh).weights, base, dimension)


SUBSYSTEM = Subsystem("parts", laws=_laws, names=_names)
