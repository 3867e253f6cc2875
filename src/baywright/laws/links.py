"""Lanes: what the places on a link use, and who has to be there to give them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.facts.parts import Cage, Card, Part, Processor
from baywright.facts.places import Zone
from baywright.facts.sections import Link
from baywright.laws.frame import Frame, Option
from baywright.laws.linear import Linear, added
from baywright.laws.subsystem import Subsystem
from baywright.laws.wording import counted, listed
from baywright.space import Law


def lanes_of(part: Part) -> int:
    """Return the processor lanes a part uses."""
    if isinstance(part, Cage):
        return part.bays.known * (part.lanes_per_bay.known if part.lanes_per_bay else 0)
    if isinstance(part, Card):
        return part.lanes.known if part.lanes else 0
    return 0


def _laws(frame: Frame) -> Iterable[Law]:
    for name, zone in frame.book.places_of(Zone).items():
        yield from _zone_owner(frame, name, zone)
    used = {name: _used(frame, link) for name, link in frame.book.links.items()}
    for name, link in frame.book.links.items():
        if link.switched is None or not link.switched.known:
            sentence = f"{listed(link.feeds)} share {counted(link.lanes.known, 'lane')}."
            origin = frame.law(f"lanes.shared/{name}", sentence, link.lanes)
            yield from frame.at_most(origin, used[name], link.lanes.known)
    for owner in dict.fromkeys(link.owner for link in frame.book.links.values()):
        yield from _processor_lanes(frame, owner, used)


def _used(frame: Frame, link: Link) -> Linear:
    return frame.linear(lambda name, part: lanes_of(part), places=link.feeds)


def _zone_owner(frame: Frame, name: str, zone: Zone) -> Iterator[Law]:
    if zone.owner is None:
        return
    owner = frame.book.places[zone.owner].name

    def served(processor: Option, filling: Option) -> bool:
        lanes = sum(lanes_of(frame.book.parts[part]) for part, _ in filling.parts)
        return bool(processor.parts) or not lanes

    sentence = f"A cage with lanes in {zone.name} works only with {owner}."
    origin = frame.law(f"lanes.owner/{name}", sentence, zone.owner)
    yield from frame.table(origin, (zone.owner, name), served)


def _processor_lanes(frame: Frame, owner: str, used: dict[str, Linear]) -> Iterator[Law]:
    """What all links of a processor use is at most what it has; a switch uses its whole link."""
    links = {name: link for name, link in frame.book.links.items() if link.owner == owner}
    switched = sum(
        link.lanes.known
        for link in links.values()
        if link.switched is not None and link.switched.known
    )
    asked = added(
        used[name]
        for name, link in links.items()
        if link.switched is None or not link.switched.known
    )
    processors = frame.book.parts_of("processor")
    most = int(asked.highest) + switched
    given = frame.by_option(owner, lambda option: _given_by(frame, option, most))
    place = frame.book.places[owner].name
    facts = [part.lanes for part in processors.values() if isinstance(part, Processor)]
    origin = frame.law(f"lanes.total/{owner}", f"{place} has no more lanes than it offers.", *facts)
    yield from frame.at_most(origin, asked.minus(given), -switched)


def _given_by(frame: Frame, option: Option, most: int) -> int:
    """Return the lanes of a processor; one that states none, or an empty socket, limits nothing."""
    part = frame.book.parts.get(option.part or "")
    if isinstance(part, Processor) and part.lanes is not None:
        return part.lanes.known
    return most


SUBSYSTEM = Subsystem("lanes", laws=_laws)
