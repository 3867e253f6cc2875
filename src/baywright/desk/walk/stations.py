"""Stations: what of a machine is shown together, from where, and with which covers off."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from baywright.desk.walk.tour import NEVER_TOO_OPEN, Side, Stop
from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.model import Outline
from baywright.facts.places import (
    AnyPlace,
    Bank,
    Fans,
    Mount,
    Position,
    Slot,
    Socket,
    Supplies,
)
from baywright.language.told.telling import with_article
from baywright.language.word_forms import stem
from baywright.units import Quantity

Point = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Station:
    """What is shown together.

    Args:
        key: its id, such as ``memory``.
        title: its name in headings and sentences, such as ``the memory``.
        side: the side one looks at.
        places: ids of the places shown.
        point: the middle of what is shown, from the front left lower corner: across, inwards,
            up [mm].
        off: how many of the covers are off at least.
        off_most: how many of them are off at most.
        after: ids of stations that come before it.
        others: ids of what is marked on its drawing beside places.
    """

    key: str
    title: str
    side: Side
    places: tuple[str, ...]
    point: Point
    off: int = 0
    off_most: int = NEVER_TOO_OPEN
    after: tuple[str, ...] = ()
    others: tuple[str, ...] = ()

    @property
    def marked(self) -> tuple[str, ...]:
        """What is marked on its drawing."""
        return (*self.places, *self.others)

    @property
    def stop(self) -> Stop:
        """The station as a point of a tour."""
        return Stop(self.key, self.side, self.point, self.off, self.off_most, self.after)


def covers(book: Book) -> tuple[str, ...]:
    """Return what comes off, from outside in; cords are first, since power goes first."""
    order = [fact.text for fact in book.service.order]
    if order:
        return tuple(order)
    insides = [str(place.inside) for place in book.places.values() if place.inside]
    return tuple(dict.fromkeys(("cords", *insides)))


def covers_off(book: Book, inside: str) -> int:
    """Return how many covers are off before one can reach into what a place is inside of.

    ``riser 1`` is one of the risers of the order.
    """
    wanted = _plain(inside)
    order = [_plain(each) for each in covers(book)]
    return order.index(wanted) + 1 if wanted in order else len(order)


def _plain(name: str) -> str:
    words = [stem(word) for word in name.casefold().split()]
    return " ".join(word for word in words if not any(sign.isdigit() for sign in word))


def stations(book: Book) -> tuple[Station, ...]:
    """Return what there is to show, in no order that matters."""
    return tuple(station for make in MAKERS for station in make(book))


def _machine(book: Book) -> Iterator[Station]:
    yield Station("machine", "the machine", "front", (), _middle(book, "front", ()), 0, 0)


def _lock(book: Book) -> Iterator[Station]:
    if book.locks or book.lights:
        title = "the lock and the lights" if book.locks and book.lights else "the lights"
        title = title if book.lights else "the lock"
        point = _middle(book, "front", ())
        yield Station("lock", title, "front", (), point, 0, 0, ("machine",))


def _front(book: Book) -> Iterator[Station]:
    zones = {name: place for name, place in book.places.items() if _seen(place, "front")}
    if zones:
        all_zones = all(str(place.name).startswith("zone") for place in zones.values())
        title = "the front zones" if all_zones else "the front bays"
        point = _middle(book, "front", zones.values())
        yield Station(
            "zones", _title(title, zones), "front", tuple(zones), point, after=("machine", "lock")
        )


def _rear(key: str, title: str, model: type[AnyPlace], chosen: Callable[[AnyPlace], bool]) -> _Make:
    def make(book: Book) -> Iterator[Station]:
        held = {
            name: place
            for name, place in book.places.items()
            if isinstance(place, model) and _seen(place, "rear") and chosen(place)
        }
        if held:
            point = _middle(book, "rear", held.values())
            most = min(map(partial(_most_off, book), held.values()))
            yield Station(
                key, _title(title, held), "rear", tuple(held), point, 0, most, ("machine",)
            )

    return make


def _ports(book: Book) -> Iterator[Station]:
    outlines = [at for port in book.chassis.ports if port.scope == "rear" for at in port.at]
    if any(port.scope == "rear" for port in book.chassis.ports):
        point = _middle_of(book, "rear", outlines)
        kinds = dict.fromkeys(port.type for port in book.chassis.ports if port.scope == "rear")
        marks = tuple(f"port-rear-{kind}" for kind in kinds)
        yield Station(
            "ports", "the rear ports", "rear", (), point, after=("machine",), others=marks
        )


def _guides(book: Book) -> Iterator[Station]:
    """Yield a station for each thing whose opening the machine answers, while it is still shut."""
    order = [_plain(each) for each in covers(book)]
    held: dict[int, list[Outline]] = {}
    keys: dict[int, list[str]] = {}
    for key, lock in book.interlocks.items():
        if lock.action.value is None:
            continue
        action = f" {_plain(lock.action.known.replace(',', ' '))} "
        named = [at for at, cover in enumerate(order) if at and f" {cover} " in action]
        if named:
            at = max(named, key=lambda each: len(order[each]))
            held.setdefault(at, []).extend(lock.at)
            keys.setdefault(at, []).append(str(key))
    for at, outlines in held.items():
        name = covers(book)[at]
        point = _middle_of(book, "inside", outlines)
        marks = tuple(f"interlock-{each}" for each in keys[at])
        yield Station(
            f"guide {at}", f"the {name}", "inside", (), point, at, at, ("machine",), marks
        )


def _inside(key: str, title: str, model: type[AnyPlace]) -> _Make:
    def make(book: Book) -> Iterator[Station]:
        held = {
            name: place
            for name, place in book.places.items()
            if isinstance(place, model) and _seen(place, "inside") and place.inside
        }
        by_depth: dict[int, dict[str, AnyPlace]] = {}
        for name, place in held.items():
            depth = covers_off(book, str(place.inside))
            by_depth.setdefault(depth, {})[name] = place
        for number, (depth, places) in enumerate(sorted(by_depth.items())):
            own = f"{key} {number + 1}" if number else key
            point = _middle(book, "inside", places.values())
            named = _title(title, places)
            yield Station(own, named, "inside", tuple(places), point, depth, after=("machine",))

    return make


def _title(title: str, places: Mapping[str, AnyPlace]) -> str:
    """Return the title of some places; a single one goes by its own name."""
    name = str(next(iter(places.values())).name)
    return title if len(places) > 1 or name.endswith("s") else with_article(name)


def _most_off(book: Book, place: AnyPlace) -> int:
    """Return how many covers may be off for a place to be at the rear: a riser takes it out."""
    inside = str(place.inside or "")
    return covers_off(book, inside) - 1 if _plain(inside) == "riser" else NEVER_TOO_OPEN


def _risers(book: Book) -> Iterator[Station]:
    slots = book.places_of(Slot)
    cards = any("accelerator" in slot.takes and slot.positions for slot in slots.values())
    title = "the accelerator places" if cards else "the slots from inside"
    yield from _inside("risers", title, Slot)(book)


PORTS = {"usb": "USB ports", "video": "video port", "management": "management port"}


def name_of_mark(mark: str) -> str:
    """Return what a mark on a drawing that is no place is called.

    >>> name_of_mark("port-rear-usb"), name_of_mark("interlock-lid-opened")
    ('USB ports', 'interlock')
    """
    kind = mark.rpartition("-")[2]
    return PORTS.get(kind, f"{kind} ports") if mark.startswith("port-") else "interlock"


_Make = Callable[[Book], Iterable[Station]]


def _is_network(place: AnyPlace) -> bool:
    return isinstance(place, Slot) and "network" in place.takes


MAKERS: Sequence[_Make] = (
    _machine,
    _lock,
    _front,
    _ports,
    _rear("network", "the network modules", Slot, _is_network),
    _rear("supplies", "the supplies", Supplies, lambda place: True),
    _rear("slots", "the slots", Slot, lambda place: not _is_network(place)),
    _guides,
    _inside("fans", "the fans", Fans),
    _inside("boot", "the boot position", Position),
    _inside("processors", "the processors", Socket),
    _inside("memory", "the memory", Bank),
    _inside("packs", "the pack mounts", Mount),
    _risers,
)
"""What makes stations, one for each kind; a new kind is a function and a line here."""


def _seen(place: AnyPlace, view: str) -> bool:
    return any(outline.view == view for outline in place.at)


def _middle(book: Book, side: Side, places: Iterable[AnyPlace]) -> Point:
    outlines = [at for place in places for at in place.at if at.view == side]
    return _middle_of(book, side, outlines)


def _middle_of(book: Book, side: Side, outlines: Sequence[Outline]) -> Point:
    """Return the middle of some outlines of one view, as a point of the machine."""
    width, depth, height = (
        _mm(each) for each in (book.chassis.width, book.chassis.depth, book.chassis.height)
    )
    seen = {"front": (width, height), "rear": (width, height), "inside": (width, depth)}[side]
    across, along = _centre(outlines) or (seen[0] // 2, seen[1] // 2)
    if side == "front":
        return across, 0, along
    return (width - across, depth, along) if side == "rear" else (across, along, height)


def _centre(outlines: Sequence[Outline]) -> tuple[int, int] | None:
    boxes = [
        (_mm(each.x), _mm(each.y), _mm(each.width), _mm(each.height))
        for each in outlines
        if all(fact.value is not None for fact in (each.x, each.y, each.width, each.height))
    ]
    if not boxes:
        return None
    right, top = max(x + width for x, _, width, _ in boxes), max(y + h for _, y, _, h in boxes)
    left, low = min(box[0] for box in boxes), min(box[1] for box in boxes)
    return (left + right) // 2, (low + top) // 2


def _mm(length: Fact[Quantity]) -> int:
    """Return a length [mm], 0 while it is unknown."""
    return round(float(length.value.to("mm"))) if length.value is not None else 0
