"""Load lines: to scale, the bound where the eye expects it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from baywright.answers.wording import Load, Segment
from baywright.papers.load_line import load_line


def load(bound: int, *amounts: int) -> Load:
    segments = tuple(Segment(f"part {i}", Fraction(each)) for i, each in enumerate(amounts))
    return Load("Peak draw, W DC", segments, Fraction(bound), "bound", "sentence", "margin")


def test_the_bound_stands_at_82_per_cent() -> None:
    for bound in (500, 1000, 2700):
        assert load_line(load(bound, 45, 300)).bound == pytest.approx(82)


def test_segments_are_to_scale_and_follow_each_other() -> None:
    line = load_line(load(1000, 100, 300, 600))
    assert [bar.width for bar in line.bars] == pytest.approx([8.2, 24.6, 49.2])
    assert [bar.start for bar in line.bars] == pytest.approx([0, 8.2, 32.8])
    assert line.over == 0


def test_what_goes_over_is_as_wide_as_it_is_large() -> None:
    line = load_line(load(1000, 1159))
    assert line.over == pytest.approx(82 * 0.159)


def test_a_load_far_over_stays_inside_the_width() -> None:
    line = load_line(load(1000, 2000))
    assert line.end == pytest.approx(100)
    assert line.bound == pytest.approx(50)


def test_narrow_segments_have_no_letters() -> None:
    line = load_line(load(1000, 50, 500))
    assert [bar.lettered for bar in line.bars] == [False, True]


def test_nothing_to_carry_and_nothing_carried() -> None:
    assert load_line(load(0)).end == 0
    assert load_line(load(0, 100)).over == pytest.approx(100)
