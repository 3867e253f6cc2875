"""What phrases stand for: things that are counted or measured, and conditions on a build."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

Sort = Literal["parts", "number", "port", "feature", "field"]
"""Parts and numbers of a build have expressions; features and fields are facts of the book."""


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that is counted or measured.

    Args:
        sort: what sort of thing.
        name: kind of part, name of a number, type of port, feature or field.
        one: what one is called.
        many: what several are called.
        part: id of the part, where it is one.
        filters: conditions on the fields of the parts, as expressions write them.
        at: places it is looked for in; everywhere when empty.
        sides: sides of the machine for ports; all of them when empty.
        dimension: dimension of a number or field, or empty for plain numbers.
        generation: generation that is claimed of it.
        rate: number and unit of a speed that is claimed of it.
        absent: whether the book has no such part at all.
        slip: whether it has one whose number is the same in another unit.
    """

    sort: Sort
    name: str
    one: str
    many: str
    part: str = ""
    filters: tuple[str, ...] = ()
    at: tuple[str, ...] = ()
    sides: tuple[str, ...] = ()
    dimension: str = ""
    generation: str = ""
    rate: tuple[Fraction, str] | None = None
    absent: bool = False
    slip: bool = False

    @property
    def expression(self) -> str:
        """Return how the language of questions writes the number; empty where it cannot."""
        if self.sort == "number":
            return self.name
        if self.sort == "port":
            return " + ".join(
                f'ports("{self.name}"{_at(side, quoted=True)})' for side in self.sides or ("",)
            )
        if self.sort == "parts":
            return " + ".join(self._count(place) for place in self.at or ("",))
        return ""

    def _count(self, place: str) -> str:
        if not place and not self.part and not self.filters and self.name in _NUMBERS:
            return _NUMBERS[self.name]
        selected = f'"{self.part}"' if self.part else self.name
        return f"count({', '.join([selected, *self.filters])}{_at(place)})"

    def placed(self, places: tuple[str, ...]) -> Thing:
        """Return the same in some places."""
        return replace(self, at=places)


_NUMBERS = {"processor": "processors", "fan": "fans"}


def _at(place: str, *, quoted: bool = False) -> str:
    if not place:
        return ""
    return f', at="{place}"' if quoted else f", at={place}"


@dataclass(frozen=True, slots=True)
class Measure:
    """A thing with the number that is claimed of it.

    Args:
        thing: the thing.
        op: how it compares: ``==``, ``<=``, ``>=``, ``>``, ``<``, ``up`` for up to, ``~`` for
            about, ``most`` or ``least`` for the extreme itself, or empty where none is written.
        values: the numbers; several are alternatives.
        unit: their unit, or empty for plain numbers.
        quant: every, both, no or only; empty without one.
        plural: whether the thing was named in the plural.
    """

    thing: Thing
    op: str = ""
    values: tuple[Fraction, ...] = ()
    unit: str = ""
    quant: str = ""
    plural: bool = False

    def expression(self, value: Fraction | None, op: str = "") -> str:
        """Return the comparison as the language of questions writes it."""
        used = op or {"up": "==", "": "==" if value is not None else ">="}.get(self.op, self.op)
        number = Fraction(1) if value is None else value
        return f"{self.thing.expression} {used} {written(number, self.unit)}"

    @property
    def alternatives(self) -> tuple[str, ...]:
        """Return the comparison with each number that is claimed."""
        if self.quant == "no":
            return (self.expression(Fraction(0), "=="),)
        return tuple(self.expression(value) for value in self.values or (None,))


def written(value: Fraction, unit: str) -> str:
    """Return an amount as expressions write it.

    >>> written(Fraction(5, 2), "kW"), written(Fraction(24), "")
    ('2.5 kW', '24')
    """
    number = str(value.numerator) if value.denominator == 1 else f"{float(value):g}"
    return f"{number} {unit}".rstrip()


@dataclass(frozen=True, slots=True)
class Condition:
    """A condition on a build, on the site or on the day.

    Args:
        expression: as the language of questions writes it; empty for site and day.
        said: in words, as ``with two processors``.
        altitude: number and unit of the altitude.
        inlet: number and unit of the inlet temperature.
        only: whether the claim is that it holds only then.
        per: per what a number is claimed: processor, channel or zone.
        state: idle, full speed, empty or loaded, for noise and weight.
    """

    expression: str = ""
    said: str = ""
    altitude: str = ""
    inlet: str = ""
    only: bool = False
    per: str = ""
    state: str = ""
