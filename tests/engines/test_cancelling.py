"""What two opposing sums imply, against every assignment in which both hold."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.cancelling import Implied, implied_sums
from baywright.space import Origin, Sum, holds
from tests.conformance.opposing import opposing_sums

LIMIT = Origin("limit", "law", "The load stays within what is carried.")
WANTED = Origin("wanted", "wish", "Asked: a load of at least so much.")

LOAD = (("a", (0, 3, 7)), ("b", (0, 4)), ("c", (0, 1, 2, 9)))


def negated(weights: tuple[tuple[str, tuple[int, ...]], ...], times: int = 1) -> Sum:
    return Sum(tuple((n, tuple(-times * w for w in ws)) for n, ws in weights), -5 * times, WANTED)


def test_what_cancels_goes_and_the_rest_stays_with_the_bound_to_go_with_it() -> None:
    carried = Sum((*LOAD, ("fans", (0, -10, -20))), -4, LIMIT)
    (implied,) = implied_sums([carried, negated(LOAD, times=6)])
    # load - 10 fans <= -4 and -load <= -5, so -10 fans <= -9: at least one fan of the two.
    assert implied == Implied(frozenset({"limit", "wanted"}), (("fans", (2, 1, 0)),), 1)


def test_sums_that_contradict_each_other_leave_a_bound_below_nothing() -> None:
    (implied,) = implied_sums([Sum(LOAD, 4, LIMIT), negated(LOAD)])
    assert (implied.weights, implied.at_most) == ((), -1)


def test_weights_that_were_rounded_cancel_at_their_least() -> None:
    rounded = tuple((n, tuple(-(-w * 100_000 // 7) for w in ws)) for n, ws in LOAD)
    total = Sum((*rounded, ("fans", (0, -150_000))), 0, LIMIT)
    (implied,) = implied_sums([total, negated(LOAD)])
    assert [name for name, _ in implied.weights] == ["fans"]


def test_sums_that_do_not_oppose_each_other_imply_nothing() -> None:
    other = Sum(tuple((n, tuple(2 * w for w in ws)) for n, ws in LOAD), 11, WANTED)
    bent = Sum(tuple((n, tuple(-w * w for w in ws)) for n, ws in LOAD), -11, WANTED)
    assert implied_sums([Sum(LOAD, 4, LIMIT), other]) == ()
    assert implied_sums([Sum(LOAD, 4, LIMIT), bent]) == ()
    assert implied_sums([Sum(LOAD[:2], 4, LIMIT), negated(LOAD[:2])]) == ()


def test_bounds_are_rounded_before_they_are_mixed() -> None:
    tens = tuple((n, tuple(10 * w for w in ws)) for n, ws in LOAD)
    turned = tuple((n, tuple(-w for w in ws)) for n, ws in tens)
    (implied,) = implied_sums([Sum(tens, 57, LIMIT), Sum(turned, -53, WANTED)])
    assert implied.at_most == -1


def test_too_many_choices_left_are_too_many() -> None:
    rest = tuple((f"rest {n}", (0, 1)) for n in range(5))
    assert implied_sums([Sum((*LOAD, *rest), 4, LIMIT), negated(LOAD)]) == ()
    assert len(implied_sums([Sum((*LOAD, *rest[:4]), 4, LIMIT), negated(LOAD)])) == 1


@given(opposing_sums(), st.sampled_from((2, 50, 2**31)))
def test_an_implied_sum_holds_wherever_its_sums_do(
    drawn: tuple[dict[str, int], list[Sum]], largest: int
) -> None:
    sizes, sums = drawn
    exact = implied_sums(sums)
    for row in itertools.product(*map(range, sizes.values())):
        build = dict(zip(sizes, row, strict=True))
        held = {total.origin.key for total in sums if holds(total, build)}
        for implied in exact:
            if implied.keys <= held:
                coarse = implied.within(largest)
                assert holds(Sum(implied.weights, implied.at_most, LIMIT), build)
                assert holds(Sum(coarse.weights, coarse.at_most, LIMIT), build)


@given(opposing_sums(), st.integers(1, 50))
def test_a_coarse_sum_stays_within_what_it_is_given(
    drawn: tuple[dict[str, int], list[Sum]], largest: int
) -> None:
    for implied in implied_sums(drawn[1]):
        coarse = implied.within(largest)
        assert sum(max(column) for _, column in coarse.weights) <= largest
