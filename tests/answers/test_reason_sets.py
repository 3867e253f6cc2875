"""All minimal sets of reasons against every set of origins of small random spaces."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from dataclasses import replace
from unittest.mock import Mock

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from baywright.answers.inquiry import RecheckError, SpaceInquiry
from baywright.answers.space_questions import explained
from baywright.answers.verdicts import No, OtherReasons, Reason
from baywright.desk.asking import ask
from baywright.desk.opening import open_book, standard_panel
from baywright.engines.brute import Brute
from baywright.engines.contract import Assumptions, Cut, Impossible, Possible
from baywright.engines.cpsat import CpSat
from baywright.space import Kind, Origin, Space, broken
from tests.conformance.spaces import spaces, tables

Keys = frozenset[str]

BRUTE = Brute()


@st.composite
def impossible_spaces(draw: st.DrawFn) -> Space:
    """A space without builds, each table and sum of it a law or a wish, few of them together."""
    space = draw(spaces(most=4))
    if space.choices:
        space = space.extended(tables=draw(st.lists(tables(list(space.choices)), max_size=5)))
    assume(not possible(space, every(space)))
    third: Kind = draw(st.sampled_from(("rule", "wish")))
    some: tuple[Kind, ...] = ("law", "wish", third)
    kinds = {str(number): draw(st.sampled_from(some)) for number in range(8)}

    def own(number: int) -> Origin:
        key = str(number % len(kinds))
        return Origin(key, kinds[key], f"It holds, says {key}.")

    sums = tuple(replace(total, origin=own(n)) for n, total in enumerate(space.sums))
    start = len(sums)
    retold = (replace(table, origin=own(n)) for n, table in enumerate(space.tables, start))
    return Space(space.choices, tuple(retold), sums)


def every(space: Space) -> Keys:
    return frozenset(space.origins)


def possible(space: Space, keys: Keys) -> bool:
    return isinstance(BRUTE.prove(space, Assumptions(without=every(space) - keys)), Possible)


def wishes_of(space: Space) -> Keys:
    return frozenset(key for key, origin in space.origins.items() if origin.kind == "wish")


def subsets(keys: Keys) -> Iterator[Keys]:
    for size in range(len(keys) + 1):
        yield from map(frozenset, itertools.combinations(sorted(keys), size))


def minimal_sets(space: Space) -> set[Keys]:
    """Return every minimal impossible set whose wishes are one under all laws."""
    wishes = wishes_of(space)
    laws = every(space) - wishes
    asked = minimal_among(wishes, lambda keys: possible(space, laws | keys))
    found = minimal_among(every(space), lambda keys: possible(space, keys))
    return {keys for keys in found if keys & wishes in asked}


def minimal_among(keys: Keys, holds: Callable[[Keys], bool]) -> set[Keys]:
    """Return the minimal parts of some keys that do not hold."""
    found: set[Keys] = set()
    for part in subsets(keys):
        if not any(known <= part for known in found) and not holds(part):
            found.add(part)
    return found


def explain(space: Space, wanted: int) -> tuple[list[tuple[Reason, ...]], OtherReasons]:
    """Return the sets of reasons of a space without builds, and what is said of others."""
    panel = replace(standard_panel(), reason_sets=wanted)
    found = explained(SpaceInquiry(panel), space, space)
    assert found.others is not None
    return [found.reasons, *found.others.sets], found.others


def keys_of(reasons: tuple[Reason, ...]) -> Keys:
    return frozenset(reason.key for reason in reasons)


def check_all(space: Space) -> None:
    sets, others = explain(space, 100)
    assert others.more == "none"
    assert len(sets) == len({keys_of(reasons) for reasons in sets})
    assert {keys_of(reasons) for reasons in sets} == minimal_sets(space)
    assert [len(reasons) for reasons in sets] == sorted(len(reasons) for reasons in sets)
    for reasons in sets:
        for reason in reasons:
            failed = {law.origin.key for law in broken(space, reason.without.values)}
            assert failed & keys_of(reasons) == {reason.key}


@settings(max_examples=150)
@given(impossible_spaces())
def test_all_minimal_sets_are_found_and_no_other(space: Space) -> None:
    check_all(space)


@pytest.mark.slow
@pytest.mark.timeout(900)
@settings(max_examples=1500)
@given(impossible_spaces())
def test_all_minimal_sets_are_found_and_no_other_at_length(space: Space) -> None:
    check_all(space)


@settings(max_examples=60)
@given(space=impossible_spaces(), wanted=st.integers(2, 3))
def test_so_many_as_wanted_are_shown_and_more_are_told(space: Space, wanted: int) -> None:
    sets, others = explain(space, wanted)
    every_set = minimal_sets(space)
    assert {keys_of(reasons) for reasons in sets} <= every_set
    assert len(sets) == min(wanted, len(every_set))
    assert others.more == ("some" if len(every_set) > wanted else "none")


@settings(max_examples=40)
@given(impossible_spaces())
def test_one_set_is_one_of_them(space: Space) -> None:
    found = explained(SpaceInquiry(standard_panel()), space, space)
    assert found.others is None
    assert keys_of(found.reasons) in minimal_sets(space)


DOUBLE = 'count("accel-dw") == 3'
ARRAYS = 'arrays(12, 12, interface="sas")'


def test_three_large_cards_are_too_many_in_several_ways() -> None:
    sets = reasons_in_f2(DOUBLE, 3)
    assert len(sets) == 3
    # A machine takes two of them; and beside that only two of the places have room for one.
    assert keys_of(sets[0]) == {"parts.at_most/accel-dw", "wish:1"}
    assert all("parts.at_most/accel-dw" not in keys_of(reasons) for reasons in sets[1:])


def test_either_zone_that_is_out_of_reach_is_why_two_arrays_do_not_fit() -> None:
    sets = [keys_of(reasons) for reasons in reasons_in_f2(ARRAYS, 2)]
    assert {"controllers.reach/A", "controllers.reach/C", "wish:1"} in sets
    assert {"controllers.reach/B", "controllers.reach/C", "wish:1"} in sets


def reasons_in_f2(question: str, wanted: int) -> list[tuple[Reason, ...]]:
    panel = replace(standard_panel(), reason_sets=wanted)
    verdict = ask(open_book("f2", panel=panel), question).verdict
    assert isinstance(verdict, No)
    assert verdict.others is not None
    return [verdict.reasons, *verdict.others.sets]


@given(impossible_spaces())
@settings(max_examples=20)
def test_without_time_for_more_there_may_be_more(space: Space) -> None:
    slow = Mock(spec=CpSat, prove=CpSat().prove, best=Mock(return_value=Cut()))
    slow.name = "slow"
    panel = replace(standard_panel(), optimiser=slow, reason_sets=3)
    found = explained(SpaceInquiry(panel), space, space)
    assert found.others == OtherReasons((), "unknown")
    assert keys_of(found.reasons) in minimal_sets(space)


@given(impossible_spaces())
@settings(max_examples=20)
def test_that_these_are_all_is_not_believed_of_one_engine(space: Space) -> None:
    if len(minimal_sets(space)) < 2:
        return
    hasty = Mock(spec=CpSat, prove=CpSat().prove, best=Mock(return_value=Impossible()))
    hasty.name = "hasty"
    panel = replace(standard_panel(), optimiser=hasty, reason_sets=3)
    with pytest.raises(RecheckError):
        explained(SpaceInquiry(panel), space, space)
