"""Finding units and dimensions by name, currencies included."""

from __future__ import annotations

import re
from functools import cache

from baywright.problems import nearest
from baywright.units.dimensions import DIMENSIONS, Dimension, Unit
from baywright.units.errors import UnitError

_CURRENCY_CODE = re.compile(r"[A-Z]{3}")
_MONEY = "money:"


def money(code: str) -> str:
    """Return the name of the dimension of amounts in a currency, given its three-letter code."""
    if not _CURRENCY_CODE.fullmatch(code):
        raise UnitError(
            "unknown-unit", f"{code!r} is not a currency code.", "Write three capital letters."
        )
    return _MONEY + code


@cache
def dimension_named(name: str) -> Dimension:
    """Return the dimension of that name, ``money:XXX`` included.

    Raises:
        KeyError: when there is none.
    """
    code = name.removeprefix(_MONEY)
    if name.startswith(_MONEY) and _CURRENCY_CODE.fullmatch(code):
        return Dimension(name, f"an amount of {code}", f"100 {code}", (Unit(code, "1"),))
    return DIMENSIONS[name]


@cache
def dimension_of(spelling: str) -> str | None:
    """Return the name of the dimension a unit belongs to, or ``None`` for an unknown unit.

    A spelling shared by two dimensions belongs to the earlier: ``GB`` is a capacity. Three
    capital letters are a currency, unless they are a known unit in the wrong case.
    """
    for entry in DIMENSIONS.values():
        if entry.unit(spelling):
            return entry.name
    if _CURRENCY_CODE.fullmatch(spelling) and not _in_other_case(spelling):
        return money(spelling)
    return None


@cache
def spellings() -> tuple[str, ...]:
    """Return every accepted spelling of every unit but the currencies, each once."""
    found = dict.fromkeys(
        spelling
        for entry in DIMENSIONS.values()
        for unit in entry.units
        for spelling in unit.spellings
    )
    return tuple(found)


def find(spelling: str, wanted: str | None = None) -> tuple[Dimension, Unit]:
    """Return the unit of that spelling and its dimension, looked for in the wanted one first.

    Raises:
        UnitError: kind ``unknown-unit``, with the nearest spelling.
    """
    for name in (wanted, dimension_of(spelling)):
        entry = dimension_named(name) if name else None
        unit = entry.unit(spelling) if entry else None
        if entry and unit:
            return entry, unit
    raise UnitError("unknown-unit", f"{spelling!r} is not a known unit.", _unit_hint(spelling))


def _in_other_case(spelling: str) -> list[str]:
    return [known for known in spellings() if known.casefold() == spelling.casefold()]


def _unit_hint(spelling: str) -> str:
    if spelling.casefold() in {"month", "months"}:
        return "A month has no fixed length: write days, weeks or years."
    same = _in_other_case(spelling)
    if len(same) > 1 and "b" in spelling.casefold():
        names = " and ".join(repr(known) for known in same)
        return f"Capitals matter: {names} differ by eight, bits and bytes."
    close = same[0] if same else nearest(spelling, spellings())
    return f"Did you mean {close!r}?" if close else ""
