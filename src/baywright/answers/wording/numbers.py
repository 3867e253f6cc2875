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

    Args:
        key: identity of the reason.
        tally: its numbers.
        names: what the book calls things; shares that are no places of it are helpers of the
            encoding, whose numbers mean nothing to people.
    """
    if tally is None or tally.used <= tally.given:
        return ""
    places = {name for name, _ in tally.shares}
    if places == {"base"}:
        short = amount(tally.used - tally.given, tally.dimension)
        asked, reached = amount(tally.used, tally.dimension), amount(tally.given, tally.dimension)
        return f"Asked for {asked}, and {reached} can be reached with the rest: {short} short."
    if not places <= {"base", *names.book.places}:
        return ""
    return _over(key, tally)


def _over(key: str, tally: Tally) -> str:
    compared = against(tally.used, tally.given, tally.dimension)
    if tally.dimension:
        measured = _MEASURED.get(tally.dimension, "the total")
        if tally.dimension.startswith("money:"):
            measured = "the price"
        return f"Here {measured} is {compared}."
    family = key.partition("/")[0]
    counted = _COUNTED.get(family) or _COUNTED.get(family.partition(".")[0])
    return f"Here {counted} come to {compared}." if counted else f"Here it comes to {compared}."
