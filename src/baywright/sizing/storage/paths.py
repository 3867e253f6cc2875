"""Paths: what lanes, connectors, uplinks and controllers leave of the rate of the drives."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import partial

import numpy as np

from baywright.facts.parts import Cage, Card, Controller, Drive, Processor
from baywright.facts.places import Slot, Zone
from baywright.laws.controllers import cable_of
from baywright.laws.frame import Option
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Input, Limit
from baywright.sizing.storage.groups import Group, drives_held, of_distinct, worst
from baywright.sizing.storage.links import drive_lane_rate, lane_rate, oversubscription
from baywright.sizing.storage.stated import fitted, generation, lacking, number, quoted, rate

_READING = "all drives reading at their sustained rate"


def of_paths(case: Case, groups: list[Group]) -> Iterator[Limit]:
    """Yield what lies behind each sort of link, against the link."""
    yield _of_bays(case)
    if any(group.slot for group in groups):
        yield _of_connectors(case)
        yield _of_uplinks(case, groups)
        yield _of_controllers(case, groups)


def _limit(figure: Figure, breaks: str) -> Limit:
    return Limit(figure, 1.0, "most", breaks, legal=False)


def _ratio(
    case: Case, key: str, name: str, values: Reals, missing: tuple[str, ...], *more: Input
) -> Figure:
    drives = fitted(case, Drive)
    missing = lacking(drives, case, "read_rate") + missing
    inputs = (*quoted(drives, case, "read_rate", "rate of a drive"), *more)
    return Figure(f"storage.{key}", name, values, "", _READING, oversubscription, inputs, missing)


def _of_bays(case: Case) -> Limit:
    cages = fitted(case, Cage)
    missing: tuple[str, ...] = ()
    for name, cage in cages.items():
        missing += _unknown_bay(case, name, cage)
    figure = _ratio(
        case,
        "bay",
        "rate of a drive over that of its lanes, the worst bay",
        worst((_bay(case, zone, place) for zone, place in _zones(case)), case.size),
        missing,
        *quoted(cages, case, "lanes_per_bay", "lanes of a bay"),
        *quoted(cages, case, "link_rate", "signalling rate of a lane"),
    )
    return _limit(figure, "A drive in such a bay reads no faster than its lanes carry.")


def _zones(case: Case) -> Iterator[tuple[str, Zone]]:
    yield from case.book.places_of(Zone).items()


def _unknown_bay(case: Case, name: str, cage: Cage) -> tuple[str, ...]:
    if cage.lanes_per_bay is None:
        return lacking([name], case, "link_rate")
    drives = [key for key, drive in fitted(case, Drive).items() if drive.interface in cage.holds]
    return lacking(drives, case, "generation") + lacking(
        fitted(case, Processor), case, "lane_generation"
    )


def _in_zone(case: Case, zone: str) -> Iterator[tuple[str, Drive, Reals]]:
    """Yield each drive that a zone can hold, and how many of it each build has there."""
    for choice in case.frame.at(zone):
        for name, count in drives_held(case, choice):
            part = case.book.parts[name]
            if isinstance(part, Drive):
                yield name, part, count


def _bay(case: Case, zone: str, place: Zone) -> Reals:
    """Return the rate of the fastest drive of a zone over what the lanes of its bay carry."""
    owner = place.owner or ""

    def ratio(drive: Drive, of: Mapping[str, Option]) -> float:
        cage, processor = _part(case, of[zone]), _part(case, of.get(owner))
        carried = _bay_rate(cage, drive, processor)
        return float(oversubscription(rate(drive.read_rate, "B/s"), carried))

    ratios = (
        np.where(count > 0, of_distinct(case, [zone, owner], partial(ratio, drive)), 0.0)
        for _, drive, count in _in_zone(case, zone)
    )
    return worst(ratios, case.size)


def slowed_by_bays(case: Case, group: Group) -> float:
    """Return how many times faster than its slowest bay a drive of a group is, in one build."""
    held = {
        zone: place
        for zone, place in _zones(case)
        for name, _, count in _in_zone(case, zone)
        if name == group.name and count[0]
    }
    return float(worst((_bay(case, zone, place) for zone, place in held.items()), 1)[0])


def _part(case: Case, option: Option | None) -> object:
    return case.book.parts.get(option.part or "") if option else None


def _bay_rate(cage: object, drive: Drive, processor: object) -> float:
    if not isinstance(cage, Cage):
        return math.nan
    if cage.lanes_per_bay is None:
        return _signalled(cage)
    theirs = processor.lane_generation if isinstance(processor, Processor) else None
    slower = np.minimum(generation(drive.generation), generation(theirs))
    return lane_rate(float(slower), number(cage.lanes_per_bay))


def _signalled(cage: object) -> float:
    fact = cage.link_rate if isinstance(cage, Cage) else None
    return drive_lane_rate(number(fact, "b/s"))


def _of_connectors(case: Case) -> Limit:
    cages, controllers = fitted(case, Cage), fitted(case, Controller)
    wired = [name for name, cage in cages.items() if cage.lanes_per_bay is None]
    driving = [name for name, card in controllers.items() if card.holds]
    figure = _ratio(
        case,
        "connector",
        "rate of the drives of a cage over that of its connectors, the worst cage",
        worst((_connector(case, zone) for zone, _ in _zones(case)), case.size),
        lacking(wired, case, "link_rate") + lacking(driving, case, "connector_lanes"),
        *quoted(driving, case, "connector_lanes", "drive lanes of a connector"),
        *quoted(wired, case, "link_rate", "signalling rate of a lane"),
    )
    return _limit(figure, "Drives of that cage wait for its connectors when all are read at once.")


def _connector(case: Case, zone: str) -> Reals:
    """Return the rate of the drives of a zone over that of the lanes to its cage."""
    total = np.zeros(case.size)
    for _, drive, count in _in_zone(case, zone):
        total += _read(drive, count)
    wired = case.looked_up(zone, lambda option: float(_is_wired(_part(case, option)))) > 0
    lane = case.looked_up(zone, lambda option: _signalled(_part(case, option)))
    return np.asarray(oversubscription(np.where(wired, total, 0.0), lane * _lanes_to(case, zone)))


def _is_wired(part: object) -> bool:
    return isinstance(part, Cage) and part.lanes_per_bay is None


def _lanes_to(case: Case, zone: str) -> Reals:
    """Return the drive lanes between the cage of a zone and what drives it, in each build."""
    connectors = case.looked_up(zone, lambda option: _of(_part(case, option), Cage, "connectors"))
    lanes = case.looked_up(zone, lambda option: _of(_part(case, option), Cage, "board_lanes"))
    cable = cable_of(zone)
    for code, option in enumerate(case.frame.options(cable) if cable in case.codes else ()):
        if isinstance(option.value, str):
            card = case.looked_up(
                option.value, lambda o: _of(_part(case, o), Controller, "connector_lanes")
            )
            lanes = np.where(case.codes[cable] == code, connectors * card, lanes)
    return lanes


def _of(part: object, model: type[Cage | Controller], field: str) -> float:
    return number(getattr(part, field)) if isinstance(part, model) else math.nan


def _read(drive: Drive, count: Reals) -> Reals:
    """Return what drives read together [B/s]; nothing where there are none."""
    return np.where(count > 0, count * rate(drive.read_rate, "B/s"), 0.0)


def behind(case: Case, groups: list[Group]) -> dict[str, Reals]:
    """Return what the drives behind the controller of each slot read together [B/s]."""
    found: dict[str, Reals] = {}
    for group in groups:
        if group.slot is not None:
            so_far = found.get(group.slot, np.zeros(case.size))
            found[group.slot] = so_far + _read(group.drive, group.counts)
    return found


def uplink(case: Case, slot: str) -> Reals:
    """Return what the lanes of the card in a slot carry, in each build [B/s]."""
    place = case.book.places[slot]
    if not isinstance(place, Slot):
        return np.full(case.size, math.nan)

    def carried(option: Option) -> float:
        card = _part(case, option)
        if not isinstance(card, Card):
            return math.nan
        lanes = np.fmin(number(card.lanes), number(place.lanes))
        slower = np.minimum(generation(card.generation), generation(place.generation))
        return lane_rate(float(slower), float(lanes))

    return case.looked_up(slot, carried)


def _of_uplinks(case: Case, groups: list[Group]) -> Limit:
    cards = [name for name, card in fitted(case, Controller).items() if card.holds]
    rates = behind(case, groups)
    slots = {slot: place for slot, place in case.book.places_of(Slot).items() if slot in rates}
    places = tuple(f"places.{n}.generation" for n, slot in slots.items() if not slot.generation)
    figure = _ratio(
        case,
        "uplink",
        "rate of the drives of a controller over that of its slot, the worst controller",
        worst(
            (np.asarray(oversubscription(r, uplink(case, s))) for s, r in rates.items()), case.size
        ),
        lacking(cards, case, "lanes", "generation") + places,
        *quoted(cards, case, "lanes", "lanes of the controller"),
    )
    return _limit(figure, "Drives wait for the slot of their controller when all are read at once.")


def _of_controllers(case: Case, groups: list[Group]) -> Limit:
    cards = [name for name, card in fitted(case, Controller).items() if card.holds]
    figure = _ratio(
        case,
        "controller",
        "rate of the drives of a controller over what it moves, the worst controller",
        worst(
            (
                np.asarray(oversubscription(found, moved(case, slot)))
                for slot, found in behind(case, groups).items()
            ),
            case.size,
        ),
        lacking(cards, case, "rate_most"),
        *quoted(cards, case, "rate_most", "most data of the controller"),
    )
    return _limit(figure, "Drives wait for their controller when all are read at once.")


def moved(case: Case, slot: str) -> Reals:
    """Return the most data that the controller in a slot moves, in each build [B/s]."""
    return case.looked_up(slot, lambda option: _most(_part(case, option), "rate_most", "B/s"))


def io_of(case: Case, slot: str) -> Reals:
    """Return the most I/O of the controller in a slot, in each build [1/s]."""
    return case.looked_up(slot, lambda option: _most(_part(case, option), "io_most", "IO/s"))


def _most(card: object, field: str, unit: str) -> float:
    return rate(getattr(card, field), unit) if isinstance(card, Controller) else math.nan
