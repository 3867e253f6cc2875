"""What makes a build legal, said once more in the simplest way and straight from the book.

Each function here is a law over parts in places. It is slow and looks at one complete build;
nothing of it is shared with the laws that it judges but the facts of the book.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Any

from baywright.facts.fact import Fact
from baywright.facts.parts import Cage, Card, Controller, Drive, MemoryModule, Part, Processor
from baywright.facts.places import Bank, Fans, Mount, Position, Slot, Socket, Supplies, Zone
from baywright.facts.sections import InletLimit, Link
from tests.laws.plain import Subject

Law = Callable[[Subject], bool]


def _unless_no(fact: Fact[bool] | None) -> bool:
    return fact is None or fact.known


def _yes(fact: Fact[bool] | None) -> bool:
    return fact is not None and fact.known


def processors(s: Subject) -> bool:
    """An allowed number, sockets filled in order, all of one model unless the book says no."""
    fitted = [s.built.only(place) for place in s.book.places_of(Socket)]
    models = [model for model in fitted if model is not None]
    in_order = fitted[: len(models)] == models
    allowed = len(models) in [count.known for count in s.book.processors.counts]
    identical = not _unless_no(s.book.processors.identical) or len(set(models)) <= 1
    return in_order and allowed and identical


def memory_banks(s: Subject) -> bool:
    """Memory exactly where there is a processor, in allowed numbers, within the ranks."""
    for place, bank in s.book.places_of(Bank).items():
        count = s.built.count(place)
        beside = [n for n, b in s.book.places_of(Bank).items() if b.owner == bank.owner]
        some = any(s.built.count(other) for other in beside)
        if (some or count) and not s.built.count(bank.owner):
            return False
        if not some and s.built.count(bank.owner):
            return False
        if count and count not in [allowed.known for allowed in bank.counts]:
            return False
        section = s.book.memory
        if section is not None and section.ranks_per_channel is not None:
            for module in _modules(s, place):
                deep = math.ceil(count / bank.channels.known)
                ranks = module.ranks.known if module.ranks is not None else 0
                if deep * ranks > section.ranks_per_channel.known:
                    return False
    return True


def _modules(s: Subject, *places: str) -> list[MemoryModule]:
    return [part for _, part, _ in s.fitted(*places) if isinstance(part, MemoryModule)]


def memory_together(s: Subject) -> bool:
    """What all modules of the machine have to share."""
    banks = s.book.places_of(Bank)
    modules = _modules(s, *banks) if banks else []
    if len({m.type for m in modules}) > 1 or len({m.generation for m in modules}) > 1:
        return False
    section = s.book.memory
    if section is None:
        return True
    sizes = {module.size.known for module in modules}
    alike = not _yes(section.same_everywhere) or all(map(_same, _by_position(s)))
    return alike and (not _yes(section.one_size) or len(sizes) <= 1)


def _by_position(s: Subject) -> list[list[Counter[str]]]:
    """What fitted processors have in their first bank, in their second, and so on."""
    owners: dict[str, list[Counter[str]]] = {}
    for place, bank in s.book.places_of(Bank).items():
        owners.setdefault(bank.owner, []).append(s.built.parts[place])
    fitted = [banks for owner, banks in owners.items() if s.built.count(owner)]
    deepest = max((len(banks) for banks in fitted), default=0)
    return [[banks[i] for banks in fitted if i < len(banks)] for i in range(deepest)]


def _same(counts: list[Counter[str]]) -> bool:
    return all(each == counts[0] for each in counts)


def taken(s: Subject) -> bool:
    """A place holds what it takes, and always what it always holds."""
    for name, place in s.book.places.items():
        if isinstance(place, Zone | Slot | Position):
            held = {
                n: part
                for n in s.built.parts[name]
                if not _in_bay(s, name, part := s.book.parts[n])
            }
            if not all({n, part.kind} & set(place.takes) for n, part in held.items()):
                return False
            if place.always is not None and held.keys() != {place.always}:
                return False
    return all(s.built.count(name) == most for name, most in _full_rows(s))


def _full_rows(s: Subject) -> Iterator[tuple[str, int]]:
    """Rows of slots that always hold a card: each slot of them does."""
    for name, slot in s.book.places_of(Slot).items():
        if slot.always is not None and slot.positions is not None:
            yield name, slot.positions.known


def _in_bay(s: Subject, place: str, part: Part) -> bool:
    return isinstance(part, Drive) and isinstance(s.book.places[place], Zone)


def _cage(s: Subject, zone: str) -> Cage | None:
    parts = (s.book.parts[name] for name in s.built.parts[zone])
    return next((part for part in parts if isinstance(part, Cage)), None)


def _drives(s: Subject, zone: str) -> list[tuple[Drive, int]]:
    parts = ((s.book.parts[name], n) for name, n in s.built.parts[zone].items())
    return [(part, n) for part, n in parts if isinstance(part, Drive)]


def bays(s: Subject) -> bool:
    """Drives sit in a cage that has bays for them, of one kind unless it may be mixed."""
    for zone in s.book.places_of(Zone):
        cage, drives = _cage(s, zone), _drives(s, zone)
        number = sum(n for _, n in drives)
        if cage is None:
            if number:
                return False
            continue
        fit = all(drive.interface in cage.holds for drive, _ in drives)
        alike = len(drives) <= 1 or _yes(cage.mixed)
        full = number == cage.bays.known or not _yes(cage.filled)
        if not (fit and alike and full and number <= cage.bays.known):
            return False
    return True


def cables(s: Subject) -> bool:
    """Each cage that needs a controller is cabled to one that its cables reach and that fits it."""
    for zone, slot in s.built.cables.items():
        cage, place = _cage(s, zone), s.book.places[zone]
        needs = cage is not None and cage.connectors is not None
        if needs != (slot is not None):
            return False
        if cage is not None and slot is not None:
            assert isinstance(place, Zone)
            controller = s.book.parts.get(s.built.only(slot) or "")
            if slot not in place.controllers or not isinstance(controller, Controller):
                return False
            if not set(cage.holds) & set(controller.holds):
                return False
            if any(drive.interface not in controller.holds for drive, _ in _drives(s, zone)):
                return False
    return True


def controllers(s: Subject) -> bool:
    """A controller has connectors for its cages and drives no more drives than its limit."""
    for slot in s.book.places_of(Slot):
        controller = s.book.parts.get(s.built.only(slot) or "")
        zones = [zone for zone, cabled in s.built.cables.items() if cabled == slot]
        if not isinstance(controller, Controller):
            continue
        cages = [cage for zone in zones if (cage := _cage(s, zone)) is not None]
        asked = sum(cage.connectors.known for cage in cages if cage.connectors is not None)
        drives = sum(n for zone in zones for _, n in _drives(s, zone))
        if controller.connectors is not None and asked > controller.connectors.known:
            return False
        if controller.drives_most is not None and drives > controller.drives_most.known:
            return False
    return True


def slots(s: Subject) -> bool:
    """Cards are no larger and no hungrier than their slot, and their processor is there."""
    for name, slot in s.book.places_of(Slot).items():
        cards = [part for n in s.built.parts[name] if isinstance(part := s.book.parts[n], Card)]
        if cards and slot.owner is not None and not s.built.count(slot.owner):
            return False
        if not all(_fits(card, slot) for card in cards):
            return False
        room = slot.slots.known if slot.slots is not None else 1
        wide = any(_width(card) > room for card in cards)
        if wide and slot.neighbour is not None and s.built.count(slot.neighbour):
            return False
    return True


def _width(card: Card) -> int:
    return card.slots.known if card.slots is not None else 1


def _fits(card: Card, slot: Slot) -> bool:
    room = slot.slots.known if slot.slots is not None else 1
    power = card.slot_power if card.slot_power is not None else card.power
    return (
        _within(card.length, slot.length)
        and _within(card.height, slot.height)
        and _within(card.lanes, slot.lanes)
        and _within(power, slot.power)
        and _width(card) <= room + (slot.neighbour is not None)
    )


def _within(asked: Fact[Any] | None, given: Fact[Any] | None) -> bool:
    return asked is None or given is None or bool(asked.known <= given.known)


def _lanes(part: Part) -> int:
    if isinstance(part, Cage):
        return part.bays.known * (part.lanes_per_bay.known if part.lanes_per_bay is not None else 0)
    return part.lanes.known if isinstance(part, Card) and part.lanes is not None else 0


def _used(s: Subject, link: Link) -> int:
    return sum(n * _lanes(part) for _, part, n in s.fitted(*link.feeds)) if link.feeds else 0


def lanes(s: Subject) -> bool:
    """Links and processors have the lanes that are used; cages with lanes need their processor."""
    for name, zone in s.book.places_of(Zone).items():
        used = sum(_lanes(s.book.parts[part]) for part in s.built.parts[name])
        if used and zone.owner is not None and not s.built.count(zone.owner):
            return False
    for link in s.book.links.values():
        if not _yes(link.switched) and _used(s, link) > link.lanes.known:
            return False
    for owner in {link.owner for link in s.book.links.values()}:
        processor = s.book.parts.get(s.built.only(owner) or "")
        if isinstance(processor, Processor) and processor.lanes is not None:
            links = [link for link in s.book.links.values() if link.owner == owner]
            used = sum(
                link.lanes.known if _yes(link.switched) else _used(s, link) for link in links
            )
            if used > processor.lanes.known:
                return False
    return True


def packs(s: Subject) -> bool:
    """Every pack has a controller with a write cache of its own among the slots it serves."""
    fitted = {n: m for n, m in s.book.places_of(Mount).items() if s.built.count(n)}
    served = {slot for mount in fitted.values() for slot in mount.serves}
    cached = [
        slot
        for slot in sorted(served)
        for _, part, n in s.fitted(slot)
        if isinstance(part, Controller) and part.flush is not None
        for _ in range(n)
    ]
    return any(
        all(slot in mount.serves for slot, mount in zip(row, fitted.values(), strict=True))
        for row in itertools.permutations(cached, len(fitted))
    )


def supplies(s: Subject) -> bool:
    """An allowed number of supplies that run on the line and carry the load."""
    for name, place in s.book.places_of(Supplies).items():
        counts = s.built.parts[name]
        if counts.total() not in [rule.count.known for rule in place.fitted]:
            return False
        if _unless_no(place.identical) and len(counts) > 1:
            return False
        ratings = [getattr(s.book.parts[part], "ratings", {}) for part in counts]
        if any(s.built.line not in rating for rating in ratings):
            return False
        if s.load > s.carried(name, redundant=False):
            return False
    return True


def fans(s: Subject) -> bool:
    """The first number of fans whose condition holds is fitted, and they carry the load."""
    for name, place in s.book.places_of(Fans).items():
        applies = [entry.count.known for entry in place.fitted if s.says(entry.when)]
        if not applies or s.built.count(name) != applies[0]:
            return False
    return s.load <= sum(s.heat)


def inlet(s: Subject) -> bool:
    """The site is not too high, and its air not too warm for the first limit that applies."""
    conditions, air = s.given.conditions, s.book.air
    height, falls = conditions.altitude.to("m"), air.derating
    if falls.up_to is not None and height > falls.up_to.known.to("m"):
        return False
    limit = next(_limits(s, air.inlet_limits), None)
    if conditions.inlet is None or limit is None:
        return True
    over = max(Fraction(0), height - falls.above.known.to("m"))
    fall = over / falls.per.known.to("m") * falls.by.known.canonical
    return conditions.inlet.to("°C") <= limit - fall


def _limits(s: Subject, limits: list[InletLimit]) -> Iterator[Fraction]:
    return (entry.limit.known.to("°C") for entry in limits if s.says(entry.when))


def parts(s: Subject) -> bool:
    """No part more often than the book allows, and none that cannot be ordered on the day."""
    ships = s.book.book.ships
    day = max(s.given.conditions.as_of, ships.known) if ships else s.given.conditions.as_of
    for name, part in s.book.parts.items():
        number = s.number(name)
        if part.at_most is not None and number > part.at_most.known:
            return False
        if number and part.ships is not None and day < part.ships.known:
            return False
        if number and part.last_order is not None and day > part.last_order.known:
            return False
    return True


def rules(s: Subject) -> bool:
    """Every rule of the book holds."""
    return all(s.says(rule.holds) for rule in s.book.rules.values())


LAWS: tuple[Law, ...] = (
    processors,
    memory_banks,
    memory_together,
    taken,
    bays,
    cables,
    controllers,
    slots,
    lanes,
    packs,
    parts,
    rules,
    supplies,
    fans,
    inlet,
)


def legal(subject: Subject) -> bool:
    """Whether a build keeps every law."""
    return all(law(subject) for law in LAWS)


def broken_laws(subject: Subject) -> list[str]:
    """The names of the laws a build breaks."""
    return [law.__name__ for law in LAWS if not law(subject)]
