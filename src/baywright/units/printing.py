"""Numbers and amounts as a person writes them."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal

Rounding = Literal["up", "down", "nearest"]

_MOST_PLACES = 30
"""Decimals up to which a number that ends is printed in full."""

_ENDLESS_PLACES = 6
"""Decimals of a number that does not end, such as a third."""


def number(value: Fraction | int, places: int | None = None) -> str:
    """Return a number with thousands separators.

    Args:
        value: any exact number.
        places: decimals to round to, half away from zero; by default as many as it has.

    >>> number(1159), number(Fraction(5, 2)), number(Fraction(2, 3), places=2)
    ('1,159', '2.5', '0.67')
    """
    return _decimal(Fraction(value), places, ",")


def plain_number(value: Fraction | int) -> str:
    """Return a number without separators, with as many decimals as it has.

    >>> plain_number(1300), plain_number(Fraction(-5, 2))
    ('1300', '-2.5')
    """
    return _decimal(Fraction(value), None, "")


def show(amount: Fraction | int, unit: str, rounding: Rounding = "nearest", places: int = 0) -> str:
    """Return an amount rounded for a person, such as ``1,159 W``.

    Args:
        amount: number in that unit.
        unit: spelling of the unit, printed as it is.
        rounding: ``up`` towards plus infinity, ``down`` towards minus infinity, or ``nearest``.
        places: decimals kept.

    >>> show(Fraction(11581, 10), "W", "up")
    '1,159 W'
    """
    scaled = Fraction(amount) * 10**places
    return f"{number(Fraction(_rounded(scaled, rounding), 10**places))} {unit}"


def _rounded(value: Fraction, rounding: Rounding) -> int:
    if rounding == "up":
        return math.ceil(value)
    return math.floor(value) if rounding == "down" else _nearest(value)


def _nearest(value: Fraction) -> int:
    """Round half away from zero, as people do."""
    rounded = math.floor(abs(value) + Fraction(1, 2))
    return rounded if value >= 0 else -rounded


def _decimal(value: Fraction, places: int | None, separator: str) -> str:
    kept = places if places is not None else _places_of(value)
    digits = _nearest(abs(value) * 10**kept)
    whole, part = divmod(digits, 10**kept)
    sign = "-" if value < 0 and digits else ""
    grouped = f"{whole:,}".replace(",", separator)
    decimals = f".{part:0{kept}d}" if kept else ""
    return sign + grouped + decimals


def _places_of(value: Fraction) -> int:
    """Return how many decimals print the value exactly, or a few when none do."""
    for places in range(_MOST_PLACES + 1):
        if 10**places % value.denominator == 0:
            return places
    return _ENDLESS_PLACES
