"""Contrast by the formula of WCAG 2.2: https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio.

The formula is written out here as the recommendation has it; the thresholds are those of success
criteria 1.4.3 (text, 4.5:1) and 1.4.11 (graphics, 3:1). From memory, not fetched again.
"""

from __future__ import annotations

import re

import pytest

from baywright.drawing import pen, svg
from baywright.drawing.palette import DARK, LIGHT, PRINT, Palette, coloured

TEXTS = ("ink", "ink2", "ink3", "pen")
GRAPHICS = ("ink", "ink2", "ink3", "edge", "pen", "solid")


def _luminance(colour: str) -> float:
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (
        share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    high, low = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_its_ends() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#777777") == pytest.approx(1.0)


@pytest.mark.parametrize("palette", [LIGHT, DARK, PRINT])
def test_text_and_lines_stand_out_from_every_ground(palette: Palette) -> None:
    for ground in ("sheet", "fill"):
        for ink in TEXTS:
            assert contrast(palette[ink], palette[ground]) >= 4.5, (ink, ground)
        for ink in GRAPHICS:
            assert contrast(palette[ink], palette[ground]) >= 3.0, (ink, ground)
    assert contrast(palette["sheet"], palette["solid"]) >= 4.5


@pytest.mark.parametrize("palette", [LIGHT, DARK, PRINT])
def test_letters_stand_out_from_the_grid_below_them(palette: Palette) -> None:
    for ink in ("ink", "ink2"):
        assert contrast(palette[ink], palette["grid5"]) >= 4.5


def test_ink_has_no_hue_that_could_mean_something() -> None:
    """Only the pen has a colour; all else is nearly grey, so that nothing is lost in grey."""
    for palette in (LIGHT, DARK, PRINT):
        for name, colour in palette.items():
            channels = [int(colour[i : i + 2], 16) for i in (1, 3, 5)]
            assert name == "pen" or max(channels) - min(channels) <= 20, name


def test_every_colour_in_use_is_one_of_the_palette() -> None:
    used = set(re.findall(r"var\(--([a-z0-9]+)\)", pen.CLASSES + svg.CLASSES))
    assert used <= set(LIGHT)
    assert set(LIGHT) == set(DARK) == set(PRINT)


@pytest.mark.parametrize("palette", [LIGHT, DARK, PRINT])
def test_a_coloured_drawing_has_no_variables_left(palette: Palette) -> None:
    drawing = svg.document((10.0, 10.0), "a", "b", [], pen.CLASSES)
    plain = coloured(drawing, palette)
    assert "var(" not in plain
    assert "@media" not in plain
    assert "--" not in plain.split("</style>")[0].split("<style>")[1]
    assert palette["ink"] in plain
