"""Verdicts as canonical values and as words: what is compared, and what is read."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from baywright.answers.verdicts import (
    Bound,
    Count,
    Figure,
    No,
    Reason,
    Stopped,
    Together,
    Undecided,
    Verdict,
    Witness,
    Yes,
)
from baywright.answers.wording import told
from baywright.laws.machine import Machine
from baywright.laws.wording import capitalised


def value_of(verdict: Verdict) -> dict[str, Any]:
    """Return what of a verdict has to be equal for two statements to agree.

    The key ``is`` names its type. Engines, times, and which build of many is shown are left out.
    """
    match verdict:
        case Yes():
            return {"is": "always" if verdict.always else "yes"}
        case No():
            return {"is": "not always" if verdict.counterexample is not None else "no"}
        case Bound():
            then = [[_side(most=each.most), exact(each.figure.value)] for each in verdict.then]
            value = {"is": _side(most=verdict.most), "value": exact(verdict.figure.value)}
            return {**value, "of": verdict.figure.dimension, "then": then}
        case Count():
            rows = sorted(list(row) for row in verdict.rows)
            return {"is": "list", "over": list(verdict.over), "rows": rows}
        case Together():
            kept = sorted(list(each) for each, _ in verdict.largest)
            return {"is": "not together", "largest": kept}
        case Undecided():
            outcomes = [[list(values), value_of(each)] for values, each in verdict.outcomes]
            facts = [fact.path for fact in verdict.facts]
            return {"is": "undecided", "facts": facts, "outcomes": outcomes}
        case Stopped():
            return {"is": "stopped"}


def _side(*, most: bool) -> str:
    return "most" if most else "least"


def exact(value: Fraction) -> str:
    """Return an exact number as a text, such as ``24`` or ``5018/3``."""
    return str(value)


def figure_of(value: Mapping[str, Any], words: str = "") -> Figure:
    """Return the number of the value of a bound, as a figure with its dimension."""
    return Figure(words, words, Fraction(value["value"]), value["of"])


def words_of(verdict: Verdict, machine: Machine, reading: str) -> str:
    """Return a verdict as one sentence that stands by itself."""
    match verdict:
        case Yes() if verdict.always:
            return f"{capitalised(reading)}: yes, every legal build has it."
        case Yes():
            return f"{capitalised(reading)}: yes, a legal build has it."
        case No() if not verdict.reasons and verdict.counterexample is None:
            return f"{capitalised(reading)}: no, no legal build has it."
        case No():
            return f"{capitalised(reading)}: no. {told(verdict, machine).sentence}"
        case Bound():
            return told(verdict, machine).sentence
        case _:
            return f"{capitalised(reading)}: {told(verdict, machine).sentence}"


def witness_of(verdict: Verdict) -> Witness | None:
    """Return the build that a verdict shows as legal, if it shows one."""
    match verdict:
        case Yes() | Bound():
            return verdict.witness
        case No():
            return verdict.counterexample
        case Together():
            return verdict.largest[0][1] if verdict.largest else None
        case _:
            return None


def reasons_of(verdict: Verdict) -> tuple[Reason, ...]:
    """Return the minimal reasons of a verdict; none where nothing is refused."""
    match verdict:
        case Yes():
            return verdict.always
        case No() | Bound() | Together():
            return verdict.reasons
        case _:
            return ()


def labelled(machine: Machine, witness: Witness) -> dict[str, str]:
    """Return a whole build as labels by choice, so that it can be read against another book."""
    choices = machine.space.choices
    return {choice.name: choice.values[witness.values[choice.name]] for choice in choices}
