"""Upgrades of small random books, against enumeration and the plain evaluator."""

from __future__ import annotations

import copy
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from baywright.answers.inquiry import Inquiry, Panel
from baywright.answers.upgrading import CHEAPEST, GENTLEST, Aim, Upgrades, owned
from baywright.desk.opening import standard_panel
from baywright.desk.upgrade.between import Between
from baywright.desk.upgrade.sequence import Move
from baywright.desk.upgrade.steps import Order, ground_of, order_of
from baywright.engines.contract import Limit
from baywright.facts.parts import Drive
from baywright.laws.builds import parts_list
from baywright.laws.machine import Machine
from baywright.space import Origin, Table, broken
from tests.desk.upgrade.orders import cost_of, every_order
from tests.laws.random_books import Sample, samples
from tests.laws.random_books import sample as sample_of

MOST_CHANGES = 5
"""More changes than this have too many orders to go through in a test."""


FIRST = ("processors", "storage", "slots")
"""Features that bring places to change."""


HOT = ("drive", "supply", "fan", "memory", "controller", "accelerator", "setting")
"""Kinds of work that a book may allow while its machine runs."""


@st.composite
def pairs(draw: st.DrawFn) -> tuple[Sample, Mapping[str, int], Mapping[str, int]]:
    """A random book and two of its legal builds that differ much."""
    sample = _served(draw, draw(samples(most=1_500, features=7, first=FIRST)))
    legal = sample.legal()
    assume(len(legal) > 1)
    start = draw(st.sampled_from(legal))
    others = sorted(legal, key=lambda each: -_apart(sample, start, each))
    return sample, start, draw(st.sampled_from(others[:6]))


def _served(draw: st.DrawFn, plain: Sample) -> Sample:
    """Return a book that says which work may be done while its machine runs."""
    raw = copy.deepcopy(plain.raw)
    kinds = draw(st.sets(st.sampled_from(HOT), min_size=3))
    work = {kind: {"time": "2 min", "running": "yes"} for kind in sorted(kinds)}
    raw["service"] = {"stop": "5 min", "start": "5 min", "work": work}
    return sample_of(raw, plain.machine.conditions, plain.given.meanings)


def _apart(sample: Sample, one: Mapping[str, int], other: Mapping[str, int]) -> int:
    return sum(one[name] != other[name] for name in sample.own)


NO_TIME = replace(standard_panel(), patience_for_the_best=Limit(0))


@pytest.mark.parametrize("panel", [standard_panel(), NO_TIME], ids=["best", "step by step"])
@settings(max_examples=25, deadline=None)
@given(drawn=pairs())
def test_steps_lead_to_the_target_through_legal_states(
    drawn: tuple[Sample, Mapping[str, int], Mapping[str, int]], panel: Panel
) -> None:
    sample, start, target = drawn
    order = order_of(Between(sample.machine, start, target, panel))
    assert order.complete == (panel is not NO_TIME or not order.steps)
    space, held = sample.machine.space, start
    for step in order.steps:
        for state in (*step.passed, step.leaves):
            assert broken(space, state.values) == ()
        assert step.leaves.values != held
        held = step.leaves.values
        assert stock_is_enough(sample.machine, start, target, held)
    assert {name: held[name] for name in sample.own} == {n: target[n] for n in sample.own}


def stock_is_enough(
    machine: Machine, start: Mapping[str, int], target: Mapping[str, int], state: Mapping[str, int]
) -> bool:
    """No part stands twice, and no drive that stays is out of the machine."""
    had, has, now = (Counter(parts_list(machine, each)) for each in (start, target, state))
    return all(now[p] <= max(had[p], has[p]) for p in now) and all(
        now[p] >= min(had[p], has[p]) for p in had if isinstance(machine.book.parts[p], Drive)
    )


def check_order(sample: Sample, start: Mapping[str, int], target: Mapping[str, int]) -> None:
    """No order of all there are costs less than the one found."""
    states = Between(sample.machine, start, target, standard_panel())
    assume(len(states.changes) <= MOST_CHANGES)
    ground, found = ground_of(states), order_of(states)
    assert found.complete
    moves = [Move(_tasks(states, found, i), step.off) for i, step in enumerate(found.steps)]
    assert cost_of(ground, moves) == min(cost_of(ground, each) for each in every_order(ground))


@settings(max_examples=20, deadline=None)
@given(pairs())
def test_no_order_is_shorter(
    drawn: tuple[Sample, Mapping[str, int], Mapping[str, int]],
) -> None:
    check_order(*drawn)


@pytest.mark.slow
@pytest.mark.timeout(900)
@settings(max_examples=300, deadline=None)
@given(pairs())
def test_no_order_is_shorter_at_length(
    drawn: tuple[Sample, Mapping[str, int], Mapping[str, int]],
) -> None:
    check_order(*drawn)


def _tasks(states: Between, order: Order, number: int) -> tuple[int, ...]:
    before = order.steps[number - 1].leaves.values if number else states.start
    after = order.steps[number].leaves.values
    return tuple(i for i, name in enumerate(states.changes) if before[name] != after[name])


@settings(max_examples=20, deadline=None)
@given(pairs())
def test_the_best_build_is_the_best_of_all(
    drawn: tuple[Sample, Mapping[str, int], Mapping[str, int]],
) -> None:
    sample, start, wanted = drawn
    machine, space = sample.machine, sample.machine.space
    # What is needed here: some choice as another legal build has it.
    name = next((n for n in sample.own if wanted[n] != start[n]), sample.own[0])
    table = Table((name,), frozenset({(wanted[name],)}), Origin("wish:1", "wish", "Asked."))
    others = [each for each in sample.legal() if each[name] == wanted[name]]
    upgrades = Upgrades(machine, owned(machine, start), start)
    for aims in (CHEAPEST, GENTLEST):
        inquiry = Inquiry(machine, standard_panel())
        reached = upgrades.best(inquiry, space.extended(tables=[table]), aims)
        assert reached is not None
        assert broken(space, {c.name: reached.values[c.name] for c in space.choices}) == ()
        mine = [counted(machine, start, reached.values)[aim] for aim in aims]
        assert mine == min([counted(machine, start, each)[aim] for aim in aims] for each in others)


def counted(
    machine: Machine, start: Mapping[str, int], build: Mapping[str, int]
) -> dict[Aim, Fraction | int]:
    """Count what is bought, moved and taken out, one part after the other."""
    had, has = (Counter(parts_list(machine, each)) for each in (start, build))
    all_had, all_has = (Counter(owned(machine, each)) for each in (start, build))
    price = Fraction(0)
    for part, number in (all_has - all_had).items():
        fact = machine.book.parts[part].price
        price += number * (fact.known.canonical if fact else 0)
    arrived = 0
    own = [name for name, fitting in machine.frame.fittings.items() if not fitting.derived]
    for name in own:
        options = machine.frame.options(name)
        here, there = (
            sum(
                (Counter({p: n}) for p, _, n in machine.frame.parts_in(options[each[name]])),
                Counter[str](),
            )
            for each in (start, build)
        )
        arrived += (there - here).total()
    bought = (has - had).total()
    return {
        "price": price,
        "bought": bought,
        "moved": arrived - bought,
        "removed": (had - has).total(),
        "changed": sum(start[name] != build[name] for name in own),
    }
