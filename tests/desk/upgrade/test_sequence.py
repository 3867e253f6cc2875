"""The order of changes that is found is the best of all there are."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.desk.upgrade.sequence import Ground, Move, OutOfStatesError, Task
from tests.desk.upgrade.orders import cost_of, every_order


@st.composite
def grounds(draw: st.DrawFn) -> Ground:
    """Up to five changes, with states that may be or not, drawn freely."""
    number = draw(st.integers(0, 5))
    last = (1 << number) - 1
    tasks = [
        Task(draw(st.integers(0, 2)), Fraction(draw(st.integers(0, 3)))) for _ in range(number)
    ]
    allowed = draw(st.sets(st.integers(0, last))) | {0, last}
    hot = draw(st.sets(st.integers(0, max(0, number - 1))))
    exposed = draw(st.sets(st.integers(0, last))) - {0, last}
    resting = draw(st.sets(st.integers(0, last))) - {0, last}
    return Ground(
        tasks,
        lambda done: done in allowed,
        lambda _, task: task in hot,
        lambda done: (int(done in exposed), int(done in resting)),
    )


@settings(max_examples=150, deadline=None)
@given(grounds())
def test_no_order_is_better(ground: Ground) -> None:
    moves = ground.best()
    assert cost_of(ground, moves) == min(cost_of(ground, each) for each in every_order(ground))


@given(grounds())
def test_every_change_is_made_once_and_every_state_may_be(ground: Ground) -> None:
    done = 0
    for move in ground.best():
        for task in move.tasks:
            assert not done >> task & 1
            done |= 1 << task
        assert ground.allowed(done)
    assert done == (1 << len(ground.tasks)) - 1


@settings(deadline=None)
@given(grounds())
def test_an_order_step_by_step_makes_every_change_through_states_that_may_be(
    ground: Ground,
) -> None:
    last, done = (1 << len(ground.tasks)) - 1, 0

    def smallest(state: int) -> tuple[int, ...]:
        larger = [s for s in range(last + 1) if s & state == state and s != state]
        to = min((s for s in larger if ground.allowed(s)), key=int.bit_count)
        return tuple(i for i in range(len(ground.tasks)) if (to & ~state) >> i & 1)

    for move in ground.step_by_step(smallest):
        assert move.off or ground.running(done, move.tasks[0])
        done |= sum(1 << task for task in move.tasks)
        assert ground.allowed(done)
    assert done == last


def plain(number: int, allowed: set[int], hot: bool = False, most: int = 100) -> Ground:
    tasks = [Task(0, Fraction(1))] * number
    return Ground(tasks, lambda d: d in allowed, lambda _, t: hot, lambda _: (0, 0), most)


def test_single_steps_where_every_state_may_be() -> None:
    assert plain(2, {0, 1, 2, 3}).best() == (Move((0,), True), Move((1,), True))


def test_at_once_where_no_state_between_may_be() -> None:
    assert plain(2, {0, 3}, hot=True).best() == (Move((0, 1), True),)


def test_what_may_run_is_done_while_it_runs() -> None:
    assert plain(2, {0, 1, 3}, hot=True).best() == (Move((0,), False), Move((1,), False))


def test_nothing_to_do_takes_no_step() -> None:
    assert plain(0, {0}).best() == ()


def test_too_many_states_are_said() -> None:
    with pytest.raises(OutOfStatesError):
        plain(4, set(range(16)), most=3).best()
