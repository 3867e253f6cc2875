"""Steps in words, one sentence for each thing that is done."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from baywright.answers.figures import amount
from baywright.answers.verdicts import Witness
from baywright.answers.wording import Names
from baywright.desk.upgrade.steps import Act, Step
from baywright.laws.controllers import UNCABLED
from baywright.laws.machine import Machine


def minutes(seconds: Fraction) -> str:
    """Return a time in whole minutes, rounded up.

    >>> minutes(Fraction(61))
    '2 min'
    """
    return f"{-int(-seconds // 60)} min"


def acts_in_words(machine: Machine, step: Step) -> Iterator[str]:
    """Yield what is done in a step, one sentence each."""
    names = Names(machine.book)
    for act in step.acts:
        yield _act(act, names)


def _act(act: Act, names: Names) -> str:
    what = f"{act.count} × {names.part(act.part)}"
    place = names.place(act.place)
    match act.verb:
        case "add":
            return f"Fit {what}: {place}."
        case "move" if act.source.startswith("step "):
            return f"Fit {what}, taken out in {act.source}: {place}."
        case "move":
            return f"Move {what} from {names.place(act.source)} to {place}."
        case "remove":
            then = "left over" if act.spare else "kept for a later step"
            return f"Take out {what}, {then}: {place}."
        case "cable" if act.value == UNCABLED.label:
            return f"Take off the cable of {place}."
        case "cable":
            return f"Cable {place} to the controller in {names.place(act.value)}."
        case "set":
            return f"Set {place}: {names.label(act.place, act.value)}."


def supplies_in_words(build: Witness) -> str:
    """Return the load of a build against what its supplies carry when redundant."""
    figures = {figure.name: figure for figure in build.figures}
    load, carried = figures.get("load"), figures.get("supplies_carry_redundant")
    if load is None or carried is None:
        return "its load is not known"
    drawn = amount(load.value, load.dimension)
    bound = amount(carried.value, carried.dimension, "down")
    if load.value <= carried.value:
        return f"it draws {drawn} at peak, redundant up to {bound}"
    if not carried.value:
        return f"it draws {drawn} at peak, and its supplies are not redundant"
    return f"it draws {drawn} at peak, more than the {bound} that are redundant"
