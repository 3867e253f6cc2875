"""Zones, cages and drives: which cage in which zone, and what its bays hold."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Cage, Drive, Part
from baywright.facts.places import Zone
from baywright.laws.frame import Fitting, Frame, Option, alternatives, numbered, structure
from baywright.laws.linear import added
from baywright.laws.subsystem import Named, Subsystem
from baywright.laws.wording import listed
from baywright.space import Law


def drives_of(book: Book, zone: str) -> tuple[str, ...]:
    """Return the names of the choices that put drives into a zone."""
    place = book.places[zone]
    if not isinstance(place, Zone):
        return ()
    return tuple(fitting.name for fitting in _drive_choices(book, zone, place))


def cage_of(book: Book, option: Option) -> Cage | None:
    """Return the cage of an option of a zone, if it is one."""
    part = book.parts.get(option.part or "")
    return part if isinstance(part, Cage) else None


def _choices(book: Book) -> Iterator[Fitting]:
    zones = book.places_of(Zone)
    takes = [name for zone in zones.values() for name in zone.takes]
    fillings = {n: p for n, p in book.taken(takes).items() if not isinstance(p, Drive)}
    for name, zone in zones.items():
        why = structure(book, name, f"{zone.name} holds one cage, or a part of its size, or none.")
        yield Fitting(name, name, alternatives(fillings), why)
        yield from _drive_choices(book, name, zone)


def _drive_choices(book: Book, name: str, zone: Zone) -> Iterator[Fitting]:
    drives = book.parts_of("drive")
    cages = [part for part in book.taken(zone.takes).values() if isinstance(part, Cage)]
    most = max((cage.bays.known for cage in cages), default=0)
    if not most:
        return
    bays = [cage.bays for cage in cages]
    if any(_mixed(cage) for cage in cages):
        for drive in drives:
            sentence = f"{zone.name} has at most {most} bays."
            options = numbered({drive: drives[drive]}, most)
            yield Fitting(f"{name} {drive}", name, options, structure(book, name, sentence, *bays))
    else:
        sentence = f"{zone.name} has at most {most} bays and holds drives of one kind."
        options = numbered(drives, most)
        yield Fitting(f"{name} drives", name, options, structure(book, name, sentence, *bays))


def _laws(frame: Frame) -> Iterable[Law]:
    for name, zone in frame.book.places_of(Zone).items():
        yield from _takes(frame, name, zone)
        for drives in drives_of(frame.book, name):
            yield from _holds(frame, name, drives)
        yield from _alike(frame, name, zone)
        yield from _bays(frame, name, zone)


def _takes(frame: Frame, name: str, zone: Zone) -> Iterator[Law]:
    allowed = frame.book.taken(zone.takes)
    sentence = f"{zone.name} takes {listed(allowed, 'or')}."
    yield from frame.table(
        frame.law(f"zones.takes/{name}", sentence, *zone.takes),
        (name,),
        lambda filling: not filling.parts or filling.part in allowed,
    )
    if zone.always is not None:
        yield from frame.table(
            frame.law(
                f"zones.always/{name}", f"{zone.name} always holds {zone.always}.", zone.always
            ),
            (name,),
            lambda filling: filling.part == zone.always,
        )


def _holds(frame: Frame, name: str, drives: str) -> Iterator[Law]:
    """Drives need a cage with their interface and with enough bays."""

    def fits(filling: Option, fitted: Option) -> bool:
        cage, drive = cage_of(frame.book, filling), frame.book.parts.get(fitted.part or "")
        if not isinstance(drive, Drive):
            return True
        return cage is not None and drive.interface in cage.holds

    def room(filling: Option, fitted: Option) -> bool:
        cage = cage_of(frame.book, filling)
        return cage is None or fitted.count <= cage.bays.known

    origin = frame.law("zones.interface", "Drives need a cage with their interface in their zone.")
    yield from frame.table(origin, (name, drives), fits)
    origin = frame.law("zones.room", "Each drive needs a bay of the cage in its zone.")
    yield from frame.table(origin, (name, drives), room)


def _alike(frame: Frame, name: str, zone: Zone) -> Iterator[Law]:
    """A zone that takes cages of both sorts has two kinds of drive only in a mixed one."""
    sentence = f"A cage in {zone.name} holds drives of one kind unless it is made for several."
    origin = frame.law(f"zones.alike/{name}", sentence)

    def alike(filling: Option, first: Option, second: Option) -> bool:
        return not first.parts or not second.parts or _mixed(cage_of(frame.book, filling))

    for pair in itertools.combinations(drives_of(frame.book, name), 2):
        yield from frame.table(origin, (name, *pair), alike)


def _mixed(cage: Cage | None) -> bool:
    return cage is not None and cage.mixed is not None and cage.mixed.known


def _bays(frame: Frame, name: str, zone: Zone) -> Iterator[Law]:
    """Mixed drives share the bays; a cage that comes filled has every bay used."""
    choices = drives_of(frame.book, name)
    filled = added(frame.by_option(drives, lambda option: option.count) for drives in choices)
    if len(choices) > 1:
        bays = frame.by_option(name, lambda option: _bays_in(frame.book, option))
        origin = frame.law(f"zones.shared/{name}", f"All drives in {zone.name} share its bays.")
        yield from frame.at_most(origin, filled.minus(bays), 0)
    wanted = frame.by_option(name, lambda o: _comes_filled(frame.book, o))
    if wanted.highest:
        cages = [cage_of(frame.book, option) for option in frame.options(name)]
        facts = [cage.filled for cage in cages if cage is not None and cage.filled is not None]
        sentence = f"A cage in {zone.name} that comes with its drives has every bay used."
        origin = frame.law(f"zones.filled/{name}", sentence, *facts)
        yield from frame.at_most(origin, wanted.minus(filled), 0)


def _bays_in(book: Book, option: Option) -> int:
    cage = cage_of(book, option)
    return cage.bays.known if cage else 0


def _comes_filled(book: Book, option: Option) -> int:
    cage = cage_of(book, option)
    return cage.bays.known if cage and cage.filled is not None and cage.filled.known else 0


def _raw(name: str, part: Part) -> Fraction | int:
    return part.capacity.known.canonical if isinstance(part, Drive) else 0


def _names(frame: Frame) -> Mapping[str, Named]:
    bays = frame.linear(lambda name, part: part.bays.known if isinstance(part, Cage) else 0)
    return {
        "bays": Named(bays, "bays, with or without a drive", "the number of bays"),
        "raw_capacity": Named(
            frame.linear(_raw, "capacity"), "capacity of all drives", "the raw capacity"
        ),
    }


SUBSYSTEM = Subsystem("zones", _choices, _laws, _names)
