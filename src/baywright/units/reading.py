"""Reading an amount a person wrote."""

from __future__ import annotations

import re
from fractions import Fraction

from baywright.units.errors import UnitError
from baywright.units.lookup import dimension_named, find
from baywright.units.quantity import Quantity, wrong_dimension

MOST_DIGITS = 30
"""Digits a number may have; more is a slip or an attack."""

_MOST_CHARACTERS = 80
_AMOUNT = re.compile(
    r"\s*(?P<sign>[+\-\N{MINUS SIGN}]?)\s*(?P<number>[0-9][0-9,.]*)\s*(?P<unit>[^0-9\s,.].*?)?\s*"
)
_NUMBER = re.compile(r"(?:[0-9]+|[0-9]{1,3}(?:,[0-9]{3})+)(?:\.[0-9]+)?")


def parse(text: str, dimension: str | None = None) -> Quantity:
    """Read an amount such as ``1300 W``, ``1,300 W``, ``2.5 in`` or ``-10 K``.

    Args:
        text: a number, with a point for decimals and commas between thousands, and a unit.
        dimension: name of the dimension wanted; without it any known unit will do, and ``GB``
            means the capacity of a drive.

    Raises:
        UnitError: kinds ``not-a-number``, ``no-unit``, ``unknown-unit``, ``wrong-dimension``.
    """
    match = _AMOUNT.fullmatch(text) if len(text) <= _MOST_CHARACTERS else None
    if match is None:
        raise _not_a_number(text, dimension)
    magnitude = read_number(match["number"])
    if match["unit"] is None:
        raise UnitError("no-unit", f"{text.strip()!r} has no unit.", _such_as(dimension))
    entry, unit = find(match["unit"], dimension)
    if dimension and entry.name != dimension:
        raise wrong_dimension(text.strip(), entry.name, dimension)
    return Quantity(
        magnitude if match["sign"] in ("", "+") else -magnitude, unit.spelling, entry.name
    )


def read_number(text: str) -> Fraction:
    """Read digits, with a point for decimals and commas between thousands.

    Raises:
        UnitError: kind ``not-a-number``.
    """
    if not _NUMBER.fullmatch(text):
        raise UnitError(
            "not-a-number",
            f"{_short(text)} is not a number.",
            "Write a point before decimals and commas only between thousands, such as 1,300.5.",
        )
    if sum(map(str.isdigit, text)) > MOST_DIGITS:
        raise UnitError(
            "not-a-number",
            f"A number has at most {MOST_DIGITS} digits.",
            "Write it in a larger unit.",
        )
    return Fraction(text.replace(",", ""))


def _not_a_number(text: str, wanted: str | None) -> UnitError:
    message = f"{_short(text.strip())} does not start with a number."
    if re.match(r"\s*[+-]?\s*[0-9]", text):
        message = f"{_short(text.strip())} is not one number and one unit."
    return UnitError("not-a-number", message, _such_as(wanted))


def _such_as(wanted: str | None) -> str:
    entry = dimension_named(wanted or "power")
    return f"Write {entry.phrase if wanted else 'a number and a unit'}, such as '{entry.example}'."


def _short(text: str) -> str:
    return repr(text if len(text) <= 40 else text[:37] + "...")
