"""What the bulk engine refuses, and the parts it is put together from."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines.bulk import Checker, deriving, verdicts
from baywright.engines.bulk.arrays import code_type, number_type
from baywright.engines.bulk.fusing import MOST_FUSED, Lookup, fused
from baywright.engines.contract import Unsupported
from baywright.problems import Problems
from baywright.space import Choice, Origin, Space, Sum, Table

LAW = Origin("law", "law", "The law holds.")
A, B = Choice("a", ("0", "1", "2")), Choice("b", ("0", "1"))
DERIVED = Choice("c", ("0", "1", "2", "3"), derived=True)
TOTAL = Table(
    ("a", "b", "c"), frozenset((a, b, a + b) for a in range(3) for b in range(2) if a + b < 3), LAW
)


def column(*values: int) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    return np.array(values, np.int64)


def test_the_first_broken_law_is_the_lowest() -> None:
    never = Table(("b",), frozenset({(1,)}), LAW)
    light = Sum((("a", (0, 5, 9)),), 5, LAW)
    space = Space((A, B), (never,), (light,))
    found = verdicts(space, {"a": column(0, 2, 2), "b": column(1, 1, 0)}, every=True)
    assert found.first.tolist() == [-1, 1, 0]
    assert found.counts().tolist() == [1, 2]
    assert verdicts(space, {"a": column(2), "b": column(0)}).counts().tolist() == [1, 0]


def test_a_derived_choice_follows_from_a_table() -> None:
    checker = Checker(Space((A, B, DERIVED), (TOTAL,)), ["a", "b"])
    codes = checker.codes({"a": column(0, 1, 2), "b": column(1, 1, 1)})
    assert checker.verdicts(codes).first.tolist() == [-1, -1, 0]
    assert codes[2, :2].tolist() == [1, 2]


def test_a_derived_choice_follows_among_the_rows_of_a_large_table(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("baywright.engines.bulk.steps.MOST_CELLS", 1)
    test_a_derived_choice_follows_from_a_table()


def test_a_derived_choice_follows_from_two_sums() -> None:
    upper = Sum((("a", (0, 1, 2)), ("b", (0, 1)), ("c", (0, -1, -2, -3))), 0, LAW)
    lower = Sum((("a", (0, -1, -2)), ("b", (0, -1)), ("c", (0, 1, 2, 3))), 0, LAW)
    checker = Checker(Space((A, B, DERIVED), (), (upper, lower)), ["a", "b"])
    codes = checker.codes({"a": column(0, 1, 2), "b": column(1, 1, 1)})
    assert checker.verdicts(codes).legal.all()
    assert codes[2].tolist() == [1, 2, 3]


def test_where_no_value_fits_the_one_that_breaks_fewest_is_taken() -> None:
    beside = Table(("c",), frozenset({(3,)}), Origin("beside", "law", "It is 3."))
    checker = Checker(Space((A, B, DERIVED), (TOTAL, beside)), ["a", "b"])
    codes = checker.codes({"a": column(2), "b": column(1)})
    assert np.flatnonzero(checker.verdicts(codes, every=True).broken()[0]).tolist() == [0]
    assert codes[2].tolist() == [3]


def test_a_derived_choice_that_does_not_follow_is_named() -> None:
    loose = Table(("a", "c"), frozenset({(0, 0), (0, 1), (1, 2), (2, 3)}), LAW)
    with pytest.raises(Problems) as found:
        Checker(Space((A, DERIVED), (loose,)), ["a"])
    assert [each.kind for each in found.value.problems] == ["not-derivable"]
    assert "'c'" in str(found.value)


def test_a_derived_choice_with_too_many_values_for_a_set_is_named() -> None:
    size = deriving.MOST_VALUES + 1
    wide = Choice("wide", tuple(map(str, range(size))), derived=True)
    upper = Sum((("b", (0, 1)), ("wide", tuple(-v for v in range(size)))), 0, LAW)
    lower = Sum((("b", (0, -1)), ("wide", tuple(range(size)))), 0, LAW)
    with pytest.raises(Problems, match="'wide'"):
        Checker(Space((B, wide), (), (upper, lower)), ["b"])


def test_missing_choices_are_named_with_their_values() -> None:
    with pytest.raises(Problems) as found:
        verdicts(Space((A, B, DERIVED), (TOTAL,)), {"b": column(0)})
    assert [each.message for each in found.value.problems] == ["There is no column for 'a'."]
    assert "0, 1, 2" in found.value.problems[0].hint


def test_values_that_do_not_exist_are_refused() -> None:
    space = Space((B,))
    for wrong in (column(2), column(-1)):
        with pytest.raises(ValueError, match="'b'"):
            verdicts(space, {"b": wrong})
    with pytest.raises(ValueError, match="whole numbers"):
        verdicts(space, {"b": np.array([0.5])})
    with pytest.raises(ValueError, match="no choice 'z'"):
        verdicts(space, {"b": column(0), "z": column(0)})
    with pytest.raises(ValueError, match="one length"):
        verdicts(Space((A, B)), {"a": column(0), "b": column(0, 1)})


def test_numbers_beyond_64_bits_are_refused() -> None:
    heavy = Sum((("a", (0, 1 << 62, 3)), ("b", (0, 1 << 62))), 1 << 62, LAW)
    with pytest.raises(Unsupported, match="64 bits"):
        Checker(Space((A, B), (), (heavy,)))


def test_all_laws_are_known_only_when_asked_for() -> None:
    found = verdicts(Space((B,)), {"b": column(0, 1)})
    assert found.legal.tolist() == [True, True]
    with pytest.raises(ValueError, match="asked for"):
        found.broken()


def test_types_are_the_smallest_that_hold_the_numbers() -> None:
    assert [code_type([n]) for n in (256, 257, 65537)] == [np.uint8, np.uint16, np.uint32]
    assert [number_type(n) for n in (65534, 65535)] == [np.uint16, np.uint32]


def test_choices_with_many_values_are_judged() -> None:
    wide = Choice("wide", tuple(map(str, range(70_000))))
    even = Table(("wide",), frozenset((v,) for v in range(0, 70_000, 2)), LAW)
    found = verdicts(Space((wide,), (even,)), {"wide": np.arange(70_000)})
    assert np.array_equal(found.legal, np.arange(70_000) % 2 == 0)


SIZES = (2, 3, 4, 5)
SCOPES = st.lists(st.integers(0, 3), unique=True, max_size=3).map(lambda s: tuple(sorted(s)))


@given(st.lists(SCOPES, max_size=5), st.integers(0, 99))
def test_fused_look_ups_find_the_lowest(scopes: list[tuple[int, ...]], seed: int) -> None:
    random = np.random.default_rng(seed)
    lookups = [
        Lookup(scope, random.integers(0, 9, [SIZES[at] for at in scope]).astype(np.uint16))
        for scope in scopes
    ]
    fewer = fused(lookups, SIZES)
    assert len(fewer) <= len(lookups)
    assert all(each.cells.size <= MOST_FUSED for each in fewer)
    for build in itertools.product(*map(range, SIZES)):
        assert _lowest(lookups, build) == _lowest(fewer, build)


def _lowest(lookups: list[Lookup], build: tuple[int, ...]) -> int:
    found = (each.cells[tuple(build[at] for at in each.scope)] for each in lookups)
    return min(map(int, found), default=99)
