"""What flows through the supplies of each build at a load."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from baywright.sizing.equation import Floats
from baywright.sizing.power.bays import Bays, Model
from baywright.sizing.power.efficiency import below_curve, efficiency_estimated
from baywright.sizing.power.intake import apparent_power, current, input_power
from baywright.sizing.power.sharing import load_of_each


@dataclass(frozen=True, slots=True)
class Flow:
    """What all supplies of each build take in.

    Args:
        share: load of the weakest as a share of its rating [1].
        watts: power taken in [W].
        apparent: apparent power [VA].
        estimated: whether a load lies below the lowest point of a curve, so that the efficiency
            of that point was taken.
    """

    share: Floats
    watts: Floats
    apparent: Floats
    estimated: bool


def flow(bays: Bays, load: Floats) -> Flow:
    """Return what all supplies take in while they share a load.

    Args:
        bays: the supplies.
        load: DC draw [W].
    """
    each = load_of_each(load, bays.count)
    taken = [_intake(model, each) for model in bays.models]
    apparent = [apparent_power(w, m.factor) for w, m in zip(taken, bays.models, strict=True)]
    estimated = any(
        below_curve(np.where(model.counts > 0, _share(each, model.rating), 1.0), model.curve)
        for model in bays.models
        if model.curve
    )
    weakest = _share(each, bays.rating)
    return Flow(weakest, bays.total(taken), bays.total(apparent), estimated)


def apparent_of_one(bays: Bays, load: Floats, active: Floats) -> Floats:
    """Return the apparent power of one of the supplies that share a load [VA].

    Of a mixture, the one that takes most.

    Args:
        bays: the supplies.
        load: DC draw [W].
        active: number of supplies that share it.
    """
    each = load_of_each(load, active)
    return bays.of_strongest(
        apparent_power(_intake(model, each), model.factor) for model in bays.models
    )


def current_of_one(bays: Bays, load: Floats, active: Floats, volts: Floats | None) -> Floats:
    """Return the current of one of the supplies that share a load [A]; see ``apparent_of_one``."""
    return current(apparent_of_one(bays, load, active), np.nan if volts is None else volts)


def _intake(model: Model, each: Floats) -> Floats:
    if model.curve is None:
        return np.full(np.shape(each), np.nan)
    share = _share(each, model.rating)
    return input_power(each, efficiency_estimated(share, model.curve))


def _share(each: Floats, rating: Floats) -> Floats:
    rated = np.greater(np.nan_to_num(rating), 0)
    return np.where(rated, np.divide(each, np.where(rated, rating, 1.0)), np.nan)
