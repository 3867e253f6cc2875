"""What a book tells of the machine as a whole, of its air and of its slots."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.facts.book import Book
from baywright.facts.places import Bank, Mount, Slot, Supplies
from baywright.language.told.telling import Told, few, with_article
from baywright.laws.wording import capitalised, listed


def of_machine(book: Book) -> Iterator[Told]:
    """Yield sentences about what the machine is and how it stands."""
    about, chassis = book.book, book.chassis
    article = "an" if about.purpose.text[:2] == "un" or about.purpose.text[0] in "aeio" else "a"
    says = f"It is {article} {about.purpose.text}."
    yield Told("machine", says, book.cite(about.purpose))
    if chassis.rails_from is not None and chassis.rails_to is not None:
        says = f"Its rails reach from {chassis.rails_from.text} to {chassis.rails_to.text}."
        yield Told("machine", says, book.cite(chassis.rails_from, chassis.rails_to))
    ways = list(chassis.orientations.values())
    if len(ways) > 1:
        says = f"It can stand {listed((str(way.name) for way in ways), 'or')}."
        yield Told("stance", says, book.cite(*(way.name for way in ways)))
    if chassis.side_by_side is not None and chassis.tray_height is not None:
        number = capitalised(few(chassis.side_by_side.known))
        says = f"{number} stand side by side in a tray of {chassis.tray_height.text}."
        yield Told("stance", says, book.cite(chassis.side_by_side, chassis.tray_height))


def of_air(book: Book) -> Iterator[Told]:
    """Yield sentences about the air and its limits."""
    air = book.air
    if air.cover_off is not None:
        says = f"While it runs, the cover may be off for at most {air.cover_off.text}."
        yield Told("cover", says, book.cite(air.cover_off))
    fall = air.derating
    says = (
        f"The highest inlet temperature falls by {fall.by.text} for each {fall.per.text} above "
        f"{fall.above.text}."
    )
    yield Told("air", says, book.cite(fall.by, fall.per, fall.above))
    limits = [each.limit for each in air.inlet_limits]
    says = f"It takes in air of up to {limits[0].text}."
    if len(limits) == 1:
        yield Told("air", says, book.cite(*limits))
    elif all(each.value is not None for each in limits):
        low, high = (pick(limits, key=lambda each: each.known) for pick in (min, max))
        says = (
            "The warmest air it may take in depends on what is fitted: from "
            f"{low.text} to {high.text}."
        )
        yield Told("air", says, book.cite(*limits))
    if air.noise_idle is not None and air.noise_full is not None:
        says = f"It makes {air.noise_idle.text} at idle and {air.noise_full.text} at full speed."
        yield Told("air", says, book.cite(air.noise_idle, air.noise_full))


def of_places(book: Book) -> Iterator[Told]:
    """Yield sentences about places that laws of their own follow from."""
    for slot in book.places_of(Slot).values():
        other = book.places.get(slot.neighbour or "")
        if other is not None:
            says = f"A double-wide card in {slot.name} also takes {other.name}."
            yield Told("slots", says, book.cite(slot.neighbour))
    yield from _slot_power(book)
    for bank in list(book.places_of(Bank).values())[:1]:
        counts = [count.text for count in bank.counts]
        says = f"For each processor, {listed(counts, 'or')} modules are allowed."
        if len(counts) == 1:
            says = f"Each processor takes exactly {counts[0]} modules."
        yield Told("memory", says, book.cite(*bank.counts))
    for mount in book.places_of(Mount).values():
        slots = listed((str(book.places[name].name) for name in mount.serves), "or")
        says = f"The {mount.name} serves a controller in {slots}."
        yield Told("packs", says, book.cite(*mount.serves))
    for bays in book.places_of(Supplies).values():
        if bays.feeds:
            each = [f"{few(n.known)} to feed {feed}" for feed, n in bays.feeds.items()]
            says = f"{capitalised(listed(each))}: so the supplies are cabled."
            yield Told("supplies", says, book.cite(*bays.feeds.values()))
    closed = [place for place in book.places.values() if place.blank]
    if closed:
        names = listed(with_article(str(place.name)) for place in closed)
        says = f"{names} {'is' if len(closed) == 1 else 'are'} closed with a blank while empty."
        yield Told("blanks", capitalised(says), book.cite(*(place.blank for place in closed)))


def _slot_power(book: Book) -> Iterator[Told]:
    cards = [slot for slot in book.places_of(Slot).values() if slot.power is not None]
    powers = {slot.power.text for slot in cards if slot.power is not None}
    if len(powers) == 1:
        says = f"A card may draw up to {powers.pop()} from its slot."
        yield Told("slots", says, book.cite(*(slot.power for slot in cards)))
