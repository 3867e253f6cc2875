"""The rack configuration problem, whose cheapest answers are published.

Source: CSPLib, problem 031 "The Rack Configuration Problem", https://www.csplib.org/Problems/prob031/:
instances 1 and 2 and their optimal values 550 and 1100, read in a stored copy and in a file of a
public package. Both values can be confirmed by hand: the price of a rack equals the watts it
feeds, the cards draw 535 W (1,070 W), and prices come in steps of 50.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import pytest

from baywright.engines.contract import Best, Objective
from baywright.engines.registry import engines
from baywright.space import Choice, Origin, Space, Sum, Table, broken

MODEL_WATTS = (0, 150, 200)
MODEL_SLOTS = (0, 8, 16)
MODEL_PRICE = (0, 150, 200)
"""Of no rack, of the small and of the large model."""

CARD_WATTS = (20, 40, 50, 75)


@dataclass(frozen=True)
class Instance:
    """How many racks there may be, and how many cards of each kind must go into them."""

    racks: int
    cards: tuple[int, int, int, int]
    cheapest: int


INSTANCES = {
    "instance 1": Instance(5, (10, 4, 2, 1), 550),
    "instance 2": Instance(10, (20, 8, 4, 2), 1100),
}


def _law(key: str) -> Origin:
    return Origin(key, "law", f"The law of {key} holds.")


def _model(rack: int) -> str:
    return f"model of rack {rack}"


def _count(rack: int, kind: int) -> str:
    return f"cards of {CARD_WATTS[kind]} W in rack {rack}"


def _choices(instance: Instance) -> tuple[Choice, ...]:
    models = [Choice(_model(r), ("none", "small", "large")) for r in range(instance.racks)]
    counts = [
        Choice(_count(rack, kind), tuple(str(n) for n in range(most + 1)))
        for rack in range(instance.racks)
        for kind, most in enumerate(instance.cards)
    ]
    return (*models, *counts)


def _carried(instance: Instance, rack: int) -> list[Sum]:
    """The cards of a rack find a slot and power in it."""
    kinds = list(enumerate(instance.cards))
    slots = tuple((_count(rack, k), tuple(range(most + 1))) for k, most in kinds)
    watts = tuple(
        (_count(rack, k), tuple(CARD_WATTS[k] * n for n in range(most + 1))) for k, most in kinds
    )
    offered_slots = (_model(rack), tuple(-n for n in MODEL_SLOTS))
    offered_watts = (_model(rack), tuple(-n for n in MODEL_WATTS))
    return [
        Sum((*slots, offered_slots), 0, _law("slots")),
        Sum((*watts, offered_watts), 0, _law("power"), "W"),
    ]


def _placed(instance: Instance, kind: int) -> Sum:
    """Every card is in some rack."""
    most = instance.cards[kind]
    weights = tuple(-n for n in range(most + 1))
    scope = tuple((_count(rack, kind), weights) for rack in range(instance.racks))
    return Sum(scope, -most, _law("cards"))


def _implied(instance: Instance) -> Sum:
    """Together the racks feed what the cards draw; it follows, but says so about all at once."""
    drawn = sum(CARD_WATTS[kind] * number for kind, number in enumerate(instance.cards))
    scope = tuple((_model(r), tuple(-n for n in MODEL_WATTS)) for r in range(instance.racks))
    return Sum(scope, -drawn, _law("power"), "W")


def _ordered(instance: Instance, rack: int) -> Table:
    """Racks are interchangeable: larger models first, equal ones by their 20 W cards."""
    counts = range(instance.cards[0] + 1)
    rows = frozenset(
        (model, count, next_model, next_count)
        for model, count in itertools.product(range(3), counts)
        for next_model, next_count in itertools.product(range(3), counts)
        if (model, count) >= (next_model, next_count)
    )
    scope = (_model(rack), _count(rack, 0), _model(rack + 1), _count(rack + 1, 0))
    return Table(scope, rows, _law("order"))


def _space(instance: Instance) -> Space:
    racks = range(instance.racks)
    carried = [total for rack in racks for total in _carried(instance, rack)]
    placed = [_placed(instance, kind) for kind in range(len(CARD_WATTS))]
    ordered = [_ordered(instance, rack) for rack in racks[:-1]]
    return Space(_choices(instance), tuple(ordered), (*carried, *placed, _implied(instance)))


@pytest.mark.parametrize("engine", ["cpsat", "search"])
@pytest.mark.parametrize("name", INSTANCES)
def test_cheapest_racks(name: str, engine: str) -> None:
    instance = INSTANCES[name]
    space = _space(instance)
    price = Objective(tuple((_model(rack), MODEL_PRICE) for rack in range(instance.racks)))
    optimum = engines()[engine].best(space, price)
    assert isinstance(optimum, Best)
    assert optimum.value == price.value(optimum.values) == instance.cheapest
    assert not broken(space, optimum.values)
