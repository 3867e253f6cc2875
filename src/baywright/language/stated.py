"""What a book states or fixes by its structure, looked up by the words people use for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import Cage, MemoryModule, Part, Processor, Supply
from baywright.facts.places import Bank, Mount, Slot, Socket, Supplies, Zone
from baywright.language.attributes import parts_of
from baywright.language.things import Condition, Thing
from baywright.units import Quantity, parse


@dataclass(frozen=True, slots=True)
class Stated:
    """A value a book states.

    Args:
        path: where it stands, such as ``chassis.depth``.
        value: the value.
        owner: what it is a value of, in words.
        facts: the facts it stands on.
        note: the temperature a life is stated for.
        given: expression of the builds it holds for; all of them when empty.
    """

    path: str
    value: Quantity | Fraction | str
    owner: str
    facts: tuple[Fact[Any], ...] = ()
    given: str = ""
    note: str = ""


CHASSIS = {
    "depth": "depth", "height": "height", "width": "width", "rails_from": "rails_from",
    "rails_to": "rails_to", "mass_empty": "mass_empty", "mass_most": "mass_most",
}  # fmt: skip
AIR = {
    "noise_idle": "noise_idle", "noise_full": "noise_full", "rise": "rise",
    "cover_off": "cover_off", "grille": "grille",
}  # fmt: skip
OWNERS = {
    "hold_up": "supply", "inrush": "supply", "leakage": "supply", "power_factor": "supply",
    "inlet": "supply", "inlet_current": "supply", "tdp": "processor", "flow": "fan",
    "life": "pack", "rating": "supply",
}  # fmt: skip
"""The kind of part a field is of, where a sentence names none."""


def stated(book: Book, field: str, owner: Thing | None, condition: Condition) -> list[Stated]:
    """Return what a book states of a field.

    Args:
        book: the book.
        field: the field.
        owner: whose it is; the machine's, or those of the usual kind, when ``None``.
        condition: state and line it is asked for.
    """
    if owner is None and field in CHASSIS:
        return _facts(book, "chassis", book.chassis, (CHASSIS[field],))
    if owner is None and field == "rails":
        return _facts(book, "chassis", book.chassis, ("rails_from", "rails_to"))
    if owner is None and field in ("mass", "noise"):
        return _by_state(book, field, condition)
    if owner is None and field in AIR:
        return _facts(book, "air", book.air, (AIR[field],))
    if owner is None and field == "base":
        return _facts(book, "power", book.power, ("base",))
    if owner is None and field == "inlet_limit":
        return _inlet_limits(book)
    if owner is not None and owner.sort == "port" and field == "speed":
        return port_speeds(book, owner)
    return list(_of_parts(book, field, owner, condition))


def _facts(book: Book, section: str, held: object, names: Sequence[str]) -> list[Stated]:
    found = []
    for name in names:
        fact = getattr(held, name, None)
        if isinstance(fact, Fact) and fact.value is not None:
            found.append(Stated(f"{section}.{name}", _plain(fact.value), book.book.name, (fact,)))
    return found


def _by_state(book: Book, field: str, condition: Condition) -> list[Stated]:
    if field == "noise":
        names = {"idle": ("noise_idle",), "full": ("noise_full",)}.get(condition.state, ())
        return _facts(book, "air", book.air, names)
    names = {"empty": ("mass_empty",), "loaded": ("mass_most",)}.get(condition.state, ())
    return _facts(book, "chassis", book.chassis, names)


def _inlet_limits(book: Book) -> list[Stated]:
    return [
        Stated("air.inlet_limits", limit.limit.known, book.book.name, (limit.limit,))
        for limit in book.air.inlet_limits
    ]


def _of_parts(
    book: Book, field: str, owner: Thing | None, condition: Condition
) -> Iterator[Stated]:
    thing = owner or Thing("parts", OWNERS.get(field, ""), "", "")
    for name in parts_of(book, thing):
        part = book.parts[name]
        if field == "rating":
            yield from _ratings(book, name, part, condition)
            continue
        fact = getattr(part, _FIELD_OF.get((part.kind, field), field), None)
        value = fact.value if isinstance(fact, Fact) else fact
        if value is not None and value != "":
            facts = (fact,) if isinstance(fact, Fact) else ()
            path = f"parts.{name}.{_FIELD_OF.get((part.kind, field), field)}"
            at = getattr(part, "life_temperature", None) if field == "life" else None
            yield Stated(path, _plain(value), part.name, facts, note=at.text if at else "")


_FIELD_OF = {("memory", "capacity"): "size", ("drive", "draw"): "power"}


def _ratings(book: Book, name: str, part: Part, condition: Condition) -> Iterator[Stated]:
    if not isinstance(part, Supply):
        return
    for line, rating in part.ratings.items():
        if not condition.expression or line == line_of(book, condition.expression):
            given = "" if len(set(part.ratings.values())) == 1 else f'line == "{line}"'
            yield Stated(f"parts.{name}.ratings.{line}", rating.known, part.name, (rating,), given)


def line_of(book: Book, expression: str) -> str:
    """Return the line of input power that a condition names, by its id or by a voltage."""
    if expression.startswith("line == "):
        return expression.split('"')[1]
    if not expression.startswith("voltage == "):
        return ""
    wanted = parse(expression.removeprefix("voltage == "), "voltage")
    for name, line in book.power.lines.items():
        if line.volts_from.known <= wanted <= line.volts_to.known:
            return name
    return ""


def port_speeds(book: Book, thing: Thing) -> list[Stated]:
    """Return the speeds of the ports of a type."""
    found = [
        Stated("chassis.ports", port.speed.known, book.book.name, (port.speed,))
        for port in book.chassis.ports
        if port.type == thing.name and port.speed is not None
    ]
    for name, part in book.parts.items():
        for port in part.ports:
            if port.type == thing.name and port.speed is not None:
                path = f"parts.{name}.ports"
                found.append(Stated(path, port.speed.known, part.name, (port.speed,)))
    return found


def drive_link_rates(book: Book, interface: str) -> list[Stated]:
    """Return the signalling rates of the bays that hold drives of an interface, or of any."""
    return [
        Stated(f"parts.{name}.link_rate", fact.known, part.name, (fact,))
        for name, part in book.parts.items()
        if isinstance(part, Cage) and (not interface or interface in part.holds)
        for fact in (part.link_rate,)
        if fact is not None
    ]


def generations(book: Book, subject: str) -> dict[str, str]:
    """Return the generations of what is spoken of, by path.

    Args:
        book: the book.
        subject: ``memory``, or ``slots`` or ``lanes`` for those of the processors' lanes.
    """
    if subject == "memory":
        return {
            f"parts.{name}.generation": part.generation
            for name, part in book.parts.items()
            if isinstance(part, MemoryModule)
        }
    if subject == "lanes":
        return {
            f"parts.{name}.lane_generation": part.lane_generation
            for name, part in book.parts.items()
            if isinstance(part, Processor) and part.lane_generation
        }
    return {
        f"places.{name}.generation": str(slot.generation)
        for name, slot in book.places_of(Slot).items()
        if slot.generation and "network" not in slot.takes
    }


def features(book: Book, thing: Thing, condition: Condition) -> list[Stated]:
    """Return how many there are of a feature of the machine.

    Args:
        book: the book.
        thing: the feature, with filters on slots.
        condition: per what it is asked for, and the number of processors.
    """
    counted = _COUNTS.get(thing.name)
    if counted is None:
        return []
    if condition.per not in ("", "processor"):
        return []
    owners = _owners(book, condition)
    totals = {owner: sum(counted(book, thing, owner)) for owner in (*book.places_of(Socket), "")}
    if condition.per == "processor":
        values = {totals[owner] for owner in book.places_of(Socket)}
    else:
        values = {sum(totals[owner] for owner in owners) + totals[""]}
    return [Stated(f"places ({thing.many})", Fraction(v), book.book.name) for v in sorted(values)]


def _owners(book: Book, condition: Condition) -> list[str]:
    sockets = list(book.places_of(Socket))
    return sockets[:1] if "processors == 1" in condition.expression else sockets


def _sockets(book: Book, thing: Thing, owner: str) -> Iterator[int]:
    for bank in book.places_of(Bank).values():
        if bank.owner == owner:
            yield bank.channels.known * (bank.per_channel.known if thing.name != "channels" else 1)


def _slots(book: Book, thing: Thing, owner: str) -> Iterator[int]:
    for slot in book.places_of(Slot).values():
        network = "network" in slot.takes
        wanted = network == (thing.name == "network_positions") and _has(slot, thing)
        if (slot.owner or "") == owner and wanted:
            yield slot.positions.known if slot.positions else 1


def _has(slot: Slot, thing: Thing) -> bool:
    for condition in thing.filters:
        field, _, value = condition.partition("=")
        fact = getattr(slot, field, None)
        if fact is None or fact.text != value.strip('"'):
            return False
    return True


def _lanes(book: Book, thing: Thing, owner: str) -> Iterator[int]:
    if owner:
        processors = [p for p in book.parts.values() if isinstance(p, Processor)]
        counts = {part.lanes.known for part in processors if part.lanes is not None}
        yield from counts if len(counts) == 1 else ()


def _processor_sockets(book: Book, thing: Thing, owner: str) -> Iterator[int]:
    yield 1 if owner else 0


def _zones(book: Book, thing: Thing, owner: str) -> Iterator[int]:
    yield sum((zone.owner or "") == owner for zone in book.places_of(Zone).values())


def _mounts(book: Book, thing: Thing, owner: str) -> Iterator[int]:
    yield len(book.places_of(Mount)) if not owner else 0


def _supply_bays(book: Book, thing: Thing, owner: str) -> Iterator[int]:
    if not owner:
        yield from (bays.positions.known for bays in book.places_of(Supplies).values())


def _boards(book: Book, thing: Thing, owner: str) -> Iterator[int]:
    rows = [slot for slot in book.places_of(Slot).values() if slot.positions]
    yield sum(slot.owner == owner for slot in rows)


_COUNTS = {
    "memory_sockets": _sockets, "channels": _sockets, "slots": _slots,
    "network_positions": _slots, "places": _slots, "lanes": _lanes,
    "processor_sockets": _processor_sockets, "zones": _zones, "mounts": _mounts,
    "supply_bays": _supply_bays, "boards": _boards,
}  # fmt: skip
"""How each feature is counted for an owner, or for none."""


def _plain(value: object) -> Quantity | Fraction | str:
    if isinstance(value, Quantity | Fraction):
        return value
    return Fraction(value) if isinstance(value, int) else str(value)
