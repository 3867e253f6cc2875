"""Repairs: the fewest changes of the parts of an order with which it can be built.

A change is a part added, a part taken off, or one put in the place of another of its kind. Among
the repairs with the fewest changes come first those in which fewest parts that follow from the rest
differ, then those that keep the size of the order with the likest parts, then the lowest price.
Every one is a proven optimum of the optimiser; that no fewer changes do is proven again by the
prover, where that comes to an end in its time.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.inquiry import EVALUATOR, Inquiry, StoppedError
from baywright.answers.verdicts import Proof, Witness
from baywright.answers.witnesses import witness
from baywright.desk.order.asked import Asked, Reading, number_of
from baywright.desk.order.likeness import unlikeness
from baywright.engines.contract import Best, Impossible, Objective
from baywright.laws.formula import compared, encode
from baywright.laws.linear import Linear, whole
from baywright.laws.wishes import Wish, with_wishes
from baywright.space import Choice, Law, Origin, Space, Sum, Table

_DIFFERENCE = Origin("repair.difference", "wish", "How the build differs from the order.")
_FOUND = Origin("repair.found", "wish", "Another repair than those found already.")
_FEWER = Origin("repair.fewer", "wish", "A repair with fewer changes.")

ONE_UNEVEN = 50
"""A part more or fewer of its kind; a part put in is as far from those listed as it is unlike."""

MOST_REPAIRS = 3
"""More repairs with the same number of changes are not looked for."""


@dataclass(frozen=True, slots=True)
class Step:
    """A change of an order.

    Args:
        kind: ``add``, ``remove`` or ``swap``.
        count: how many parts.
        part: id of the part added, or taken off where none is added.
        instead_of: id of the part taken off in a swap, or empty.
        book: id of the book of the part taken off, where it is another's.
    """

    kind: str
    count: int
    part: str
    instead_of: str = ""
    book: str = ""


@dataclass(frozen=True, slots=True)
class Repair:
    """A build that a few changes of an order make possible.

    Args:
        steps: the changes.
        changes: how many they are.
        witness: a build.
        readings: what unclear lines were read as, by their line.
        proof: who found it, and who proved again that no fewer changes do.
    """

    steps: tuple[Step, ...]
    changes: int
    witness: Witness
    readings: Mapping[str, str]
    proof: Proof

    @property
    def taking(self) -> tuple[Step, ...]:
        """The steps that take something off."""
        return tuple(step for step in self.steps if step.kind != "add")


@dataclass(frozen=True, slots=True)
class _Deviation:
    """How many more or fewer of a part a build has, as a choice."""

    part: str
    choice: Choice
    low: int

    def weights(self, by: int) -> tuple[int, ...]:
        """Return what is added, or with -1 what is taken off, for each value of the choice."""
        return tuple(max(0, by * (self.low + at)) for at in range(self.choice.size))


@dataclass(frozen=True, slots=True)
class _Model:
    """An order that may be changed, at a price.

    Args:
        space: the machine with the choices that say how a build differs.
        deviations: those of parts.
        offset: changes that every build needs, by kind: parts of other books, parts beyond room.
        objectives: what is made small, in order.
    """

    space: Space
    deviations: tuple[_Deviation, ...]
    offset: Mapping[str, int]
    objectives: tuple[Objective, ...]


def repairs(inquiry: Inquiry, asked: Asked, kept: Sequence[Wish] = ()) -> tuple[Repair, ...]:
    """Return the repairs with the fewest changes, up to a few of them.

    Args:
        inquiry: the machine and the engines.
        asked: the order.
        kept: wishes that every repair keeps, such as the voltage.

    Raises:
        StoppedError: at a limit.
        RecheckError: when a build breaks a law, or fewer changes would have done.
    """
    model = _model(asked, kept)
    found = list[Repair]()
    least, judge = 0, EVALUATOR
    for levels in _optima(inquiry, model):
        if not found:
            least = levels[0].value
            judge = _none_fewer(inquiry, model, least)
        elif levels[0].value > least:
            break
        found.append(_repair(inquiry, asked, model, levels[-1].values, least, judge))
        if len(found) == MOST_REPAIRS:
            break
    return tuple(found)


def _optima(inquiry: Inquiry, model: _Model) -> Iterator[Sequence[Best]]:
    """Yield the best repair, then the best of those that differ from all before."""
    space, first = model.space, True
    while True:
        try:
            levels = list(inquiry.best_of(space, model.objectives))
        except StoppedError:
            if first:
                raise
            return
        if not levels:
            return
        yield levels
        if not model.deviations:
            return
        space, first = _another(space, model, levels[-1].values), False


def _none_fewer(inquiry: Inquiry, model: _Model, least: int) -> str:
    """Have the prover prove that no repair has fewer changes; return who proved it."""
    if not least:
        return EVALUATOR
    fewer = Sum(model.objectives[0].weights, least - 1, _FEWER)
    space, judge = model.space.extended(sums=[fewer]), inquiry.panel.prover
    if isinstance(judge.prove(space, limit=inquiry.panel.patience_for_the_best), Impossible):
        return judge.name
    try:
        return inquiry.confirm_refusal(space, inquiry.panel.optimiser).name
    except StoppedError:
        return EVALUATOR


def _another(space: Space, model: _Model, values: Mapping[str, int]) -> Space:
    weights = tuple(
        (
            each.choice.name,
            tuple(int(at == values[each.choice.name]) for at in range(each.choice.size)),
        )
        for each in model.deviations
    )
    return space.extended(sums=[Sum(weights, len(weights) - 1, _FOUND)])


def _model(asked: Asked, kept: Sequence[Wish]) -> _Model:
    deviations = tuple(_deviations(asked))
    offset = _offset(asked, deviations)
    by_kind: dict[str, list[_Deviation]] = {}
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
    return _Model(space, deviations, offset, tuple(each for each in objectives if each.weights))


def _deviations(asked: Asked) -> Iterator[_Deviation]:
    for part in asked.roles.chosen:
        most = int(number_of(asked.machine, part).highest)
        named = asked.listed.get(part, 0)
        unclear = sum(r.line.count for r in asked.readings if part in r.parts)
        # More than there is room for is taken off in any case, and counted beside the choice.
        low, high = -min(named + unclear, _room(asked, part, most)), most
        name = f"{part} more or fewer"
        values = tuple(str(number) for number in range(low, high + 1))
        yield _Deviation(part, Choice(name, values), low)


def _room(asked: Asked, part: str, most: int) -> int:
    """Return how far below the listed number a choice reaches: never more than is there."""
    return most + sum(r.line.count for r in asked.readings if part in r.parts)


def _capped(asked: Asked, part: str) -> int:
    """Return how many of a part are listed, at most as many as there is room for."""
    return min(asked.listed.get(part, 0), int(number_of(asked.machine, part).highest))


def _offset(asked: Asked, deviations: Sequence[_Deviation]) -> dict[str, int]:
    """Return how many parts of each kind are taken off whatever is built."""
    found: dict[str, int] = {}
    for each in deviations:
        kind = asked.machine.book.parts[each.part].kind
        over = asked.listed.get(each.part, 0) - _capped(asked, each.part)
        found[kind] = found.get(kind, 0) + over
    for line in asked.order.foreign:
        kind = asked.order.others[line.book].parts[line.foreign].kind
        found[kind] = found.get(kind, 0) + line.count
    return found


def _equals(asked: Asked, each: _Deviation) -> list[Law]:
    """Return the laws by which a choice is the difference between build and order."""
    difference = asked.difference(each.part)
    over = asked.listed.get(each.part, 0) - _capped(asked, each.part)
    value = Linear(
        {each.choice.name: tuple(Fraction(each.low + n) for n in range(each.choice.size))}
    )
    tied = difference.minus(value)
    tied = Linear(tied.weights, tied.constant + over)
    sizes = asked.machine.sizes | {r.choice.name: r.choice.size for r in asked.readings}
    sizes[each.choice.name] = each.choice.size
    return encode(compared(tied, "=="), _DIFFERENCE, sizes).laws


def _changes(kind: str, members: Sequence[_Deviation], offset: int) -> tuple[Choice, Choice]:
    """Return the choices that say how many changes a kind has, and how uneven they are."""
    most = sum(max(-each.low, each.low + each.choice.size - 1) for each in members)
    values = tuple(str(offset + number) for number in range(most + 1))
    uneven = tuple(str(number) for number in range(most + offset + 1))
    return Choice(f"changes of {kind}", values), Choice(f"uneven {kind}", uneven)


def _bounds(
    members: Sequence[_Deviation], changes: Choice, uneven: Choice, offset: int
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
    name: str, by_kind: Mapping[str, Sequence[_Deviation]], kind: str, offset: Mapping[str, int]
) -> tuple[str, tuple[int, ...]]:
    changes, uneven = _changes(kind, by_kind[kind], offset.get(kind, 0))
    return name, tuple(range(changes.size if name == changes.name else uneven.size))


def _uneven(
    by_kind: Mapping[str, Sequence[_Deviation]], offset: Mapping[str, int]
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


def _unlike(asked: Asked, each: _Deviation) -> tuple[str, tuple[int, ...]]:
    far = unlikeness(asked, each.part)
    return each.choice.name, tuple(far * number for number in each.weights(1))


def _price(asked: Asked) -> Objective:
    meaning = asked.machine.names["price"].meaning
    weights = whole(meaning) if isinstance(meaning, Linear) else {}
    return Objective(tuple(weights.items()))


def _repair(
    inquiry: Inquiry,
    asked: Asked,
    model: _Model,
    values: Mapping[str, int],
    least: int,
    judge: str,
) -> Repair:
    taken, added = dict[tuple[str, str], int](), dict[str, int]()
    for each in model.deviations:
        differs = each.low + values[each.choice.name]
        over = asked.listed.get(each.part, 0) - _capped(asked, each.part)
        if max(0, -differs) + over:
            taken["", each.part] = max(0, -differs) + over
        if differs > 0:
            added[each.part] = differs
    for line in asked.order.foreign:
        key = (line.book, line.foreign)
        taken[key] = taken.get(key, 0) + line.count
    steps = tuple(_steps(asked, taken, added))
    proof = inquiry.proof(inquiry.panel.optimiser)
    return Repair(
        steps,
        least + sum(model.offset.values()),
        witness(asked.machine, values),
        {each.line.where: _read_as(each, values) for each in asked.readings},
        Proof(proof.answered_by, judge, proof.milliseconds),
    )


def _read_as(reading: Reading, values: Mapping[str, int]) -> str:
    return reading.parts[values[reading.choice.name]]


def _steps(
    asked: Asked, taken: Mapping[tuple[str, str], int], added: Mapping[str, int]
) -> Iterator[Step]:
    """Pair what is taken off with what is added of its kind, the likest first."""
    left, room = dict(taken), dict(added)
    for part, key in itertools.product(added, taken):
        number = min(room[part], left[key])
        if number and asked.machine.book.parts[part].kind == _kind(asked, key):
            yield Step("swap", number, part, key[1], key[0])
            room[part] -= number
            left[key] -= number
    for part, number in room.items():
        if number:
            yield Step("add", number, part)
    for (book, part), number in left.items():
        if number:
            yield Step("remove", number, part, book=book)


def _kind(asked: Asked, key: tuple[str, str]) -> str:
    book = asked.order.others[key[0]] if key[0] else asked.machine.book
    return book.parts[key[1]].kind
