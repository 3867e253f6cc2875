"""Tables as conflicts, against the rows they allow."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.engines import conflicts
from baywright.engines.conflicts import Form, form_of, outer_literals


def allowed(sizes: Sequence[int], form: Form) -> set[tuple[int, ...]]:
    """Rows that break no conflict for some setting of the auxiliary atoms.

    An auxiliary atom can hold only with all its literals, so the setting that allows most is the
    one in which each holds that can: no conflict has an auxiliary atom in the positive.
    """
    return {
        row
        for row in itertools.product(*map(range, sizes))
        if not any(_all_hold(_facts(sizes, row, form), each) for each in form.conflicts)
    }


def _facts(sizes: Sequence[int], row: Sequence[int], form: Form) -> set[int]:
    starts = itertools.accumulate(sizes, initial=1)
    facts = {start + value for start, value in zip(starts, row, strict=False)}
    first = sum(sizes) + 1
    return facts | {
        atom for atom, literals in enumerate(form.auxiliary, first) if _all_hold(facts, literals)
    }


def _all_hold(facts: set[int], literals: Iterable[int]) -> bool:
    return all(
        (literal in facts) if literal > 0 else (-literal not in facts) for literal in literals
    )


@st.composite
def sized_rows(draw: st.DrawFn) -> tuple[tuple[int, ...], frozenset[tuple[int, ...]]]:
    sizes = tuple(draw(st.lists(st.integers(1, 4), max_size=4)))
    every = list(itertools.product(*map(range, sizes)))
    share = draw(st.sampled_from((1, 2, 4)))
    kept = draw(st.lists(st.integers(0, 4), min_size=len(every), max_size=len(every)))
    return sizes, frozenset(r for r, k in zip(every, kept, strict=True) if k < share)


@given(sized_rows())
def test_a_form_leaves_exactly_the_allowed_rows(
    drawn: tuple[tuple[int, ...], frozenset[tuple[int, ...]]],
) -> None:
    sizes, rows = drawn
    assert allowed(sizes, form_of(sizes, rows)) == rows


@given(sized_rows())
def test_so_does_the_form_of_a_table_too_wide_to_be_looked_through(
    drawn: tuple[tuple[int, ...], frozenset[tuple[int, ...]]],
) -> None:
    sizes, rows = drawn
    columns = conflicts._columns(sizes)
    form = conflicts._supported(columns, rows) if sizes else form_of(sizes, rows)
    assert len(form.auxiliary) == (len(rows) if sizes else 0)
    assert allowed(sizes, form) == rows


def test_a_wide_table_of_few_rows_gets_an_atom_for_each_row() -> None:
    rows = frozenset({(0,) * 9, (1, 2) * 4 + (3,)})
    assert len(form_of((4,) * 9, rows).auxiliary) == 2


def test_a_choice_that_others_determine_takes_few_conflicts() -> None:
    """The drives on a controller: those of the zone when it serves the zone, none otherwise."""
    rows = frozenset((d, c, d % 9 if c == 2 else 0) for d in range(49) for c in range(5))
    form = form_of((49, 5, 9), rows)
    assert allowed((49, 5, 9), form) == rows
    assert len(form.conflicts) < 80


@pytest.mark.parametrize("size", [0, 1])
def test_a_choice_of_no_value_or_one(size: int) -> None:
    rows = frozenset(itertools.product(range(2), range(size), range(3)))
    assert allowed((2, size, 3), form_of((2, size, 3), rows)) == rows


def test_a_form_is_made_once() -> None:
    rows = frozenset({(0, 1), (1, 0)})
    assert form_of((2, 2), rows) is form_of((2, 2), frozenset({(1, 0), (0, 1)}))
    assert form_of((2, 2), rows) != form_of((3, 2), rows)


def test_outer_literals_in_both_directions() -> None:
    outer = outer_literals([[10, 11], [12]])
    assert [outer[literal] for literal in (1, 2, 3, -1, -2, -3)] == [10, 11, 12, -10, -11, -12]
