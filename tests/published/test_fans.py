"""Fans, grilles and noise against printed examples.

Read in stored copies unless the row says otherwise; recomputed here. Where a source prints rounded
numbers, half of the last place is allowed.
"""

from __future__ import annotations

import numpy as np
import pytest

from baywright.sizing.air.fans import power_at, pressure_at, speed_for
from baywright.sizing.air.intake import grille_loss
from baywright.sizing.air.noise import at_distance, at_speed, of_equal_sources, summed

TWELVE_TO_FIFTEEN = 1500 / 1200
"""A fan goes from 1,200 to 1,500 rpm: taken as the share 0.8 of a fan of 1,500 rpm."""


def test_a_printed_example_of_the_fan_laws() -> None:
    """From 1,200 to 1,500 rpm: 10,000 to 12,500 CFM, 2.0 to 3.125 in, 5 to 9.766 HP, three
    decimals at most; two web pages print the same example, one of them in two decimals."""
    slow = speed_for(10_000.0, 12_500.0)
    assert slow == pytest.approx(1 / TWELVE_TO_FIFTEEN)
    assert pressure_at(3.125, slow) == pytest.approx(2.0, abs=5e-4)
    assert power_at(9.766, slow) == pytest.approx(5.0, abs=5e-4)


def test_at_80_percent_of_its_speed_a_fan_draws_half() -> None:
    """A page of a fan maker: 0.8 of the speed takes 51 % of the power, 0.512."""
    assert power_at(1.0, 0.8) == pytest.approx(0.512)


@pytest.mark.parametrize(("volts", "quieter"), [(7.0, 11.7), (9.0, 6.25)])
def test_a_slower_fan_is_quieter_by_what_is_printed(volts: float, quieter: float) -> None:
    """A page on fan laws: a 12 V fan at 7 V loses 11.7 dB, at 9 V 6.25 dB, with speed as the
    voltage and 50 log10 of its ratio."""
    assert -at_speed(0.0, volts / 12) == pytest.approx(quieter, abs=0.05)


@pytest.mark.parametrize(("count", "more"), [(2, 3.0), (3, 4.8), (4, 6.0), (10, 10.0)])
def test_equal_sources_add_what_the_table_says(count: int, more: float) -> None:
    """Table of an engineering handbook, one decimal."""
    assert of_equal_sources(0.0, count) == pytest.approx(more, abs=0.05)
    assert summed(*[0.0] * count) == pytest.approx(more, abs=0.05)


@pytest.mark.parametrize(
    ("levels", "printed"),
    [
        ((62.0, 73.0), 73.3),  # a consultancy on acoustics
        ((35.0, 40.0, 45.0), 46.5),  # a city's guide to noise in town planning
        ((40.0, 45.0), 46.2),  # the same
        ((55.0, 55.0), 58.0),  # the same, in whole decibels
        ((50.0, 50.0, 50.0), 54.8),  # slides of a course on acoustics
    ],
)
def test_levels_add_up_to_what_is_printed(levels: tuple[float, ...], printed: float) -> None:
    assert summed(*levels) == pytest.approx(printed, abs=0.05)


@pytest.mark.parametrize(("feet", "printed"), [(15.0, 76.5), (7.0, 83.1), (20.0, 74.0)])
def test_sound_falls_with_distance_as_printed(feet: float, printed: float) -> None:
    """A handbook of acoustics: 80 dB at 10 ft are 76.5 dB at 15 ft and 83.1 dB at 7 ft; a
    doubled distance takes 6 dB."""
    assert at_distance(80.0, 10.0, feet) == pytest.approx(printed, abs=0.05)


def test_the_loss_of_a_slight_narrowing_is_the_printed_one() -> None:
    """The formula stands in the Modelica standard library, with Idelchik, diagram 4-14, as its
    source; a public test suite of pipe flow has 0.11 for a bead of 1.6 mm in a bore of
    102.26 mm, given to 5 %. Both were read in files of public packages."""
    share = ((0.10226 - 2 * 0.0016) / 0.10226) ** 2
    assert grille_loss(share) == pytest.approx(0.11, rel=0.05)


def test_an_open_grille_loses_nothing_and_a_closed_one_has_no_number() -> None:
    assert grille_loss(1.0) == 0.0
    assert np.isnan(grille_loss(0.0))
