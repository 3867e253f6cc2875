"""How each type of fact is read from the text a person wrote."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any, TypeAlias

from pydantic_core import PydanticCustomError

from baywright.units import Quantity, parse

Reader: TypeAlias = Callable[[str], Any]

CARD_LENGTHS = {"half": "167.65 mm", "full": "312 mm"}
CARD_HEIGHTS = {"low": "68.9 mm", "full": "111.15 mm"}
"""Card sizes of the PCI Express card electromechanical specification, by their trade names."""

# Exponents have two digits: 1e-999999999 would take for ever to turn into a fraction.
_RATIO = re.compile(
    r"(\d{1,15}(?:\.\d{1,15})?(?:[eE]-\d{1,2})?|\d{1,15}/\d{1,15})\s*(%?)", re.ASCII
)
_WHOLE = re.compile(r"-?(?:\d{1,15}|\d{1,3}(?:,\d{3}){1,4})", re.ASCII)
_TRUTHS = {"yes": True, "true": True, "no": False, "false": False}


def refusal(kind: str, message: str, hint: str = "", at: str = "") -> PydanticCustomError:
    """Return the error with which a reader refuses a value.

    Args:
        kind: documented name of the kind of problem.
        message: what is wrong, one sentence.
        hint: what to do next, one sentence, or empty.
        at: key inside the value where it is wrong, or empty for the value itself.
    """
    return PydanticCustomError(
        kind, "{message} {hint}", {"message": message, "hint": hint, "at": at}
    )


def read_money(text: str) -> Quantity:
    """Read a price such as ``420 FLO``."""
    amount = parse(text)
    if not amount.dimension.startswith("money:"):
        hint = "Write a number and a currency, such as '420 FLO'."
        raise refusal("wrong-dimension", f"{shown(text)} is not a price.", hint)
    return amount


def read_whole(text: str) -> int:
    """Read a whole number, with commas only between thousands.

    >>> read_whole("1,024")
    1024
    """
    digits = text.strip()
    if not _WHOLE.fullmatch(digits):
        hint = "Write digits, such as 8 or 1,024."
        raise refusal("not-a-number", f"{shown(text)} is not a whole number.", hint)
    return int(digits.replace(",", ""))


def read_ratio(text: str) -> Fraction:
    """Read a share between 0 and 1.

    >>> read_ratio("62.5 %")
    Fraction(5, 8)
    >>> read_ratio("1e-3")
    Fraction(1, 1000)
    """
    match = _RATIO.fullmatch(text.strip())
    if match and int(match[1].partition("/")[2] or 1):
        value = Fraction(match[1]) / (100 if match[2] else 1)
        if 0 <= value <= 1:
            return value
    hint = "Write 0.62 or 62 %."
    raise refusal("not-a-ratio", f"{shown(text)} is not a share between 0 and 1.", hint)


def read_factor(text: str) -> Fraction:
    """Read a plain number of zero or more, such as an exponent.

    >>> read_factor("1.2")
    Fraction(6, 5)
    """
    match = _RATIO.fullmatch(text.strip())
    if not match or match[2] or "/" in match[1]:
        hint = "Write digits, such as 1.2."
        raise refusal("not-a-number", f"{shown(text)} is not a plain number.", hint)
    return Fraction(match[1])


def read_date(text: str) -> datetime.date:
    """Read a date such as ``2031-07-01``."""
    try:
        return datetime.date.fromisoformat(text.strip())
    except ValueError as error:
        hint = "Write year, month and day, such as 2031-07-01."
        raise refusal("not-a-date", f"{shown(text)} is not a date.", hint) from error


def read_truth(text: str) -> bool:
    """Read ``yes`` or ``no``; ``true`` and ``false`` will do as well."""
    word = text.strip().casefold()
    if word not in _TRUTHS:
        message = f"{shown(text)} is neither yes nor no."
        raise refusal("not-yes-or-no", message, "Write yes or no.")
    return _TRUTHS[word]


def named_length(names: Mapping[str, str]) -> Reader:
    """Return a reader of lengths that also takes trade names for some of them."""

    def read(text: str) -> Quantity:
        return parse(names.get(text.strip(), text), "length")

    return read


def shown(text: str) -> str:
    """Quote what a person wrote, shortened when it is long.

    >>> shown("8 W")
    "'8 W'"
    """
    return repr(str(text) if len(text) <= 40 else f"{text[:37]}...")
