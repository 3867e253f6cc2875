"""What is at the rear: ports, network modules, supplies, slots and cards."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.walk.lines import Candidate, Subject
from baywright.facts.parts import Part
from baywright.facts.places import Slot, Zone
from baywright.language.told.telling import few
from baywright.laws.wording import capitalised, listed

MANY = 3
"""More kinds of card than this are told in one sentence."""

_NAMES = {"usb": "USB", "video": "video", "management": "management"}
_WHERE = {"front": "at the front", "rear": "at the rear", "inside": "inside"}


def ports(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of ports, each number with its scope."""
    held = subject.book.chassis.ports
    for kind in dict.fromkeys(str(port.type) for port in held):
        name = _NAMES.get(kind, kind)
        parts = [(port.count.known, str(port.scope)) for port in held if port.type == kind]
        for number, scope in parts:
            noun = f"{name} port{'s' if number > 1 else ''}"
            verb = "are" if number > 1 else "is"
            says = f"There {verb} {few(number)} {noun} {_WHERE.get(scope, scope)}."
            yield Candidate("ports", "ports", (says,))
        rate = next((port.speed.text for port in held if port.type == kind and port.speed), "")
        yield Candidate("ports", "speeds", (f"The {name} port runs at {rate}.",) if rate else ())
    total = subject.most('ports("usb")')
    says = f"Counting front, rear and inside, there are up to {few(total)} USB ports."
    yield Candidate("ports", "totals", (says,))
    says = "The management port can be dedicated or shared with port 1 of O1."
    yield Candidate("ports", "management", (says,))
    for part in subject.book.parts_of("display").values():
        says = f"With the {part.name} there are two USB ports at the front."
        yield Candidate("ports", "conditions", (says,))


def network(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of network modules."""
    slots = {n: s for n, s in subject.book.places_of(Slot).items() if "network" in s.takes}
    for key, slot in slots.items():
        name = capitalised(str(slot.name))
        if not subject.possible(f"{key} == empty"):
            yield Candidate("network", "network", (f"{name} is always present.",))
        elif not subject.possible(f"{key} != empty", "processors == 1"):
            yield Candidate("network", "conditions", (f"{name} needs processor 2.",))
        for zone, place in subject.book.places_of(Zone).items():
            says = f"{name} excludes fast drives in {place.name}."
            there = f'count(drive, interface="fast", at={zone}) >= 1'
            if subject.possible(there) and not subject.possible(there, f"{key} != empty"):
                yield Candidate("network", "exclusions", (says,))
    most = subject.most("count(network)")
    if most > 1:
        says = f"There is room for {few(most)} network modules."
        yield Candidate("network", "totals", (says,))
    speeds = sorted({_speed_of(part.name) for part in subject.book.parts_of("network").values()})
    for speed in filter(None, speeds):
        yield Candidate("network", "speeds", (f"The network module runs at {speed}.",))


def _speed_of(name: str) -> str:
    words = name.split()
    return " ".join(words[words.index("of") + 1 :]) if "of" in words else ""


def slots(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of slots and cards."""
    held = {n: s for n, s in subject.book.places_of(Slot).items() if "network" not in s.takes}
    by_length: dict[str, list[str]] = {}
    for name, slot in held.items():
        if slot.length is not None:
            by_length.setdefault(slot.length.text, []).append(str(name))
    if len(by_length) > 1:
        parts = [
            f"slots {listed(names)} are {length}-length" for length, names in by_length.items()
        ]
        yield Candidate("slots", "lengths", (f"{capitalised('; '.join(parts))}.",))
    for length in by_length if len(by_length) == 1 and len(held) > 1 else ():
        yield Candidate("slots", "lengths", (f"All slots are {length} length.",))
    for slot in list(held.values())[:1]:
        if slot.generation is not None and slot.lanes is not None:
            width = f"{slot.generation} x{slot.lanes.text}"
            one = f"{capitalised(str(slot.name))} is {width}."
            every = f"All slots are {width}."
            yield Candidate("slots", "lanes", (one, every) if len(held) == 1 else (every,))
        if slot.height is not None:
            yield Candidate("slots", "heights", (f"All slots are {slot.height.text} height.",))
    for key, slot in held.items():
        if not subject.possible(f"{key} != empty", "processors == 1"):
            either = (str(slot.inside or slot.name), str(slot.name))
            needs = tuple(f"{capitalised(name)} needs processor 2." for name in either)
            yield Candidate("slots", "conditions", needs)


def cards(subject: Subject) -> Iterator[Candidate]:
    """Yield what may be said of accelerators and other cards."""
    most = subject.most("count(accelerator)") if subject.book.parts_of("accelerator") else 0
    if not most:
        return
    machine = subject.book.book.name
    says = f"The {machine} takes up to {few(most)} accelerators."
    yield Candidate("slots", "totals", (says,), "most")
    alone = subject.most("count(accelerator)", "processors == 1")
    if 0 < alone < most:
        says = f"With one processor there is room for up to {few(alone)} accelerators."
        yield Candidate("slots", "conditions", (says,), "most")
    parts = subject.book.parts_of("accelerator")
    if len(parts) > MANY:
        watts = [part.power.text.removesuffix(" W") for part in parts.values() if part.power]
        says = f"Cards of {listed(watts)} W are supported."
        yield Candidate("slots", "accelerators", (says,))
    for part_id, part in parts.items():
        number = subject.most(f'count("{part_id}")')
        if len(parts) <= MANY or number < most:
            yield from _card(subject, part, number)


def _card(subject: Subject, part: Part, number: int) -> Iterator[Candidate]:
    noun = f"{part.name}s" if number > 1 else part.name
    yield Candidate("slots", "accelerators", (f"Up to {few(number)} {noun} fit.",))
    draw = part.power.text if part.power else ""
    if draw and draw not in part.name:
        yield Candidate("slots", "draw", (f"The {part.name} draws {draw}.",))
    for kit in part.brings:
        says = f"The {part.name} needs a {subject.book.parts[kit].name}."
        yield Candidate("slots", "kits", (f"The {part.name} needs a cable kit.", says))
