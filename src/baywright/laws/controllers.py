"""Storage controllers: which drives which zone, over which connectors, and arrays across them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from baywright.facts.book import Book
from baywright.facts.parts import Cage, Controller, Drive
from baywright.facts.places import Slot, Zone
from baywright.laws.frame import Fitting, Frame, Option, structure
from baywright.laws.linear import Linear, added
from baywright.laws.subsystem import Subsystem
from baywright.laws.wording import listed
from baywright.laws.zones import cage_of, drives_of
from baywright.space import Law

PRESENT = "The slot a zone is cabled to holds a controller for its drives."

UNCABLED = Option("no controller")


def cable_of(zone: str) -> str:
    """Return the name of the choice that says which slot's controller drives a zone."""
    return f"{zone} controller"


def cabled_zones(book: Book) -> dict[str, Zone]:
    """Return the zones that can hold a cage which needs a controller."""
    return {
        name: zone
        for name, zone in book.places_of(Zone).items()
        if any(_needs(part) for part in book.taken(zone.takes).values())
    }


def controller_slots(book: Book) -> dict[str, Slot]:
    """Return the slots that some zone's cables reach."""
    named = {slot for zone in book.places_of(Zone).values() for slot in zone.controllers}
    return {name: slot for name, slot in book.places_of(Slot).items() if name in named}


def _needs(part: object) -> bool:
    return isinstance(part, Cage) and part.connectors is not None


def _choices(book: Book) -> Iterator[Fitting]:
    slots = controller_slots(book)
    cables = (UNCABLED, *(Option(slot, value=slot) for slot in slots))
    for name, zone in cabled_zones(book).items():
        sentence = f"{zone.name} is cabled to one controller at most."
        place = f"{name} controller"
        yield Fitting(cable_of(name), place, cables, structure(book, place, sentence))
        for slot in slots:
            yield from _shares(book, name, slot)


def _shares(book: Book, zone: str, slot: str) -> Iterator[Fitting]:
    """What a zone asks of the controller in a slot: nothing when it is not cabled to it."""
    cages = [cage for cage in _cages(book) if cage.connectors is not None]
    connectors = sorted({0, *(c.connectors.known for c in cages if c.connectors is not None)})
    yield _share(book, zone, slot, connectors_share(zone, slot), connectors)
    most = max((cage.bays.known for cage in cages), default=0)
    if _drives_bind(book):
        for drives in drives_of(book, zone):
            yield _share(book, zone, slot, drives_share(drives, slot), range(most + 1))


def _share(book: Book, zone: str, slot: str, name: str, counts: Iterable[int]) -> Fitting:
    options = tuple(Option(str(count), value=count) for count in counts)
    why = structure(book, name, f"Follows from the cage, the drives and the cables of {zone}.")
    return Fitting(name, zone, options, why, derived=True)


def connectors_share(zone: str, slot: str) -> str:
    """Return the name of the choice that counts a zone's connectors on the controller in a slot."""
    return f"{zone} connectors on {slot}"


def drives_share(drives: str, slot: str) -> str:
    """Return the name of the choice that counts drives on the controller in a slot."""
    return f"{drives} on {slot}"


def _cages(book: Book) -> list[Cage]:
    return [part for part in book.parts.values() if isinstance(part, Cage)]


def _drives_bind(book: Book) -> bool:
    """Say whether the bays of all zones exceed what some controller drives."""
    limits = [
        part.drives_most.known
        for part in book.parts.values()
        if isinstance(part, Controller) and part.drives_most is not None
    ]
    bays = max((cage.bays.known for cage in _cages(book) if _needs(cage)), default=0)
    return any(bays * len(cabled_zones(book)) > limit for limit in limits)


def _laws(frame: Frame) -> Iterable[Law]:
    zones, slots = cabled_zones(frame.book), controller_slots(frame.book)
    for name, zone in zones.items():
        yield from _needed(frame, name)
        yield from _reach(frame, name, zone)
        for slot in slots:
            yield from _present(frame, name, slot)
            yield from _held(frame, name, slot)
            yield from _determined(frame, name, slot)
    for slot in slots:
        yield from _capacity(frame, slot, tuple(zones))


def _needed(frame: Frame, name: str) -> Iterator[Law]:
    book = frame.book
    sentence = "A zone is cabled to a controller exactly when its cage needs one."
    yield from frame.table(
        frame.law("controllers.needed", sentence),
        (name, cable_of(name)),
        lambda filling, cable: _needs(cage_of(book, filling)) == (cable.value is not None),
    )


def _reach(frame: Frame, name: str, zone: Zone) -> Iterator[Law]:
    sentence = f"The cables of {zone.name} reach a controller in {listed(zone.controllers, 'or')}."
    yield from frame.table(
        frame.law(f"controllers.reach/{name}", sentence, *zone.controllers),
        (cable_of(name),),
        lambda cable: cable.value is None or cable.value in zone.controllers,
    )


def _present(frame: Frame, name: str, slot: str) -> Iterator[Law]:
    """The slot a zone is cabled to holds a controller for the interface of its cage."""
    book = frame.book

    def driven(filling: Option, cable: Option, card: Option) -> bool:
        cage = cage_of(book, filling)
        if cable.value != slot or cage is None:
            return True
        controller = _controller(book, card)
        return controller is not None and bool(set(cage.holds) & set(controller.holds))

    origin = frame.law("controllers.present", PRESENT)
    yield from frame.table(origin, (name, cable_of(name), slot), driven)


def _held(frame: Frame, name: str, slot: str) -> Iterator[Law]:
    """In a cage of several interfaces, the controller holds that of the drives fitted."""
    book = frame.book
    if not any(_needs(cage) and len(cage.holds) > 1 for cage in _cages(book)):
        return

    def held(drives: Option, cable: Option, card: Option) -> bool:
        drive, controller = book.parts.get(drives.part or ""), _controller(book, card)
        if cable.value != slot or not isinstance(drive, Drive):
            return True
        return controller is not None and drive.interface in controller.holds

    origin = frame.law("controllers.present", PRESENT)
    for drives in drives_of(book, name):
        yield from frame.table(origin, (drives, cable_of(name), slot), held)


def _controller(book: Book, card: Option) -> Controller | None:
    part = book.parts.get(card.part or "")
    return part if isinstance(part, Controller) else None


def _determined(frame: Frame, name: str, slot: str) -> Iterator[Law]:
    book, cable = frame.book, cable_of(name)
    sentence = "What a zone asks of a controller follows from its cage, drives and cables."
    origin = frame.law("controllers.shares", sentence)

    def connectors(filling: Option, cabled: Option, share: Option) -> bool:
        cage = cage_of(book, filling)
        wanted = cage.connectors.known if cage is not None and cage.connectors is not None else 0
        return share.value == (wanted if cabled.value == slot else 0)

    yield from frame.table(origin, (name, cable, connectors_share(name, slot)), connectors)
    for drives in drives_of(book, name) if _drives_bind(book) else ():
        share = drives_share(drives, slot)
        top = len(frame.options(share)) - 1
        yield from frame.table(
            origin,
            (drives, cable, share),
            lambda fitted, cabled, total, top=top: (
                total.value == (min(fitted.count, top) if cabled.value == slot else 0)
            ),
        )


def _capacity(frame: Frame, slot: str, zones: Sequence[str]) -> Iterator[Law]:
    place = frame.book.places[slot].name
    used = added(_number_in(frame, connectors_share(zone, slot)) for zone in zones)
    sentence = f"The controller in {place} has a connector for each cage on it."
    yield from _within(frame, slot, used, "connectors", sentence)
    if _drives_bind(frame.book):
        drives = added(
            _number_in(frame, drives_share(name, slot))
            for zone in zones
            for name in drives_of(frame.book, zone)
        )
        sentence = f"The controller in {place} drives no more drives than its limit."
        yield from _within(frame, slot, drives, "drives_most", sentence)


def _number_in(frame: Frame, share: str) -> Linear:
    return frame.by_option(share, lambda o: o.value if isinstance(o.value, int) else 0)


def _within(frame: Frame, slot: str, used: Linear, limit: str, sentence: str) -> Iterator[Law]:
    facts = [
        getattr(part, limit)
        for part in frame.book.parts.values()
        if isinstance(part, Controller) and getattr(part, limit) is not None
    ]
    most = int(used.highest)

    def given(card: Option) -> int:
        controller = _controller(frame.book, card)
        fact = getattr(controller, limit) if controller is not None else None
        return min(most, fact.known) if fact is not None else most

    origin = frame.law(f"controllers.{limit}/{slot}", sentence, *facts)
    yield from frame.at_most(origin, used.minus(frame.by_option(slot, given)), 0)


SUBSYSTEM = Subsystem("controllers", _choices, _laws)
