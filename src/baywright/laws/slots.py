"""Slots and cards: who owns a slot, what fits into it, and what a wide card takes beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Card, Part
from baywright.facts.places import Slot
from baywright.laws.frame import (
    Fitting,
    Frame,
    Option,
    alternatives,
    assorted,
    numbered,
    structure,
)
from baywright.laws.subsystem import Subsystem
from baywright.laws.wording import listed
from baywright.space import Law

MOST_MIXTURES = 400
"""More mixtures than this in one row of slots, and the row is written as numbers of one card."""


def _choices(book: Book) -> Iterator[Fitting]:
    slots = book.places_of(Slot)
    takes = [name for slot in slots.values() for name in slot.takes]
    cards = {name: part for name, part in book.taken(takes).items() if isinstance(part, Card)}
    for name, slot in slots.items():
        most = slot.positions.known if slot.positions is not None else 1
        why = structure(book, name, f"{slot.name} has room for {most} at most.", slot.positions)
        own = {card: part for card, part in book.taken(slot.takes).items() if card in cards}
        yield Fitting(name, name, alternatives(cards) if most == 1 else _row(own, most), why)


def _row(cards: Mapping[str, Part], most: int) -> tuple[Option, ...]:
    mixed = assorted(cards, most) if len(cards) ** most < 1_000_000 else ()
    return mixed if 0 < len(mixed) <= MOST_MIXTURES else numbered(cards, most)


def _laws(frame: Frame) -> Iterable[Law]:
    for name, slot in frame.book.places_of(Slot).items():
        yield from _takes(frame, name, slot)
        yield from _owner(frame, name, slot)
        yield from _sizes(frame, name, slot)
        yield from _neighbour(frame, name, slot)


def _cards(frame: Frame, option: Option) -> list[Card]:
    parts = (frame.book.parts[name] for name, _ in option.parts)
    return [part for part in parts if isinstance(part, Card)]


def _each(frame: Frame, test: Callable[[Card], bool]) -> Callable[[Option], bool]:
    return lambda option: all(test(card) for card in _cards(frame, option))


def _takes(frame: Frame, name: str, slot: Slot) -> Iterator[Law]:
    allowed = frame.book.taken(slot.takes)
    sentence = f"{slot.name} takes {listed(allowed, 'or')}."
    yield from frame.table(
        frame.law(f"slots.takes/{name}", sentence, *slot.takes),
        (name,),
        lambda option: all(part in allowed for part, _ in option.parts),
    )
    if slot.always is not None:
        yield from frame.table(
            frame.law(
                f"slots.always/{name}", f"{slot.name} always holds {slot.always}.", slot.always
            ),
            (name,),
            lambda option: option.part == slot.always,
        )


def _owner(frame: Frame, name: str, slot: Slot) -> Iterator[Law]:
    if slot.owner is None:
        return
    owner = frame.book.places[slot.owner].name
    sentence = f"{slot.name} works only with {owner}."
    yield from frame.table(
        frame.law(f"slots.owner/{name}", sentence, slot.owner),
        (slot.owner, name),
        lambda processor, option: bool(processor.parts) or not option.parts,
    )


def _sizes(frame: Frame, name: str, slot: Slot) -> Iterator[Law]:
    """A card is no longer, higher, wider or hungrier than its slot."""
    for what, sentence, fits in _limits(slot):
        facts = [getattr(slot, what)]
        origin = frame.law(f"slots.{what}/{name}", sentence, *facts)
        yield from frame.table(origin, (name,), _each(frame, fits))


def _limits(slot: Slot) -> Iterator[tuple[str, str, Callable[[Card], bool]]]:
    length, height, lanes, power = slot.length, slot.height, slot.lanes, slot.power
    if length is not None:
        sentence = f"{slot.name} takes cards up to {length.text} length."
        yield "length", sentence, lambda c: c.length is None or c.length.known <= length.known
    if height is not None:
        sentence = f"{slot.name} takes cards up to {height.text} height."
        yield "height", sentence, lambda c: c.height is None or c.height.known <= height.known
    if lanes is not None:
        sentence = f"{slot.name} takes connectors up to x{lanes.known}."
        yield "lanes", sentence, lambda c: c.lanes is None or c.lanes.known <= lanes.known
    if power is not None:
        sentence = f"{slot.name} gives a card at most {power.text}."
        yield "power", sentence, lambda c: _drawn(c) <= power.known.canonical


def _drawn(card: Card) -> Fraction:
    fact = card.slot_power or card.power
    return fact.known.canonical if fact is not None else Fraction(0)


def _width(card: Card) -> int:
    return card.slots.known if card.slots is not None else 1


def _neighbour(frame: Frame, name: str, slot: Slot) -> Iterator[Law]:
    """A card wider than its slot also takes the neighbour, where there is one."""
    room = slot.slots.known if slot.slots is not None else 1
    beside = slot.neighbour
    sentence = f"{slot.name} has room for cards {room + (beside is not None)} wide at most."
    widest = room + (beside is not None)
    yield from frame.table(
        frame.law(f"slots.width/{name}", sentence, slot.slots),
        (name,),
        _each(frame, lambda card: _width(card) <= widest),
    )
    if beside is None:
        return
    other = frame.book.places[beside].name
    sentence = f"A card wider than {slot.name} also takes {other}."
    yield from frame.table(
        frame.law(f"slots.neighbour/{name}", sentence, beside),
        (name, beside),
        lambda option, next_to: (
            not next_to.parts or all(_width(card) <= room for card in _cards(frame, option))
        ),
    )


SUBSYSTEM = Subsystem("slots", _choices, _laws)
