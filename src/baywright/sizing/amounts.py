"""Facts as plain numbers: not-a-number while nobody has stated them."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np

from baywright.facts.fact import Fact
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.units import Quantity


def amount(fact: Fact[Quantity] | None, unit: str) -> float:
    """Return the number of a fact in a unit, not-a-number where it is missing or unknown."""
    return math.nan if fact is None or fact.value is None else float(fact.value.to(unit))


def ratio(fact: Fact[Fraction] | None) -> float:
    """Return a share as a number, not-a-number where it is missing or unknown."""
    return math.nan if fact is None or fact.value is None else float(fact.value)


def shown(values: Floats | None, unit: str) -> str:
    """Write a number with its unit, or the range of several that are decided.

    >>> shown(230.0, "V"), shown(np.array([100.0, 240.0]), "V"), shown(None, "V")
    ('230 V', '100 to 240 V', 'V not stated')
    """
    if values is None:
        return f"{unit} not stated"
    decided = np.asarray(values)[~np.isnan(values)]
    if not decided.size:
        return "not decided"
    low, high = float(decided.min()), float(decided.max())
    return f"{low:,.6g} {unit}" if low == high else f"{low:,.6g} to {high:,.6g} {unit}"


def undecided(values: Floats, *paths: str) -> tuple[str, ...]:
    """Return what a figure depends on, each once, or nothing where all its numbers are there."""
    return tuple(dict.fromkeys(paths)) if np.isnan(values).any() else ()


def conditions(case: Case, *words: str) -> str:
    """Return what a figure holds for: some words, the voltage and the altitude."""
    around = case.around
    return ", ".join((*words, shown(around.volts, "V"), shown(around.altitude, "m")))
