"""Whether the numbers and dates of a book fit each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Any

from pydantic_core import PydanticCustomError

from baywright.facts.book import Book, facts_of
from baywright.facts.fact import Fact, mark_of
from baywright.facts.model import Model, Outline
from baywright.facts.parts import Fan, Part, Supply
from baywright.facts.places import Bank, Fans, Socket, Supplies
from baywright.facts.readers import read_ratio, shown
from baywright.facts.sections import About
from baywright.problems import Problem
from baywright.units import Quantity, UnitError, money

_MAY_BE_NEGATIVE = frozenset({"temperature", "temperature_difference"})

# Whole numbers that may be none; every other is at least one.
_MAY_BE_NONE = frozenset(
    {"lanes", "lanes_per_bay", "connectors", "at_most", "legal", "redundant", "drives_most"}
)


def check_dates(book: Book) -> Iterator[Problem]:
    """Yield dates that are out of order: announced, then shipping, then the last order."""
    yield from _dates(book.book)
    for part in book.parts.values():
        yield from _dates(part)


def check_amounts(book: Book) -> Iterator[Problem]:
    """Yield amounts that do not fit each other, or that nothing can have."""
    yield from _ranges(book)
    yield from _signs(book)
    yield from _currency(book)
    yield from _positions(book)
    yield from _turns(book)
    for part in book.parts.values():
        if isinstance(part, Supply):
            yield from _efficiency(part)
        if isinstance(part, Fan):
            yield from _curve(part)


def _dates(subject: About | Part) -> Iterator[Problem]:
    words = (("announced", "is announced"), ("ships", "ships"), ("last_order", "is last sold"))
    stated = [(getattr(subject, field), verb) for field, verb in words]
    dated = [(fact, verb) for fact, verb in stated if fact is not None and fact.value is not None]
    for (first, before), (second, after) in pairwise(dated):
        if first.known > second.known:
            message = f"It {after} on {second.text}, before it {before} on {first.text}."
            yield Problem("out-of-order", message, second.mark, "Correct one of the two dates.")


def _ranges(book: Book) -> Iterator[Problem]:
    chassis = book.chassis
    yield from _rising(chassis.rails_from, chassis.rails_to)
    yield from _rising(chassis.mass_empty, chassis.mass_most)
    yield from _rising(book.air.noise_idle, book.air.noise_full)
    for line in book.power.lines.values():
        yield from _rising(line.volts_from, line.volts_to)


def _rising(low: Fact[Quantity] | None, high: Fact[Quantity] | None) -> Iterator[Problem]:
    if low is None or high is None or low.value is None or high.value is None:
        return
    if low.value > high.value:
        message = f"{high.text} is less than {low.text}, where the range starts."
        yield Problem("out-of-order", message, high.mark, "Correct one of the two.")


def _signs(book: Book) -> Iterator[Problem]:
    no_sockets = not book.places_of(Socket)
    for field, fact in _named_facts(book):
        if no_sockets and fact.path == "processors.counts.0" and fact.value == 0:
            continue  # a machine without processors, such as a drive shelf
        least = _least(field, fact.value)
        if least:
            message = f"{shown(fact.text)} cannot be: it is {least}."
            yield Problem("not-positive", message, fact.mark, "Correct the number.")


def _least(field: str, value: object) -> str:
    """Say what a value has to be at least, or nothing when it is that or has no such bound."""
    if isinstance(value, Quantity):
        bounded = value.dimension not in _MAY_BE_NEGATIVE
        return "not below nothing" if bounded and value.canonical < 0 else ""
    if isinstance(value, int) and not isinstance(value, bool):
        lowest = 0 if field in _MAY_BE_NONE else 1
        return f"at least {lowest}" if value < lowest else ""
    return ""


def _named_facts(value: object, field: str = "") -> Iterator[tuple[str, Fact[Any]]]:
    """Yield facts with the field they stand in; positions on a drawing may lie anywhere."""
    if isinstance(value, Fact):
        yield field, value
    elif isinstance(value, Model) and not isinstance(value, Outline):
        for name in type(value).model_fields:
            yield from _named_facts(getattr(value, name), name)
    elif isinstance(value, dict):
        for inner in value.values():
            yield from _named_facts(inner, field)
    elif isinstance(value, list):
        for inner in value:
            yield from _named_facts(inner, field)


def _currency(book: Book) -> Iterator[Problem]:
    code = book.book.currency
    try:
        wanted = money(code)
    except UnitError as error:
        yield error.problem(mark_of(code))
        return
    for fact in facts_of(book):
        value = fact.value
        if not isinstance(value, Quantity) or not value.dimension.startswith("money:"):
            continue
        if value.dimension != wanted:
            message = f"{shown(fact.text)} is not in {code}, the currency of the book."
            yield Problem("wrong-currency", message, fact.mark, f"Write an amount of {code}.")


def _positions(book: Book) -> Iterator[Problem]:
    sockets = len(book.places_of(Socket))
    yield from _within(book.processors.counts, sockets, "processor sockets")
    for bank in book.places_of(Bank).values():
        if bank.channels.value is not None and bank.per_channel.value is not None:
            most = bank.channels.value * bank.per_channel.value
            yield from _within(bank.counts, most, "module sockets")
    for fans in book.places_of(Fans).values():
        yield from _fitting([entry.count for entry in fans.fitted], fans.positions, "positions")
    for supplies in book.places_of(Supplies).values():
        counts = [entry.count for entry in supplies.fitted]
        yield from _fitting(counts, supplies.positions, "positions")
        for entry in supplies.fitted:
            carrying = [fact for fact in (entry.legal, entry.redundant) if fact is not None]
            yield from _fitting(carrying, entry.count, "supplies fitted")
        yield from _once(counts)


def _turns(book: Book) -> Iterator[Problem]:
    for orientation in book.chassis.orientations.values():
        turn = orientation.turn
        if turn.value is not None and turn.value.to("°") not in (0, 90, 180, 270):
            message = f"A machine is not turned by {turn.text}."
            yield Problem("not-a-turn", message, turn.mark, "Give 0, 90, 180 or 270 °.")


def _once(counts: Iterable[Fact[int]]) -> Iterator[Problem]:
    """Yield numbers of supplies that stand twice: the second would never count."""
    seen: set[int] = set()
    for count in counts:
        if count.value is None:
            continue
        if count.value in seen:
            message = f"What {count.text} supplies have to carry is given twice."
            hint = "Keep one of the two; for another redundancy, give the supplies that carry it."
            yield Problem("given-twice", message, count.mark, hint)
        seen.add(count.value)


def _fitting(counts: Iterable[Fact[int]], most: Fact[int], noun: str) -> Iterator[Problem]:
    return _within(counts, most.value, noun) if most.value is not None else iter(())


def _within(counts: Iterable[Fact[int]], most: int, noun: str) -> Iterator[Problem]:
    for count in counts:
        if count.value is not None and count.value > most:
            message = f"{count.text} is more than there are: {most} {noun}."
            yield Problem("too-many", message, count.mark, "Correct one of the two.")


def _efficiency(supply: Supply) -> Iterator[Problem]:
    loads: list[tuple[Fraction, str]] = []
    for written in supply.efficiency:
        try:
            loads.append((read_ratio(written), written))
        except PydanticCustomError:
            message = f"{shown(written)} is not a load."
            hint = "Write the share of the rating, such as 50 %."
            yield Problem("not-a-ratio", message, mark_of(written), hint)
    for (low, first), (high, second) in pairwise(loads):
        if low >= high:
            message = f"The load {second} comes after {first}."
            hint = "Put loads in rising order, each once."
            yield Problem("out-of-order", message, mark_of(second), hint)


def _curve(fan: Fan) -> Iterator[Problem]:
    if any(fact.value is None for fact in facts_of(fan.curve)):
        return
    for first, second in pairwise(fan.curve):
        if first.flow.known >= second.flow.known or second.pressure.known >= first.pressure.known:
            message = "Along a fan curve the flow rises and the pressure falls."
            hint = "Put the points in rising order of flow, each flow once."
            yield Problem("out-of-order", message, second.flow.mark, hint)
    ends = [fan.curve[0].flow, fan.curve[-1].pressure] if fan.curve else []
    for end in ends:
        if end.known.canonical:
            message = f"A fan curve goes from no flow to no pressure; {end.text} is no end of it."
            hint = "Add the point at 0 CFM or at 0 Pa."
            yield Problem("out-of-order", message, end.mark, hint)
