"""Exact amounts with units: reading, comparing, converting and printing them."""

from baywright.units.dimensions import DIMENSIONS, Dimension
from baywright.units.errors import UnitError
from baywright.units.lookup import dimension_of, money
from baywright.units.printing import number, show
from baywright.units.quantity import Quantity
from baywright.units.reading import parse

__all__ = [
    "DIMENSIONS",
    "Dimension",
    "Quantity",
    "UnitError",
    "dimension_of",
    "money",
    "number",
    "parse",
    "show",
]
