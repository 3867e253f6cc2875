"""Front zones and bays: which drives go where, how many, and what they ask for."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from baywright.desk.walk.lines import Candidate, Subject
from baywright.facts.parts import Drive
from baywright.facts.places import Slot, Zone
from baywright.language.told.telling import few
from baywright.laws.wording import capitalised, listed

STATION = "zones"


def drives(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of drives."""
    book = subject.book
    zones = book.places_of(Zone)
    if len(zones) > 1:
        number = few(len(zones))
        says = (f"There are {number} front zones.", f"There are {number} zones.")
        yield Candidate(STATION, "counts", says)
    kinds = interfaces(subject)
    for zone in zones:
        yield from _in_zone(subject, zone, kinds)
    for kind in kinds:
        yield from _totals(subject, kind)
    yield from _mixed(subject, kinds)
    raw = subject.most_text("raw_capacity")
    yield Candidate(STATION, "capacity", (f"Raw capacity is {raw} at most.",))
    for kind, noun in kinds.items():
        sizes = [each.capacity.text for each in _drives(subject) if each.interface == kind]
        units = {size.rpartition(" ")[2] for size in sizes}
        if len(units) == 1 and len(sizes) > 1:
            numbers = listed(size.rpartition(" ")[0] for size in sizes)
            yield Candidate(STATION, "sizes", (f"{numbers} {units.pop()} {noun} fit.",))


def _drives(subject: Subject) -> list[Drive]:
    return [part for part in subject.book.parts.values() if isinstance(part, Drive)]


def interfaces(subject: Subject) -> dict[str, str]:
    """Return the words for the drives of each interface that the usual variant can have."""
    found = dict.fromkeys(str(part.interface) for part in _drives(subject))
    return {
        each: noun_of(each)
        for each in found
        if subject.usual(f'count(drive, interface="{each}") >= 1')
    }


@cache
def noun_of(interface: str) -> str:
    """Return what the drives of an interface are called."""
    return (
        f"{interface.upper() if len(interface) <= 4 and interface != 'fast' else interface} drives"
    )


def _in_zone(subject: Subject, zone: str, kinds: dict[str, str]) -> Iterator[Candidate]:
    book, name = subject.book, str(subject.book.places[zone].name)
    held, after = [], list[Candidate]()
    for kind, noun in kinds.items():
        most = subject.most(f'count(drive, interface="{kind}", at={zone})')
        if most:
            held.append(f"{few(most)} {noun}")
            after += _in_zone_only_if(subject, zone, kind)
    displays = [part.name for part in book.taken(list(book.places_of(Zone)[zone].takes)).values()
                if part.kind == "display"]  # fmt: skip
    held += [f"the {each}" for each in displays]
    if held:
        verb = "take" if name.endswith("s") else "takes"
        says = f"{capitalised(name)} {verb} {listed(held, 'or')}."
        yield Candidate(STATION, "zones", (says,), STATION)
    yield from after


def _in_zone_only_if(subject: Subject, zone: str, kind: str) -> Iterator[Candidate]:
    """Yield what drives of an interface in a zone ask for and rule out."""
    name, noun = str(subject.book.places[zone].name), capitalised(noun_of(kind))
    there = f'count(drive, interface="{kind}", at={zone}) >= 1'
    if not subject.possible(there, "processors == 1"):
        says = f"{noun} in {name} need processor 2."
        yield Candidate(STATION, "conditions", (says,), STATION)
    for slot, place in subject.book.places_of(Slot).items():
        if not subject.possible(there, f"{slot} != empty"):
            says = f"{noun} in {name} exclude {place.name}."
            yield Candidate(STATION, "exclusions", (says,), STATION)


def _totals(subject: Subject, kind: str) -> Iterator[Candidate]:
    noun, count = noun_of(kind), f'count(drive, interface="{kind}")'
    machine = subject.book.book.name
    most = subject.most(count)
    yield Candidate(
        STATION,
        "totals",
        (f"The {machine} takes up to {few(most)} {noun}.",
         f"The {machine} takes up to {few(most)} drives."),
        noun,
    )  # fmt: skip
    alone = subject.most(count, "processors == 1")
    if 0 < alone < most:
        says = f"With one processor there is room for up to {few(alone)} {noun}."
        yield Candidate(STATION, "conditions", (says,), noun)
    if most:
        needed = subject.least("count(controller)", f"{count} == {most}")
        says = f"All {few(most)} {noun} need {few(needed)} controllers."
        yield Candidate(STATION, "controllers", (says,) if needed > 1 else ())
        driven = subject.most(count, "count(controller) == 1")
        says = f"One controller drives up to {few(driven)} {noun}."
        yield Candidate(STATION, "controllers", (says,) if driven and needed else ())
    for slot, place in subject.book.places_of(Slot).items():
        there = subject.most(count, f"{slot} != empty") if "network" in place.takes else most
        if 0 < there < most:
            says = f"With {place.name} fitted, up to {few(there)} {noun} fit."
            yield Candidate(STATION, "exclusions", (says,), noun)


def _mixed(subject: Subject, kinds: dict[str, str]) -> Iterator[Candidate]:
    """Yield the fullest mixes of two kinds of drive."""
    names = list(kinds)
    for first in names:
        for second in names:
            if first == second:
                continue
            one, two = (f'count(drive, interface="{each}")' for each in (first, second))
            both = subject.most(f"{one} + {two}", f"{one} >= 1", f"{two} >= 1")
            lead = subject.most(one, f"{one} + {two} == {both}") if both else 0
            if lead > both - lead > 0:
                says = (
                    f"{few(lead).capitalize()} {kinds[first]} and {few(both - lead)} "
                    f"{kinds[second]} can be mixed."
                )
                yield Candidate(STATION, "mixes", (says,))
