"""Totals against their bounds, in words."""

from __future__ import annotations

from fractions import Fraction

from baywright.answers.figures import amount, rounded
from baywright.answers.verdicts import Tally
from baywright.answers.wording.names import Names

_SMALL = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")

_COUNTED = {
    "lanes": "lanes",
    "controllers.connectors": "connectors",
    "controllers.drives_most": "drives",
}
"""What the plain numbers of a law count, by its subsystem or its key before the place."""

_MEASURED = {"power": "the peak draw", "mass": "the mass", "memory": "the memory"}


def small(number: int) -> str:
    """Return a small number as a word, a larger one in digits."""
    return _SMALL[number] if number < len(_SMALL) else str(number)


def against(used: Fraction, given: Fraction, dimension: str) -> str:
    """Return a load against its bound, with what is left or over.

    The difference is that of the rounded numbers, as a reader would work it out.

    >>> against(Fraction(11581, 10), Fraction(1000), "power")
    '1,159 W against 1,000 W: 159 W over'
    """
    return f"{amount(used, dimension)} against {amount(given, dimension, 'down')}: " + margin(
        used, given, dimension
    )


def margin(used: Fraction, given: Fraction, dimension: str) -> str:
    """Return what is left or over, such as ``7 W left``."""
    left = rounded(given, dimension, "down") - rounded(used, dimension)
    return f"{amount(abs(left), dimension)} {'left' if left >= 0 else 'over'}"


def total_words(key: str, tally: Tally | None, names: Names) -> str:
    """Return the numbers of a reason in words, or nothing where they would not help.

    They are told where places of the machine share a total that goes over its bound. Numbers
    of a wish alone say how far one build is from it, which nearest builds say better.

    Args:
        key: identity of the reason.
        tally: its numbers.
        names: what the book calls things; other shares are helpers of the encoding.
    """
    if tally is None or tally.used <= tally.given:
        return ""
    places = {name for name, _ in tally.shares} - {"base"}
    return _over(key, tally) if places and places <= set(names.book.places) else ""


def _over(key: str, tally: Tally) -> str:
    compared = against(tally.used, tally.given, tally.dimension)
    if tally.dimension:
        is_price = tally.dimension.startswith("money:")
        measured = "the price" if is_price else _MEASURED.get(tally.dimension, "the total")
        return f"Here {measured} is {compared}."
    family = key.partition("/")[0]
    counted = _COUNTED.get(family) or _COUNTED.get(family.partition(".")[0], "")
    used, rest = compared.split(" ", 1)
    return f"Here {used} {counted} are used {rest}.".replace("  ", " ")
