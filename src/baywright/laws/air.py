"""Air: how many fans a build has, what heat they carry at the site, and the inlet limit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Fan
from baywright.facts.places import FanCount, Fans
from baywright.facts.sections import Derating, InletLimit
from baywright.laws.formula import TRUE, AllOf, AnyOf, AtMost, Formula, Rows, negated
from baywright.laws.frame import Fitting, Frame, Option, assorted_or_alike, structure
from baywright.laws.linear import Linear, added
from baywright.laws.power import load
from baywright.laws.subsystem import Named, Subsystem
from baywright.laws.wording import counted, plain
from baywright.space import Law
from baywright.units import Quantity

MOST_MIXTURES = 1_000
"""More mixtures of fans than this, and only identical ones are choices."""


def _choices(book: Book) -> Iterator[Fitting]:
    for name, place in book.places_of(Fans).items():
        most = place.positions.known
        sentence = f"{place.name} has {counted(most, 'position')}."
        why = structure(book, name, sentence, place.positions)
        fans = book.taken(place.takes)
        yield Fitting(name, name, assorted_or_alike(fans, most, MOST_MIXTURES), why)


def _laws(frame: Frame) -> Iterable[Law]:
    for name, place in frame.book.places_of(Fans).items():
        yield from _count(frame, name, place)
    air = frame.book.air
    sentence = f"The fans carry the peak draw away with a rise of {air.rise.text}."
    origin = frame.law("air.carry", sentence, air.rise)
    yield from frame.formula(origin, _suffices(frame, spare=0))
    yield from _altitude(frame)
    yield from _inlet(frame)


def _count(frame: Frame, name: str, place: Fans) -> Iterator[Law]:
    """Each number of fans holds under its condition; the first condition that applies counts."""
    origin = frame.law(
        f"fans.count/{name}",
        f"{place.name}: {_counts_in_words(frame, place.fitted)}.",
        *(entry.count for entry in place.fitted),
    )
    terms = tuple(
        AllOf((case, _fitted(frame, name, entry.count.known)))
        for case, entry in zip(_cases(frame, place.fitted), place.fitted, strict=True)
    )
    yield from frame.formula(origin, AnyOf(terms))


def _counts_in_words(frame: Frame, entries: list[FanCount]) -> str:
    otherwise = " otherwise" if len(entries) > 1 else ""
    return "; ".join(
        f"{entry.count.known} fans{_in_brackets(frame, entry.when) or otherwise}"
        for entry in entries
    )


def _in_brackets(frame: Frame, condition: str | None) -> str:
    return f" ({frame.say(condition)})" if condition else ""


def _cases(frame: Frame, entries: Iterable[FanCount | InletLimit]) -> Iterator[Formula]:
    """Yield, for each entry, when it applies and none before it does."""
    before: list[Formula] = []
    for entry in entries:
        applies = frame.read(entry.when) if entry.when else TRUE
        yield AllOf((*(negated(other, frame.sizes) for other in before), applies))
        before.append(applies)


def _fitted(frame: Frame, name: str, count: int) -> Rows:
    return Rows((name,), frame.rows((name,), lambda option: option.count == count))


def _carried(frame: Frame, spare: int) -> Linear:
    """Return the heat that all fans but ``spare`` carry at the site."""
    fans = added(_heat(frame, name, spare) for name in frame.book.places_of(Fans))
    return Linear(fans.weights, fans.constant, "power")


def _suffices(frame: Frame, spare: int) -> Formula:
    return AtMost(load(frame).minus(_carried(frame, spare)), Fraction(0))


def _heat(frame: Frame, name: str, spare: int) -> Linear:
    rise = frame.book.air.rise.known.canonical
    per_flow = frame.conditions.heat_per_flow * rise

    def carried(option: Option) -> Fraction:
        flows = [
            part.flow.known.to("CFM")
            for _, part, count in frame.parts_in(option)
            if isinstance(part, Fan)
            for _ in range(count)
        ]
        # The fan that fails is the strongest: the safe side for a mixture.
        return sum(sorted(flows)[: max(0, len(flows) - spare)], Fraction(0)) * per_flow

    return frame.by_option(name, carried)


def derated(limit: Quantity, derating: Derating, altitude: Quantity) -> Fraction:
    """Return the inlet limit in degrees Celsius at an altitude.

    Linear above the altitude from which the book lets it fall.
    """
    above = max(Fraction(0), altitude.to("m") - derating.above.known.to("m"))
    fall = derating.by.known.canonical * above / derating.per.known.to("m")
    return limit.to("°C") - fall


def _altitude(frame: Frame) -> Iterator[Law]:
    highest = frame.book.air.derating.up_to
    if highest is not None and frame.conditions.altitude > highest.known:
        sentence = (
            f"It is used up to {highest.text}; the site is at {plain(frame.conditions.altitude)}."
        )
        yield from frame.formula(frame.law("air.altitude", sentence, highest), AnyOf(()))


def _inlet(frame: Frame) -> Iterator[Law]:
    """A build whose inlet limit at the site is below the inlet asked for is not legal there."""
    inlet, air = frame.conditions.inlet, frame.book.air
    if inlet is None:
        return
    cases = _cases(frame, air.inlet_limits)
    for position, (case, entry) in enumerate(zip(cases, air.inlet_limits, strict=True), 1):
        limit = derated(entry.limit.known, air.derating, frame.conditions.altitude)
        if inlet.to("°C") > limit:
            sentence = _inlet_sentence(frame, entry, limit)
            origin = frame.law(f"air.inlet/{position}", sentence, entry.limit, air.derating.by)
            yield from frame.formula(origin, negated(case, frame.sizes))


def _inlet_sentence(frame: Frame, entry: InletLimit, limit: Fraction) -> str:
    conditions, condition = frame.conditions, _in_brackets(frame, entry.when)
    shown = f"{float(limit):.1f}".removesuffix(".0")
    return (
        f"The air taken in may have at most {shown} °C at {plain(conditions.altitude)}{condition};"
        f" the site has {conditions.inlet}."
    )


def _names(frame: Frame) -> Mapping[str, Named]:
    return {
        "air_redundant": Named(
            _suffices(frame, spare=1),
            "one fan fewer still carries the peak draw",
            "the fans are redundant",
            "the fans are not redundant",
        ),
        "air_carries": Named(
            _carried(frame, spare=0), "heat that the fans carry at the site", "what the fans carry"
        ),
        "air_carries_redundant": Named(
            _carried(frame, spare=1),
            "heat that one fan fewer carries",
            "what one fan fewer carries",
        ),
        "fans": Named(
            frame.linear(lambda name, part: int(isinstance(part, Fan))),
            "fans fitted",
            "the number of fans",
        ),
    }


SUBSYSTEM = Subsystem("air", _choices, _laws, _names)
