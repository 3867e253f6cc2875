"""An order that may be changed, as a space: how each build differs from it, at what price."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.desk.order.asked import Asked, number_of
from baywright.desk.order.likeness import unlikeness
from baywright.engines.contract import Objective
from baywright.laws.formula import compared, encode
from baywright.laws.linear import Linear, whole
from baywright.laws.wishes import Wish, with_wishes
from baywright.space import Choice, Law, Origin, Space, Sum, Table

_DIFFERENCE = Origin("repair.difference", "wish", "How the build differs from the order.")

ONE_UNEVEN = 50
"""A part more or fewer of its kind; a part put in is as far from those listed as it is unlike."""


@dataclass(frozen=True, slots=True)
class Deviation:
    """How many more or fewer of a part a build has, as a choice."""

    part: str
    choice: Choice
    low: int

    def weights(self, by: int) -> tuple[int, ...]:
        """Return what is added, or with -1 what is taken off, for each value of the choice."""
        return tuple(max(0, by * (self.low + at)) for at in range(self.choice.size))


@dataclass(frozen=True, slots=True)
class Changeable:
    """An order that may be changed, at a price.

    Args:
        space: the machine with the choices that say how a build differs.
        deviations: those of parts.
        offset: changes that every build needs, by kind: parts of other books, parts beyond room.
        objectives: what is made small, in order.
    """

    space: Space
    deviations: tuple[Deviation, ...]
    offset: Mapping[str, int]
    objectives: tuple[Objective, ...]


def changeable(asked: Asked, kept: Sequence[Wish]) -> Changeable:
    """Return an order that may be changed.

    Args:
        asked: the order.
        kept: wishes that every build keeps.
    """
    deviations = tuple(_deviations(asked))
    offset = _offset(asked, deviations)
    by_kind: dict[str, list[Deviation]] = {}
    for each in deviations:
        by_kind.setdefault(asked.machine.book.parts[each.part].kind, []).append(each)
    choices = [each.choice for each in deviations]
    laws = [law for each in deviations for law in _equals(asked, each)]
    for kind, members in by_kind.items():
        changes, uneven = _changes(kind, members, offset.get(kind, 0))
        choices += [changes, uneven]
        laws += _bounds(members, changes, uneven, offset.get(kind, 0))
    follow = [_follow(asked, part) for part in asked.roles.follow]
    for missing, tied in follow:
        choices.append(missing)
        laws += tied
    space = with_wishes(asked.space(), kept).extended(
        choices,
        (law for law in laws if isinstance(law, Table)),
        (law for law in laws if isinstance(law, Sum)),
    )
    objectives = (
        Objective(tuple(_counted(f"changes of {kind}", by_kind, kind, offset) for kind in by_kind)),
        Objective(tuple((each.name, tuple(range(each.size))) for each, _ in follow)),
        Objective((*_uneven(by_kind, offset), *(_unlike(asked, each) for each in deviations))),
        _price(asked),
    )
    return Changeable(space, deviations, offset, tuple(each for each in objectives if each.weights))


def _deviations(asked: Asked) -> Iterator[Deviation]:
    for part in asked.roles.chosen:
        most = int(number_of(asked.machine, part).highest)
        named = asked.listed.get(part, 0)
        unclear = sum(r.line.count for r in asked.readings if part in r.parts)
        # More than there is room for is taken off in any case, and counted beside the choice.
        low, high = -min(named + unclear, _room(asked, part, most)), most
        name = f"{part} more or fewer"
        values = tuple(str(number) for number in range(low, high + 1))
        yield Deviation(part, Choice(name, values), low)


def _room(asked: Asked, part: str, most: int) -> int:
    """Return how far below the listed number a choice reaches: never more than is there."""
    return most + sum(r.line.count for r in asked.readings if part in r.parts)


def beyond_room(asked: Asked, part: str) -> int:
    """Return how many of a part are listed beyond what there is any room for."""
    return max(0, asked.listed.get(part, 0) - int(number_of(asked.machine, part).highest))


def _offset(asked: Asked, deviations: Sequence[Deviation]) -> dict[str, int]:
    """Return how many parts of each kind are taken off whatever is built."""
    found: dict[str, int] = {}
    for each in deviations:
        kind = asked.machine.book.parts[each.part].kind
        found[kind] = found.get(kind, 0) + beyond_room(asked, each.part)
    for line in asked.order.foreign:
        kind = asked.order.others[line.book].parts[line.foreign].kind
        found[kind] = found.get(kind, 0) + line.count
    return found


def _equals(asked: Asked, each: Deviation) -> list[Law]:
    """Return the laws by which a choice is the difference between build and order."""
    difference = asked.difference(each.part)
    value = Linear(
        {each.choice.name: tuple(Fraction(each.low + n) for n in range(each.choice.size))}
    )
    tied = difference.minus(value)
    tied = Linear(tied.weights, tied.constant + beyond_room(asked, each.part))
    sizes = asked.machine.sizes | {r.choice.name: r.choice.size for r in asked.readings}
    sizes[each.choice.name] = each.choice.size
    return encode(compared(tied, "=="), _DIFFERENCE, sizes).laws


def _changes(kind: str, members: Sequence[Deviation], offset: int) -> tuple[Choice, Choice]:
    """Return the choices that say how many changes a kind has, and how uneven they are."""
    most = sum(max(-each.low, each.low + each.choice.size - 1) for each in members)
    values = tuple(str(offset + number) for number in range(most + 1))
    uneven = tuple(str(number) for number in range(most + offset + 1))
    return Choice(f"changes of {kind}", values), Choice(f"uneven {kind}", uneven)


def _bounds(
    members: Sequence[Deviation], changes: Choice, uneven: Choice, offset: int
) -> Iterator[Law]:
    """Yield that changes are as many as what is added, and as what is taken off."""
    more = {each.choice.name: each.weights(1) for each in members}
    fewer = {each.choice.name: each.weights(-1) for each in members}
    steps = tuple(-number for number in range(changes.size))
    gaps = tuple(-number for number in range(uneven.size))
    apart = {
        name: tuple(a - b for a, b in zip(more[name], fewer[name], strict=True)) for name in more
    }
    opposite = {name: tuple(-w for w in row) for name, row in apart.items()}
    yield Sum((*more.items(), (changes.name, steps)), offset, _DIFFERENCE)
    yield Sum((*fewer.items(), (changes.name, steps)), 0, _DIFFERENCE)
    yield Sum((*apart.items(), (uneven.name, gaps)), offset, _DIFFERENCE)
    yield Sum((*opposite.items(), (uneven.name, gaps)), -offset, _DIFFERENCE)


def _counted(
    name: str, by_kind: Mapping[str, Sequence[Deviation]], kind: str, offset: Mapping[str, int]
) -> tuple[str, tuple[int, ...]]:
    changes, uneven = _changes(kind, by_kind[kind], offset.get(kind, 0))
    return name, tuple(range(changes.size if name == changes.name else uneven.size))


def _uneven(
    by_kind: Mapping[str, Sequence[Deviation]], offset: Mapping[str, int]
) -> Iterator[tuple[str, tuple[int, ...]]]:
    for kind in by_kind:
        name, steps = _counted(f"uneven {kind}", by_kind, kind, offset)
        yield name, tuple(ONE_UNEVEN * step for step in steps)


def _follow(asked: Asked, part: str) -> tuple[Choice, list[Law]]:
    """Return a choice for how many of a part that follows are missing or left over."""
    number = number_of(asked.machine, part)
    listed = min(asked.order.counts.get(part, 0), int(number.highest))
    size = max(int(number.highest), listed) + 1
    choice = Choice(f"{part} missing or over", tuple(str(n) for n in range(size)))
    gap = {choice.name: tuple(-n for n in range(size))}
    rows = {name: tuple(int(w) for w in ws) for name, ws in number.weights.items()}
    negative = {name: tuple(-w for w in ws) for name, ws in rows.items()}
    return choice, [
        Sum((*rows.items(), *gap.items()), listed, _DIFFERENCE),
        Sum((*negative.items(), *gap.items()), -listed, _DIFFERENCE),
    ]


def _unlike(asked: Asked, each: Deviation) -> tuple[str, tuple[int, ...]]:
    far = unlikeness(asked, each.part)
    return each.choice.name, tuple(far * number for number in each.weights(1))


def _price(asked: Asked) -> Objective:
    meaning = asked.machine.names["price"].meaning
    weights = whole(meaning) if isinstance(meaning, Linear) else {}
    return Objective(tuple(weights.items()))
