"""What each build takes in from the line in a state, with all that it depends on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from baywright.sizing.amounts import shown
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Input
from baywright.sizing.power.bays import Bays, bays_of
from baywright.sizing.power.draw import State, draw, lacking
from baywright.sizing.power.flow import flow


@dataclass(frozen=True, slots=True)
class Intake:
    """Power taken in from the line.

    Args:
        bays: the supplies.
        load: DC draw behind them [W].
        watts: power at the inlets [W].
        inputs: what it was computed from.
        missing: what it depends on where it is not decided.
    """

    bays: Bays
    load: Floats
    watts: Floats
    inputs: tuple[Input, ...]
    missing: tuple[str, ...]


def intake_of(case: Case, state: State) -> Intake:
    """Return what each build takes in, all its supplies sharing the load.

    Args:
        case: the builds.
        state: idle, typical or peak.
    """
    bays = bays_of(case)
    load = draw(case, state)
    watts = flow(bays, load).watts
    missing = (*lacking(case, state), *bays.missing, *bays.lacking("efficiency"))
    return Intake(bays, load, watts, (_taken(state, watts),), missing)


def _taken(state: State, watts: Floats) -> Input:
    known = np.ravel(watts)[np.isfinite(np.ravel(watts))]
    text = shown(np.round(known, 1), "W") if known.size else "not decided"
    return Input(f"power taken in, {state}", text)
