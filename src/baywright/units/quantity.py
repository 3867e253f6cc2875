"""An exact amount of one dimension."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from baywright.units.conversion import scale
from baywright.units.errors import UnitError
from baywright.units.lookup import dimension_named, find
from baywright.units.printing import plain_number


@dataclass(frozen=True, slots=True, eq=False)
class Quantity:
    """An exact amount with its unit.

    Amounts of one dimension compare by their exact size, whatever their units: ``1 kW`` equals
    ``1000 W``. Amounts of different dimensions are never equal and cannot be ordered.

    Args:
        magnitude: the number, in ``unit``.
        unit: spelling of the unit; an alias is replaced by the package's own spelling.
        dimension: name of the dimension; needed only where units share a spelling, as ``GB`` of
            ``memory`` does with ``GB`` of ``capacity``, which is the default.

    Raises:
        UnitError: when the unit is unknown or not one of the dimension.
    """

    magnitude: Fraction
    unit: str
    dimension: str = ""

    def __post_init__(self) -> None:
        entry, unit = find(self.unit, self.dimension or None)
        if self.dimension and entry.name != self.dimension:
            raise wrong_dimension(f"{self.magnitude} {self.unit}", entry.name, self.dimension)
        object.__setattr__(self, "magnitude", Fraction(self.magnitude))
        object.__setattr__(self, "unit", unit.spelling)
        object.__setattr__(self, "dimension", entry.name)

    @property
    def canonical(self) -> Fraction:
        """The number in the canonical unit of the dimension."""
        factor, offset = scale(self.unit, self.dimension)
        return self.magnitude * factor + offset

    def to(self, unit: str) -> Fraction:
        """Return the exact number in another unit of the dimension.

        Raises:
            UnitError: when the unit is unknown or of another dimension.
        """
        entry, _ = find(unit, self.dimension)
        if entry.name != self.dimension:
            raise wrong_dimension(str(self), self.dimension, entry.name)
        factor, offset = scale(unit, self.dimension)
        return (self.canonical - offset) / factor

    def ceil(self, unit: str) -> int:
        """Return the number in that unit, rounded up to a whole one."""
        return math.ceil(self.to(unit))

    def floor(self, unit: str) -> int:
        """Return the number in that unit, rounded down to a whole one."""
        return math.floor(self.to(unit))

    def __str__(self) -> str:
        return f"{plain_number(self.magnitude)} {self.unit}"

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        if self.unit == other.unit and self.dimension == other.dimension:
            return self.magnitude == other.magnitude
        return self.dimension == other.dimension and self.canonical == other.canonical

    def __hash__(self) -> int:
        return hash((self.dimension, self.canonical))

    def __lt__(self, other: Quantity) -> bool:
        return self.canonical < self._comparable(other)

    def __le__(self, other: Quantity) -> bool:
        return self.canonical <= self._comparable(other)

    def __gt__(self, other: Quantity) -> bool:
        return self.canonical > self._comparable(other)

    def __ge__(self, other: Quantity) -> bool:
        return self.canonical >= self._comparable(other)

    def __neg__(self) -> Quantity:
        return Quantity(-self.magnitude, self.unit, self.dimension)

    def __mul__(self, factor: Fraction | int) -> Quantity:
        """Multiply by a plain number; a temperature has no multiples."""
        if product_dimension(self.dimension) is None:
            raise UnitError("wrong-dimension", f"'{self}' is a temperature: it has no multiples.")
        return Quantity(self.magnitude * factor, self.unit, self.dimension)

    __rmul__ = __mul__

    def __add__(self, other: Quantity) -> Quantity:
        """Add an amount of the same dimension, or a difference to a temperature."""
        return self._combined(other, 1)

    def __sub__(self, other: Quantity) -> Quantity:
        """Take away an amount of the same dimension, or a difference from a temperature."""
        return self._combined(other, -1)

    def _combined(self, other: Quantity, sign: int) -> Quantity:
        name = sum_dimension(self.dimension, other.dimension, subtract=sign < 0)
        if name is None:
            verb = "taken from" if sign < 0 else "added to"
            raise UnitError("wrong-dimension", f"'{other}' cannot be {verb} '{self}'.")
        total = self.canonical + sign * other.canonical
        unit = self.unit if name == self.dimension else dimension_named(name).canonical
        factor, offset = scale(unit, name)
        return Quantity((total - offset) / factor, unit, name)

    def _comparable(self, other: Quantity) -> Fraction:
        if other.dimension != self.dimension:
            raise wrong_dimension(str(other), other.dimension, self.dimension)
        return other.canonical


def sum_dimension(left: str, right: str, *, subtract: bool) -> str | None:
    """Return the dimension of a sum or a difference of amounts, or ``None`` when it has none.

    Args:
        left: name of the dimension of the first amount.
        right: name of the dimension of the second.
        subtract: whether the second is taken away.
    """
    if (left, right) == ("temperature", "temperature"):
        return "temperature_difference" if subtract else None
    if (left, right) == ("temperature", "temperature_difference"):
        return left
    if (left, right) == ("temperature_difference", "temperature") and not subtract:
        return right
    return left if left == right else None


def product_dimension(name: str) -> str | None:
    """Return the dimension of an amount times a plain number, or ``None`` when it has none."""
    return None if name == "temperature" else name


def wrong_dimension(written: str, found: str, wanted: str) -> UnitError:
    """Return the error for an amount of one dimension where another is wanted."""
    target = dimension_named(wanted)
    return UnitError(
        "wrong-dimension",
        f"'{written}' is {dimension_named(found).phrase}; {target.phrase} is wanted, "
        f"such as '{target.example}'.",
    )
