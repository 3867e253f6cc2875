"""Load lines: what a build draws, subsystem by subsystem, against what its supplies may carry."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from baywright.answers.figures import amount
from baywright.answers.tallies import tally
from baywright.answers.verdicts import Tally, Witness
from baywright.answers.wording.builds import figure_named
from baywright.answers.wording.names import Names, Section
from baywright.answers.wording.numbers import against, margin
from baywright.answers.wording.sheet import Load, Segment
from baywright.laws.formula import AtMost
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.wording import listed

_SEGMENTS = {
    Section.FANS: "fans",
    Section.NETWORK: "network",
    Section.SLOTS: "cards",
    Section.MEMORY: "memory",
    Section.PROCESSORS: "processors",
    Section.DRIVES: "drives",
}
_ORDER = ("base", *_SEGMENTS.values(), "other")
"""Segments of a load line in their order."""


def load_of_build(machine: Machine, witness: Witness, *, redundant: bool) -> Load | None:
    """Return the load line of a build, or ``None`` when it is not of this machine's numbers.

    Args:
        machine: the machine of the build.
        witness: the build.
        redundant: whether the supplies have to stay up after the loss they are made for.
    """
    drawn = machine.names["load"].meaning
    name = "supplies_carry_redundant" if redundant else "supplies_carry"
    load, carried = figure_named(witness, "load"), figure_named(witness, name)
    if not isinstance(drawn, Linear) or load is None or carried is None:
        return None
    shares = tally(machine, [AtMost(drawn, Fraction(0))], witness.values)
    # Under another value of an unknown fact the build draws something else; then nothing is drawn.
    if shares is None or shares.used != load.value:
        return None
    words = f"{_supplies(machine, witness)}{', redundant' if redundant else ', together'}"
    return _load(Names(machine.book), shares.shares, carried.value, words)


def load_of_reason(machine: Machine, tallied: Tally, witness: Witness) -> Load:
    """Return the load line of a reason that bounds the peak draw."""
    words = _supplies(machine, witness)
    return _load(Names(machine.book), tallied.shares, tallied.given, words)


def _load(
    names: Names, shares: Iterable[tuple[str, Fraction]], bound: Fraction, words: str
) -> Load:
    segments = _segments(names, dict(shares))
    used = sum((segment.amount for segment in segments), Fraction(0))
    return Load(
        "Peak draw, W DC",
        segments,
        bound,
        f"{words}: {amount(bound, 'power', 'down')}",
        f"The peak draw is {against(used, bound, 'power')}.",
        margin(used, bound, "power"),
    )


def _segments(names: Names, shares: dict[str, Fraction]) -> tuple[Segment, ...]:
    amounts: dict[str, Fraction] = {}
    for place, share in shares.items():
        label = "base" if place == "base" else _SEGMENTS.get(names.section(place), "other")
        amounts[label] = amounts.get(label, Fraction(0)) + share
    return tuple(Segment(label, amounts[label]) for label in _ORDER if label in amounts)


def _supplies(machine: Machine, witness: Witness) -> str:
    """Return the supplies of a build and the line they are on."""
    names = Names(machine.book)
    fitted = [
        names.label(line.choice, line.label)
        for line in witness.lines
        if names.section(line.place) is Section.SUPPLIES
    ]
    on = [line.label for line in witness.lines if line.choice == "line"]
    return f"{listed(fitted)} on {listed(on)}" if on else listed(fitted)
