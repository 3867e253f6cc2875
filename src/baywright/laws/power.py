"""Power: the line, the peak draw, and the supplies that have to carry it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import Part, Processor, Supply
from baywright.facts.places import Supplies, SupplyCount
from baywright.laws.formula import AllOf, AtMost, Formula
from baywright.laws.frame import Fitting, Frame, Option, assorted_or_alike, structure
from baywright.laws.linear import Linear, added
from baywright.laws.subsystem import Lookup, Named, Span, Subsystem
from baywright.laws.wording import counted, listed
from baywright.space import Law
from baywright.units import Quantity

LINE = "line"
MOST_MIXTURES = 5_000
"""More mixtures of supplies than this, and only identical ones are choices."""


def _choices(book: Book) -> Iterator[Fitting]:
    lines = book.power.lines
    options = tuple(Option(line.name, value=name) for name, line in lines.items())
    sentence = f"It runs from {listed((line.name for line in lines.values()), 'or')}."
    volts = [fact for line in lines.values() for fact in (line.volts_from, line.volts_to)]
    yield Fitting(LINE, LINE, options, structure(book, LINE, sentence, *volts))
    for name, place in book.places_of(Supplies).items():
        bays = place.positions.known
        why = structure(book, name, f"{place.name} has {counted(bays, 'bay')}.", place.positions)
        supplies = book.taken(place.takes)
        options = assorted_or_alike(supplies, bays, MOST_MIXTURES)
        yield Fitting(name, name, options, why)
        yield from _capacities(book, name, place, options)


def _capacities(
    book: Book, name: str, place: Supplies, options: tuple[Option, ...]
) -> Iterator[Fitting]:
    """What the supplies carry on the line, in watts: derived, since a product is not a sum."""
    why = structure(book, f"{name} capacity", "Follows from the supplies and the line.")
    for redundant in (False, True):
        watts = sorted(
            {
                capacity(book, place, option, line, redundant=redundant)
                for option in options
                for line in book.power.lines
            }
        )
        values = tuple(Option(f"{float(w):g} W", value=w) for w in watts)
        yield Fitting(capacity_of(name, redundant=redundant), name, values, why, derived=True)


def capacity_of(supplies: str, *, redundant: bool) -> str:
    """Return the name of the choice that holds what a set of supplies carries."""
    return f"{supplies} capacity, redundant" if redundant else f"{supplies} capacity"


def capacity(
    book: Book, place: Supplies, option: Option, line: str, *, redundant: bool
) -> Fraction:
    """Return the peak DC watts that a set of supplies may carry.

    Supplies share the load equally, so the weakest of a mixture sets the share of all.

    Args:
        book: the facts.
        place: the supply bays.
        option: the supplies fitted.
        line: id of the line.
        redundant: whether it has to stay up when the spare supplies fail.
    """
    rule = counted_rule(place, option.count)
    if rule is None or not option.parts:
        return Fraction(0)
    carrying = _carrying(rule, redundant=redundant)
    ratings = [rating(book, name, line) for name, _ in option.parts]
    return carrying * min(fact.known.canonical if fact else Fraction(0) for fact in ratings)


def _carrying(rule: SupplyCount, *, redundant: bool) -> int:
    if redundant:
        return rule.redundant.known if rule.redundant else rule.count.known - 1
    return rule.legal.known if rule.legal else rule.count.known


def counted_rule(place: Supplies, count: int) -> SupplyCount | None:
    """Return what the book says of that number of supplies, if it allows it."""
    return next((rule for rule in place.fitted if rule.count.known == count), None)


def rating(book: Book, supply: str, line: str) -> Fact[Quantity] | None:
    """Return the DC rating of a supply on a line, or ``None`` where the line does not run it."""
    part = book.parts[supply]
    return part.ratings.get(line) if isinstance(part, Supply) else None


def draw_of(book: Book, part: Part) -> Fraction:
    """Return the peak DC watts of a part; a processor's regulators are counted with it."""
    if isinstance(part, Processor) and part.power is None:
        conversion = book.power.processor_conversion
        return part.tdp.known.canonical / (conversion.known if conversion else 1)
    return part.power.known.canonical if part.power is not None else Fraction(0)


def load(frame: Frame) -> Linear:
    """Return the peak DC draw in watts, base included, supplies' own loss not."""
    parts = frame.linear(lambda name, part: draw_of(frame.book, part), "power")
    return Linear(parts.weights, frame.book.power.base.known.canonical, "power")


def _laws(frame: Frame) -> Iterable[Law]:
    for name, place in frame.book.places_of(Supplies).items():
        yield from _count(frame, name, place)
        yield from _identical(frame, name, place)
        yield from _line(frame, name)
        yield from _capacity_laws(frame, name, place)


def _count(frame: Frame, name: str, place: Supplies) -> Iterator[Law]:
    allowed = [rule.count.known for rule in place.fitted]
    sentence = f"Supplies fitted: {listed(map(str, allowed), 'or')}."
    origin = frame.law(f"supplies.count/{name}", sentence, *(rule.count for rule in place.fitted))
    yield from frame.table(origin, (name,), lambda option: option.count in allowed)


def _identical(frame: Frame, name: str, place: Supplies) -> Iterator[Law]:
    if place.identical is None or place.identical.known:
        origin = frame.law(
            f"supplies.identical/{name}", "All supplies are of one model.", place.identical
        )
        yield from frame.table(origin, (name,), lambda option: len(option.parts) <= 1)


def _line(frame: Frame, name: str) -> Iterator[Law]:
    def runs(option: Option, line: Option) -> bool:
        return all(
            rating(frame.book, part, str(line.value)) is not None for part, _ in option.parts
        )

    origin = frame.law(f"supplies.line/{name}", "Each supply is made for the line it is on.")
    yield from frame.table(origin, (name, LINE), runs)


def _capacity_laws(frame: Frame, name: str, place: Supplies) -> Iterator[Law]:
    book = frame.book
    facts = [
        fact
        for part in book.taken(place.takes).values()
        if isinstance(part, Supply)
        for fact in part.ratings.values()
    ]
    for redundant in (False, True):
        total = capacity_of(name, redundant=redundant)
        origin = frame.law(
            f"supplies.rating/{name}",
            "What supplies carry follows from their rating on the line.",
            *facts,
        )
        yield from frame.table(
            origin,
            (name, LINE, total),
            lambda option, line, watts, spare=redundant: (
                watts.value == capacity(book, place, option, str(line.value), redundant=spare)
            ),
        )
    sentence = "The peak draw is at most what the supplies carry together."
    yield from frame.formula(
        frame.law(f"supplies.carry/{name}", sentence, book.power.base),
        within(frame, name, redundant=False),
    )


def within(frame: Frame, supplies: str, *, redundant: bool) -> Formula:
    """Return the formula that the supplies carry the peak draw."""
    carried = _carried_by(frame, supplies, redundant=redundant)
    return AtMost(load(frame).minus(carried), Fraction(0))


def _carried_by(frame: Frame, supplies: str, *, redundant: bool) -> Linear:
    name = capacity_of(supplies, redundant=redundant)
    watts = frame.by_option(name, lambda option: Fraction(str(option.value)))
    return Linear(watts.weights, dimension="power")


def _carried(frame: Frame, *, redundant: bool) -> Linear:
    places = frame.book.places_of(Supplies)
    each = (_carried_by(frame, name, redundant=redundant) for name in places)
    return added(each, "power")


def _names(frame: Frame) -> Mapping[str, Named]:
    redundant = AllOf(
        tuple(within(frame, name, redundant=True) for name in frame.book.places_of(Supplies))
    )
    lines = frame.book.power.lines
    return {
        "supplies_carry": Named(
            _carried(frame, redundant=False),
            "what the supplies carry together",
            "what the supplies carry",
        ),
        "supplies_carry_redundant": Named(
            _carried(frame, redundant=True),
            "what the supplies carry after the loss they are made for",
            "what the supplies carry when redundant",
        ),
        "load": Named(load(frame), "peak draw, DC", "the peak draw"),
        "supplies_redundant": Named(
            redundant,
            "the supplies carry the peak after the loss they are made for",
            "the supplies are redundant",
            "the supplies are not redundant",
        ),
        "voltage": Named(
            Span(
                Lookup((LINE,), lambda o: lines[str(o.value)].volts_from.known, "voltage"),
                Lookup((LINE,), lambda o: lines[str(o.value)].volts_to.known, "voltage"),
            ),
            "voltage of the line it runs from",
            "the line voltage",
        ),
    }


SUBSYSTEM = Subsystem("power", _choices, _laws, _names)
