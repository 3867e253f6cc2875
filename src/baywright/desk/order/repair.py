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

from baywright.answers.inquiry import EVALUATOR, Inquiry, StoppedError
from baywright.answers.verdicts import Proof, Witness
from baywright.answers.witnesses import witness
from baywright.desk.order.asked import Asked, Reading
from baywright.desk.order.changeable import Changeable, beyond_room, changeable
from baywright.engines.contract import Best, Impossible
from baywright.laws.wishes import Wish
from baywright.space import Origin, Space, Sum

_FOUND = Origin("repair.found", "wish", "Another repair than those found already.")
_FEWER = Origin("repair.fewer", "wish", "A repair with fewer changes.")

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
    model = changeable(asked, kept)
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


def _optima(inquiry: Inquiry, model: Changeable) -> Iterator[Sequence[Best]]:
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


def _none_fewer(inquiry: Inquiry, model: Changeable, least: int) -> str:
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


def _another(space: Space, model: Changeable, values: Mapping[str, int]) -> Space:
    weights = tuple(
        (
            each.choice.name,
            tuple(int(at == values[each.choice.name]) for at in range(each.choice.size)),
        )
        for each in model.deviations
    )
    return space.extended(sums=[Sum(weights, len(weights) - 1, _FOUND)])


def _repair(
    inquiry: Inquiry,
    asked: Asked,
    model: Changeable,
    values: Mapping[str, int],
    least: int,
    judge: str,
) -> Repair:
    taken, added = dict[tuple[str, str], int](), dict[str, int]()
    for each in model.deviations:
        differs = each.low + values[each.choice.name]
        fewer = max(0, -differs) + beyond_room(asked, each.part)
        if fewer:
            taken["", each.part] = fewer
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
