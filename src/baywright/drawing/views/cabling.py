"""Cabling: from zones to what drives them, and from controllers to their energy packs."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.drawing import naming, outlines
from baywright.drawing.contents import State
from baywright.drawing.scene import Scene
from baywright.drawing.schematic import by_neighbours, column, fanned, height_for, place_box
from baywright.drawing.subject import Subject
from baywright.facts.parts import Cage, Controller
from baywright.facts.places import Mount, Slot, Zone

WIDTH, GAP = 110.0, 90.0

Line = tuple[str, str, str, str, str]


def scene(subject: Subject) -> Scene:
    """Return zones at the left, what drives them in the middle, energy packs at the right."""
    zones = list(subject.book.places_of(Zone))
    lines = [*_cables(subject), *_lanes(subject)]
    pairs = [(start, end) for _, start, end, _, _ in lines]
    drivers = by_neighbours(_drivers(subject, pairs), zones, pairs)
    packs = list(_packs(subject, drivers))
    mounts = by_neighbours(
        list(dict.fromkeys(mount for _, _, mount, _, _ in packs)),
        drivers,
        [(start, end) for _, start, end, _, _ in packs],
    )
    height = height_for(zones, drivers, mounts)
    columns = [names for names in (zones, drivers, mounts) if names]
    boxes = {
        name: rect
        for i, names in enumerate(columns)
        for name, rect in column(names, i * (WIDTH + GAP), WIDTH, height).items()
    }
    return Scene(
        "cabling",
        "Cabling",
        (max(1, len(columns)) * (WIDTH + GAP) - GAP, height),
        groups=tuple(
            place_box(subject, name, rect, _beside(lines, name)) for name, rect in boxes.items()
        ),
        strokes=tuple(fanned([*lines, *packs], boxes)),
        remarks=(*_unjoined(subject), *outlines.left_over(subject)),
        to_scale=False,
    )


def _drivers(subject: Subject, pairs: list[tuple[str, str]]) -> list[str]:
    """Return the slots with a controller, and whatever else a zone is led to."""
    slots = [
        name
        for name, content in subject.contents.items()
        if name in subject.book.places_of(Slot)
        and any(isinstance(subject.book.parts.get(i.part), Controller) for i in content.items)
    ]
    return list(dict.fromkeys([*slots, *(end for _, end in pairs if end in subject.book.places)]))


def _cage(subject: Subject, zone: str) -> Cage | None:
    parts = (subject.book.parts.get(i.part) for i in subject.contents[zone].items)
    return next((part for part in parts if isinstance(part, Cage)), None)


def _cables(subject: Subject) -> Iterator[Line]:
    for zone, content in subject.contents.items():
        cage = _cage(subject, zone) if zone in subject.book.places_of(Zone) else None
        if cage is None or not content.controller:
            continue
        number = cage.connectors.text if cage.connectors is not None else "1"
        to = content.controller
        words = f"{naming.place_name(subject.book, zone)} to {to}, connectors: {number}"
        yield f"cable.{zone}", zone, to, "cable", words


def _lanes(subject: Subject) -> Iterator[Line]:
    """Yield the lanes that reach a cage of fast drives straight from a processor."""
    for zone, place in subject.book.places_of(Zone).items():
        cage = _cage(subject, zone)
        if cage is None or cage.lanes_per_bay is None or place.owner is None:
            continue
        lanes = (cage.lanes_per_bay.value or 0) * (cage.bays.value or 0)
        words = f"{place.name} to {place.owner}, lanes: {lanes}"
        yield f"lanes.{zone}", zone, str(place.owner), "lanes", words


def _packs(subject: Subject, drivers: list[str]) -> Iterator[Line]:
    """Yield the leads of packs: from a controller to each mount with a pack that may serve it."""
    for name, mount in subject.book.places_of(Mount).items():
        if subject.contents[name].state is not State.FITTED:
            continue
        for slot in mount.serves:
            if str(slot) in drivers:
                words = f"{mount.name} to {slot}"
                yield f"pack.{name}.{slot}", str(slot), name, "fine", words


def _beside(lines: list[Line], name: str) -> str:
    """Return the connectors or lanes that leave a box, for the key."""
    return "; ".join(words.rpartition(", ")[2] for _, start, _, _, words in lines if start == name)


def _unjoined(subject: Subject) -> Iterator[str]:
    """Yield a sentence for each zone with a cage that no line leaves."""
    for zone, place in subject.book.places_of(Zone).items():
        cage = _cage(subject, zone)
        if cage is None or subject.contents[zone].controller:
            continue
        if cage.connectors is not None:
            yield f"{place.name}: on which controller its cage hangs is not stated."
        elif cage.board_lanes is not None:
            lanes = cage.board_lanes.text
            yield f"{place.name}: its cage is on the on-board connector, lanes: {lanes}."
        elif cage.lanes_per_bay is None or place.owner is None:
            yield f"{place.name}: the book states neither a controller nor lanes for its cage."
