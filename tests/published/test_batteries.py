"""Peukert's law against examples in print.

How each was seen stands beside it: R read in a stored copy, C recomputed here.
"""

from __future__ import annotations

import pytest

from baywright.sizing.energy.battery import discharge_time_of_capacity, discharge_time_of_rating


@pytest.mark.parametrize(
    ("capacity", "current", "exponent", "hours", "tolerance"),
    [
        # An article on lead-acid batteries, R, C: 100 Ah, 5 A, printed to a tenth of an hour.
        (100.0, 5.0, 1.2, 14.5, 0.05),
        # A tutorial with its working, R, C: 250 Ah, 20 A, printed to nine decimals.
        (250.0, 20.0, 1.3, 5.088631644, 1e-9),
    ],
)
def test_time_in_the_capacity_form(
    capacity: float, current: float, exponent: float, hours: float, tolerance: float
) -> None:
    found = discharge_time_of_capacity(capacity, current, exponent)
    assert found == pytest.approx(hours, abs=tolerance)


def test_charge_that_is_really_given() -> None:
    """The same tutorial, R, C: 250 Ah, 20 A and 1.3 give 101.772632884 Ah; nine decimals."""
    given = 20.0 * discharge_time_of_capacity(250.0, 20.0, 1.3)
    assert given == pytest.approx(101.772632884, abs=1e-9)


def test_the_rated_form_is_another_law_for_the_same_label() -> None:
    """With t = H (C / (I H))^k, as a maker's page of formulas prints it (R), 100 Ah rated at 20 h
    last exactly 20 h at 5 A, where the capacity form says 14.5 h. Exact."""
    assert discharge_time_of_rating(100.0, 5.0, 1.2, 20.0) == 20.0


def test_both_forms_agree_where_the_rated_current_is_one_ampere() -> None:
    """C, from the two formulas: a rating over C hours is a current of 1 A. Rounding only."""
    rated = discharge_time_of_rating(100.0, 5.0, 1.2, 100.0)
    assert rated == pytest.approx(discharge_time_of_capacity(100.0, 5.0, 1.2), rel=1e-12)
