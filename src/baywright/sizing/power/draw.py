"""What a build draws behind its supplies, DC, in each of its states."""

from __future__ import annotations

import math
from typing import Literal, get_args

import numpy as np

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import Part, Processor
from baywright.sizing.amounts import amount, ratio
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats, equation, within
from baywright.units import Quantity

State = Literal["idle", "typical", "peak"]

STATES: tuple[State, ...] = get_args(State)


@equation(
    "P1",
    "P_dc = P_base + sum(n_i P_i) + P_extra",
    source="conservation of energy; the draws are those of the book",
)
def total_draw(base: Floats, parts: Floats, extra: Floats = 0.0) -> Floats:
    """Return the draw of a machine behind its supplies.

    Args:
        base: draw of the board and all that has no part of its own [W].
        parts: draw of the parts together [W].
        extra: growth to allow for [W].

    Returns:
        DC draw [W].
    """
    return np.add(np.add(base, parts), extra)


@equation(
    "P2",
    "P = TDP / eta_regulator",
    source="definition of efficiency; the regulators of a processor are counted with it",
    valid="efficiencies above 0 and up to 1",
    outside="not decided",
)
def processor_draw(tdp: Floats, conversion: Floats) -> Floats:
    """Return the peak draw of a processor with its regulators.

    Args:
        tdp: thermal design power at its own pins [W].
        conversion: efficiency of the regulators [1].

    Returns:
        DC draw [W].

    >>> round(float(processor_draw(225.0, 0.9)), 6)
    250.0
    """
    usable = np.logical_and(np.greater(conversion, 0), np.less_equal(conversion, 1))
    return within(np.divide(tdp, np.where(usable, conversion, 1.0)), usable)


def draw(case: Case, state: State) -> Floats:
    """Return the DC draw of each build in a state.

    Args:
        case: the builds; what their surroundings add counts at peak.
        state: idle, typical or peak.

    Returns:
        Draw [W]; not-a-number where ``lacking`` names what it depends on.
    """
    each = {name: part_draw(case.book, part, state) for name, part in case.book.parts.items()}
    parts = case.weighed(lambda name, part: each[name])
    extra = case.around.extra if state == "peak" else 0.0
    total = total_draw(amount(_base(case.book, state), "W"), parts, extra)
    # A sum of thirds that is a whole number stays one, so that a load on a bound is within it.
    return np.round(total, 9)


def part_draw(book: Book, part: Part, state: State) -> float:
    """Return the DC draw of one part in a state [W], not-a-number where the book lacks it.

    A part without a peak draw of its own is in the base, whatever the state.
    """
    match part:
        case Processor(power=None) if state == "peak":
            conversion = book.power.processor_conversion
            share = 1.0 if conversion is None else ratio(conversion)
            return float(processor_draw(amount(part.tdp, "W"), share))
        case Processor():
            return amount(_stated(part, state), "W")
        case _:
            return 0.0 if part.power is None else amount(_stated(part, state), "W")


def lacking(case: Case, state: State) -> tuple[str, ...]:
    """Return the paths of the facts that the draw of some build in a state depends on."""
    book = case.book
    name = "base" if state == "peak" else f"base_{state}"
    base = (f"power.{name}",) if math.isnan(amount(_base(book, state), "W")) else ()
    field = "power" if state == "peak" else state
    parts = tuple(
        f"parts.{name}.{field}"
        for name in case.fitted
        if math.isnan(part_draw(book, book.parts[name], state))
    )
    return base + parts


def _stated(part: Part, state: State) -> Fact[Quantity] | None:
    return {"idle": part.idle, "typical": part.typical, "peak": part.power}[state]


def _base(book: Book, state: State) -> Fact[Quantity] | None:
    power = book.power
    return {"idle": power.base_idle, "typical": power.base_typical, "peak": power.base}[state]
