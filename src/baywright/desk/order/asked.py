"""An order as wishes: so many of each part and no others, places where they are given.

A line that could be one part or another becomes a choice of its own, so that every reading of it
is in the space. Parts that follow from the rest are left free: blanks, what other parts bring, fans
where one kind fits, and what is always in its place.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from baywright.desk.order.reading import Line, Order
from baywright.facts.places import Fans
from baywright.laws.blanks import blank_parts
from baywright.laws.controllers import cable_of
from baywright.laws.formula import compared, encode
from baywright.laws.frame import Option, Weigh
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.models import keeps
from baywright.laws.wishes import Wish, read_wishes
from baywright.laws.wording import listed
from baywright.problems import Mark
from baywright.space import Choice, Law, Origin, Space, Sum, Table

READINGS = Origin("order.readings", "wish", "Each unclear line is one of the parts it could be.")


@dataclass(frozen=True, slots=True)
class Roles:
    """The parts of a machine by how a build comes to have them.

    Args:
        chosen: parts that somebody decides on.
        follow: parts of choices that follow from the rest: fans, what other parts bring.
        blanks: parts that close what is empty.
        loose: parts of the book that no place takes and nothing brings.
        always: how many of a part are in every build.
    """

    chosen: tuple[str, ...]
    follow: tuple[str, ...]
    blanks: tuple[str, ...]
    loose: tuple[str, ...]
    always: Mapping[str, int]


def roles(machine: Machine) -> Roles:
    """Return the parts of a machine by how a build comes to have them."""
    book = machine.book
    options = [o for f in machine.frame.fittings.values() if not f.derived for o in f.options]
    placed = {name for option in options for name, _ in option.parts}
    brought = {str(other) for part in book.parts.values() for other in part.brings}
    closing = blank_parts(book) - placed
    fans = set()
    for place in book.places_of(Fans).values():
        taken = book.taken(list(place.takes))
        fans |= set(taken) if len(taken) == 1 else set()
    follow = (fans | (brought - placed)) - closing
    always: dict[str, int] = {}
    for each in book.places.values():
        part = getattr(each, "always", None)
        if part is not None:
            always[str(part)] = always.get(str(part), 0) + 1
    chosen = tuple(name for name in book.parts if name in placed - follow)
    return Roles(
        chosen,
        tuple(name for name in book.parts if name in follow),
        tuple(name for name in book.parts if name in closing),
        tuple(n for n in book.parts if n not in placed | follow | closing),
        always,
    )


def number_of(machine: Machine, part: str) -> Linear:
    """Return how many of a part a build has, what other parts bring included."""
    return machine.frame.linear(_one_of(part))


def _one_of(part: str) -> Weigh:
    return lambda name, _: int(name == part)


@dataclass(frozen=True, slots=True)
class Reading:
    """A line that could be several parts, as a choice among them.

    Args:
        line: the line.
        parts: the parts that it can be.
        choice: the choice; its values are the parts, in that order.
    """

    line: Line
    parts: tuple[str, ...]
    choice: Choice

    def share(self, part: str) -> Linear:
        """Return how many of a part the line gives, by what it is read as."""
        weights = tuple(Fraction(self.line.count * (each == part)) for each in self.parts)
        return Linear({self.choice.name: weights})


def readings(order: Order, chosen: tuple[str, ...]) -> tuple[Reading, ...]:
    """Return the unclear lines of an order as choices among parts that are chosen."""
    found = []
    for number, line in enumerate(order.unclear, 1):
        parts = tuple(part for part in line.parts if part in chosen)
        if parts:
            found.append(Reading(line, parts, Choice(f"reading {number}", parts)))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Asked:
    """An order as wishes of one machine.

    Args:
        order: the order.
        machine: the machine.
        roles: its parts by role.
        listed: how many of each chosen part are listed clearly; what is always there at least.
        readings: lines that could be several parts.
    """

    order: Order
    machine: Machine
    roles: Roles
    listed: Mapping[str, int]
    readings: tuple[Reading, ...]

    @property
    def unnamed(self) -> dict[str, int]:
        """Parts that are always there and that the order has fewer of."""
        counts = self.order.counts
        return {
            part: number - counts.get(part, 0)
            for part, number in self.roles.always.items()
            if counts.get(part, 0) < number and part in self.roles.chosen
        }

    def difference(self, part: str) -> Linear:
        """Return how many more of a part a build has than the order lists, by its reading."""
        found = number_of(self.machine, part)
        for reading in self.readings:
            if part in reading.parts:
                found = found.minus(reading.share(part))
        constant = found.constant - self.listed.get(part, 0)
        return Linear(found.weights, constant, found.dimension)

    def space(self) -> Space:
        """Return the machine with the choices of unclear lines, and nothing of the order yet."""
        return self.machine.space.extended(reading.choice for reading in self.readings)


def asked(order: Order, machine: Machine) -> Asked:
    """Return an order as it is asked of a machine."""
    held, counts = roles(machine), order.counts
    numbers = {
        part: counts.get(part, 0) + _taken_as_there(order, held, part) for part in held.chosen
    }
    named = {part: number for part, number in numbers.items() if number}
    return Asked(order, machine, held, named, readings(order, held.chosen))


def _taken_as_there(order: Order, held: Roles, part: str) -> int:
    """Return how many more of a part are there than listed, as it is always there.

    A part of its kind from another book may stand for it, and then it is swapped, not added.
    """
    short = held.always.get(part, 0) - order.counts.get(part, 0)
    kind = order.book.parts[part].kind
    for line in order.foreign:
        if order.others[line.book].parts[line.foreign].kind == kind:
            short -= line.count
    return max(0, short)


def wishes(asked: Asked, given: str = "") -> list[Wish]:
    """Return the wishes of an order: its counts, no other parts, its places, and a condition.

    Args:
        asked: the order.
        given: a condition that the build has to meet too, or empty.

    Raises:
        Problems: when the condition makes no sense.
    """
    found = [
        *_counts(asked),
        *_foreign(asked),
        *_places(asked),
        *_settings(asked),
        *_models(asked),
    ]
    if asked.order.voltage:
        found += read_wishes(
            asked.machine,
            f"voltage == {asked.order.voltage}",
            Mark("voltage", 1, 1),
            len(found) + 1,
        )
    if given:
        found += read_wishes(asked.machine, given, Mark("given", 1, 1), len(found) + 1)
    return found


def _counts(asked: Asked) -> Iterator[Wish]:
    """Yield a wish for each part that is listed or could be, and one for each kind's others."""
    choices = tuple(reading.choice for reading in asked.readings)
    possible = {part for reading in asked.readings for part in reading.parts}
    others: dict[str, list[str]] = {}
    for part in asked.roles.chosen:
        if part in asked.listed or part in possible:
            yield _count(asked, part, choices)
            choices = ()
        else:
            others.setdefault(asked.machine.book.parts[part].kind, []).append(part)
    for kind, parts in others.items():
        origin = Origin(f"wish:no other {kind}", "wish", f"The order lists no other {_noun(kind)}.")
        laws = [law for part in parts for law in _equal(asked, part, origin)]
        yield Wish(origin, f"no other {_noun(kind)}", choices, tuple(laws))
        choices = ()


def _noun(kind: str) -> str:
    return {"memory": "memory module", "pack": "energy pack", "boot": "boot medium"}.get(kind, kind)


def _count(asked: Asked, part: str, choices: tuple[Choice, ...]) -> Wish:
    number, name = asked.listed.get(part, 0), asked.machine.book.parts[part].name
    unclear = [reading for reading in asked.readings if part in reading.parts]
    said = f"{number} × {name} ({part})" if number or not unclear else f"{name} ({part})"
    if unclear:
        said += f" and what line {listed(r.line.where for r in unclear)} is read as"
    origin = Origin(f"wish:{part}", "wish", f"The order lists {said}.")
    return Wish(origin, said, choices, tuple(_equal(asked, part, origin)))


def _equal(asked: Asked, part: str, origin: Origin) -> list[Law]:
    sizes = asked.machine.sizes | {r.choice.name: r.choice.size for r in asked.readings}
    formula = compared(asked.difference(part), "==")
    encoded = encode(formula, origin, sizes)
    return encoded.laws


def _foreign(asked: Asked) -> Iterator[Wish]:
    """Yield, for each part of another book, a wish that no build of this one has."""
    for line in asked.order.foreign:
        other = asked.order.others[line.book]
        said = f"{line.count} × {other.parts[line.foreign].name} ({line.foreign})"
        sentence = f"The order lists {said} of {other.book.name} in line {line.where}."
        origin = Origin(f"wish:line {line.where}", "wish", sentence)
        yield Wish(origin, f"{said} of {other.book.name}", (), (Table((), frozenset(), origin),))


def _places(asked: Asked) -> Iterator[Wish]:
    """Yield a wish for each place that lines name: it holds what they say."""
    there: dict[str, dict[str, int]] = {}
    for line in asked.order.lines:
        if line.place and len(line.parts) == 1 and line.parts[0] in asked.roles.chosen:
            held = there.setdefault(line.place, {})
            held[line.parts[0]] = held.get(line.parts[0], 0) + line.count
    for place, parts in there.items():
        said = ", ".join(f"{count} × {part}" for part, count in parts.items())
        name = asked.machine.book.places[place].name
        origin = Origin(f"wish:at {place}", "wish", f"The order puts {said} into {name}.")
        laws = tuple(_held(asked.machine, place, parts, origin))
        yield Wish(origin, f"{said} in {name}", (), laws)


def _held(machine: Machine, place: str, parts: Mapping[str, int], origin: Origin) -> Iterator[Law]:
    """Yield the laws that a place holds exactly some parts of those that can be chosen."""
    for part, count in parts.items():
        linear = machine.frame.linear(_one_of(part), places=[place])
        short = Linear(linear.weights, linear.constant - count)
        yield from encode(compared(short, "=="), origin, machine.sizes).laws


def _settings(asked: Asked) -> Iterator[Wish]:
    frame = asked.machine.frame
    for name, value in asked.order.settings:
        zone = name.removesuffix(" controller")
        choice = cable_of(zone) if name != zone else name
        if choice not in frame.fittings:
            continue
        rows = frame.rows((choice,), lambda option, of=value: _is(option, of))
        origin = Origin(f"wish:{choice}", "wish", f"The order says {choice}: {value}.")
        yield Wish(origin, f"{choice}: {value}", (), (Table((choice,), rows, origin),))


def _is(option: Option, value: str) -> bool:
    return option.value == value


def _models(asked: Asked) -> Iterator[Wish]:
    for model in dict.fromkeys(model for model, _ in asked.order.models):
        made = asked.machine.book.models[model]
        origin = Origin(f"wish:model {model}", "wish", f"The order is for model {made.name}.")
        encoded = encode(keeps(asked.machine.frame, model), origin, asked.machine.sizes)
        yield Wish(origin, f"model {made.name}", tuple(encoded.choices), tuple(encoded.laws))


def within(asked: Asked, parts: Mapping[str, int]) -> Iterator[tuple[str, Sum]]:
    """Yield, with each chosen part, a sum that keeps a build to at most so many of it."""
    for part in asked.roles.chosen:
        weights = number_of(asked.machine, part).weights.items()
        rows = tuple((name, tuple(int(w) for w in ws)) for name, ws in weights)
        origin = Origin(f"order.most {part}", "wish", "No more than the order lists.")
        yield part, Sum(rows, parts.get(part, 0), origin)
