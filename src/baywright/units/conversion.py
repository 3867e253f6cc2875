"""Exact sizes of units. The only module that uses pint."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import NamedTuple

import pint

from baywright.units.lookup import dimension_named, find


class Scale(NamedTuple):
    """How a unit relates to the canonical unit: canonical = factor × amount + offset."""

    factor: Fraction
    offset: Fraction


@cache
def scale(spelling: str, name: str) -> Scale:
    """Return the scale of a unit of a dimension; exact.

    Args:
        spelling: a unit or alias of that dimension.
        name: name of the dimension.

    Raises:
        UnitError: when there is no such unit.
    """
    _, unit = find(spelling, name)
    canonical = dimension_named(name).units[0]
    if unit is canonical:
        return Scale(Fraction(1), Fraction(0))
    zero = _convert(Fraction(0), unit.definition, canonical.definition)
    one = _convert(Fraction(1), unit.definition, canonical.definition)
    return Scale(one - zero, zero)


def _convert(amount: Fraction, source: str, target: str) -> Fraction:
    """Convert between two definitions; pint raises when their physical kinds differ."""
    return Fraction(_registry().convert(amount, source, target))


@cache
def _registry() -> pint.UnitRegistry[Fraction]:
    text = files(__package__).joinpath("definitions.txt").read_text(encoding="utf-8")
    registry = pint.UnitRegistry[Fraction](None, non_int_type=Fraction)
    registry.load_definitions(text.splitlines())
    return registry
