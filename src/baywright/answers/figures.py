"""Numbers for people: an amount in a readable unit of its dimension."""

from __future__ import annotations

import math
from fractions import Fraction

from baywright.units import DIMENSIONS, Quantity, number, show
from baywright.units.printing import Rounding

_READABLE = {
    "power": ("W", 0),
    "mass": ("kg", 1),
    "memory": ("GB", 0),
    "capacity": ("TB", 2),
    "transfer_rate": ("MT/s", 0),
    "data_rate": ("Gb/s", 1),
    "length": ("mm", 0),
    "temperature": ("°C", 1),
    "voltage": ("V", 0),
}
"""Unit and decimals in which answers show an amount."""


def amount(value: Fraction, dimension: str, rounding: Rounding = "up") -> str:
    """Return a number as people read it.

    Args:
        value: the number, in the canonical unit of its dimension.
        dimension: the dimension, or empty for a plain number.
        rounding: where a rounded number goes; up is the safe side for what is used.
    """
    if not dimension:
        return number(value, None if value.denominator == 1 else 2)
    if dimension.startswith("money:"):
        return f"{number(value)} {dimension.removeprefix('money:')}"
    shown, unit, places = _shown(value, dimension)
    return show(shown, unit, rounding, places)


def rounded(value: Fraction, dimension: str, rounding: Rounding = "up") -> Fraction:
    """Return the number that ``amount`` shows, in the canonical unit.

    Differences of rounded numbers are shown beside them, so that a reader's own sum agrees.
    """
    if not dimension or dimension.startswith("money:"):
        return value
    shown, unit, places = _shown(value, dimension)
    step = 10**places
    whole = math.ceil(shown * step) if rounding == "up" else math.floor(shown * step)
    return Quantity(Fraction(whole, step), unit, dimension).canonical


def _shown(value: Fraction, dimension: str) -> tuple[Fraction, str, int]:
    """Return the number in the unit it is shown in, the unit, and the decimals kept."""
    held = Quantity(value, DIMENSIONS[dimension].canonical, dimension)
    unit, places = _unit(held)
    shown = held.to(unit)
    return shown, unit, 0 if shown.denominator == 1 else places


def _unit(held: Quantity) -> tuple[str, int]:
    """Memory is said in TB where it is a whole number of them."""
    if held.dimension == "memory" and held.canonical and held.to("TB").denominator == 1:
        return "TB", 0
    return _READABLE.get(held.dimension, (held.unit, 2))
