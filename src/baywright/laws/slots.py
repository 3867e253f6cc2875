"""Slots and cards: who owns a slot, what fits into it, and what a wide card takes beside it."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Card, Part
from baywright.facts.places import Slot
from baywright.laws.formula import compared
from baywright.laws.frame import (
    Fitting,
    Frame,
    Option,
    alternatives,
    assorted,
    mixtures,
    numbered,
    structure,
)
from baywright.laws.linear import Linear
from baywright.laws.subsystem import Subsystem
from baywright.laws.wording import listed
from baywright.space import Law, Origin

MOST_MIXTURES = 400
"""More mixtures than this in a row of slots, and it is written as a number of each card."""


def _choices(book: Book) -> Iterator[Fitting]:
    slots = book.places_of(Slot)
    takes = [name for slot in slots.values() for name in slot.takes]
    cards = {name: part for name, part in book.taken(takes).items() if isinstance(part, Card)}
    for name, slot in slots.items():
        most = slot.positions.known if slot.positions is not None else 1
        why = structure(book, name, f"{slot.name} has room for {most} at most.", slot.positions)
        if most == 1:
            yield Fitting(name, name, alternatives(cards), why)
        else:
            yield from _row(name, {card: cards[card] for card in book.taken(slot.takes)}, most, why)


def _row(name: str, cards: Mapping[str, Part], most: int, why: Origin) -> Iterator[Fitting]:
    """A row of interchangeable slots is one choice of mixtures, or a number of each card."""
    if mixtures(cards, most) <= MOST_MIXTURES:
        yield Fitting(name, name, assorted(cards, most), why)
    else:
        for card, part in cards.items():
            yield Fitting(f"{name} {card}", name, numbered({card: part}, most), why)


def _laws(frame: Frame) -> Iterable[Law]:
    for name, slot in frame.book.places_of(Slot).items():
        for choice in frame.at(name):
            yield from _takes(frame, choice, slot)
            yield from _owner(frame, choice, name, slot)
            yield from _sizes(frame, choice, name, slot)
        yield from _always(frame, name, slot)
        yield from _room(frame, name, slot)
        yield from _neighbour(frame, name, slot)


def _room(frame: Frame, name: str, slot: Slot) -> Iterator[Law]:
    if slot.positions is not None:
        cards = frame.linear(lambda card, part: int(isinstance(part, Card)), places=[name])
        sentence = f"{slot.name} has room for {slot.positions.known} at most."
        origin = frame.law(f"slots.room/{name}", sentence, slot.positions)
        yield from frame.at_most(origin, cards, slot.positions.known)


def _cards(frame: Frame, option: Option) -> list[Card]:
    parts = (frame.book.parts[name] for name, _ in option.parts)
    return [part for part in parts if isinstance(part, Card)]


def _each(frame: Frame, slot: Slot, test: Callable[[Card], bool]) -> Callable[[Option], bool]:
    """Test each card that a slot takes; the others are refused by that alone, not by their size."""
    taken = frame.book.taken(slot.takes)
    return lambda option: all(
        test(card) for name, _ in option.parts if isinstance(card := taken.get(name), Card)
    )


def _takes(frame: Frame, choice: str, slot: Slot) -> Iterator[Law]:
    allowed = frame.book.taken(slot.takes)
    sentence = f"{slot.name} takes {listed(allowed, 'or')}."
    yield from frame.table(
        frame.law(f"slots.takes/{frame.fittings[choice].place}", sentence, *slot.takes),
        (choice,),
        lambda option: all(part in allowed for part, _ in option.parts),
    )


def _always(frame: Frame, name: str, slot: Slot) -> Iterator[Law]:
    if slot.always is None:
        return
    positions = slot.positions.known if slot.positions is not None else 1
    cards = frame.linear(lambda card, part: int(card == slot.always), places=[name])
    there = compared(cards.minus(Linear(constant=Fraction(positions))), "==")
    sentence = f"{slot.name} always holds {slot.always}."
    yield from frame.formula(frame.law(f"slots.always/{name}", sentence, slot.always), there)


def _owner(frame: Frame, choice: str, name: str, slot: Slot) -> Iterator[Law]:
    if slot.owner is None:
        return
    owner = frame.book.places[slot.owner].name
    sentence = f"{slot.name} works only with {owner}."
    yield from frame.table(
        frame.law(f"slots.owner/{name}", sentence, slot.owner),
        (slot.owner, choice),
        lambda processor, option: bool(processor.parts) or not option.parts,
    )


def _sizes(frame: Frame, choice: str, name: str, slot: Slot) -> Iterator[Law]:
    """A card is no longer, higher, wider or hungrier than its slot."""
    for what, sentence, fits in limits_of(slot):
        origin = frame.law(f"slots.{what}/{name}", sentence, getattr(slot, what))
        yield from frame.table(origin, (choice,), _each(frame, slot, fits))


def limits_of(slot: Slot) -> Iterator[tuple[str, str, Callable[[Card], bool]]]:
    """Yield what a slot states of its cards: the field, a sentence, and whether a card fits."""
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


def width_of(card: Card) -> int:
    """Return the slot widths a card takes."""
    return card.slots.known if card.slots is not None else 1


def _neighbour(frame: Frame, name: str, slot: Slot) -> Iterator[Law]:
    """A card wider than its slot also takes the neighbour, where there is one."""
    room = slot.slots.known if slot.slots is not None else 1
    beside = slot.neighbour
    widest = room + (beside is not None)
    origin = frame.law(
        f"slots.width/{name}", f"{slot.name} has room for cards {widest} wide.", slot.slots, beside
    )
    for choice in frame.at(name):
        yield from frame.table(
            origin, (choice,), _each(frame, slot, lambda c: width_of(c) <= widest)
        )
    if beside is None:
        return
    sentence = f"A card wider than {slot.name} also takes {frame.book.places[beside].name}."
    origin = frame.law(f"slots.neighbour/{name}", sentence, beside)
    for mine, theirs in itertools.product(frame.at(name), frame.at(beside)):
        yield from frame.table(
            origin,
            (mine, theirs),
            lambda option, next_to: (
                not next_to.parts or all(width_of(card) <= room for card in _cards(frame, option))
            ),
        )


SUBSYSTEM = Subsystem("slots", _choices, _laws)
