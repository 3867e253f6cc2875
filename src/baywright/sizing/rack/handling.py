"""Lifting the machine: the user's own bands, and the limit recommended to one person."""

from __future__ import annotations

import math

import numpy as np

from baywright.facts.site import LiftBand
from baywright.sizing.amounts import amount, shown
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Figure, Limit, Listing, Sheet
from baywright.sizing.rack.lifting import lift_band, lifting_index, weight_limit
from baywright.sizing.rack.machine import constant, mass_input
from baywright.sizing.rack.masses import Weighed
from baywright.sizing.rack.stated import stated

_POSTURE = "one person, both hands, one smooth lift"
_BANDS = "site.rack.lift_bands"
_ASKED = (
    ("horizontal", "m", "hands in front of the ankles"),
    ("vertical", "m", "height of the hands"),
    ("travel", "m", "way up or down"),
    ("turned", "°", "body turned by"),
    ("every", "min", "one lift every"),
    ("lasts", "h", "lifting goes on for"),
)
"""Facts of a lift: name, unit, and what each is."""


def sheet(case: Case, weighed: Weighed) -> Sheet:
    """Return how each machine is to be lifted."""
    figures = (_band(case, weighed), _recommended(case), _index(case, weighed))
    return Sheet(figures, (_heaviest(case, weighed),), ("lifting",))


def listings(case: Case, weighed: Weighed) -> tuple[Listing, ...]:
    """Return the bands of the user's rule, with the one that holds for the first build."""
    if not _bands(case):
        return ()
    holds = _band(case, weighed).value
    rows = tuple(
        (f"up to {band.up_to.text}", band.by.text, "this machine" if holds == number else "")
        for number, band in enumerate(_bands(case), start=1)
    )
    note = f"Your own rule. The machine weighs {shown(weighed.total, 'kg')} with all its parts."
    header = ("mass", "lifted by", "holds for")
    return (Listing("rack.lifting", "Lift bands", header, rows, note, by=lift_band),)


def _bands(case: Case) -> list[LiftBand]:
    return case.site.rack.lift_bands if case.site.rack else []


def _masses(case: Case) -> list[float]:
    return [amount(band.up_to, "kg") for band in _bands(case)]


def _band(case: Case, weighed: Weighed) -> Figure:
    bands = _masses(case)
    return Figure(
        "rack.lift_band",
        "lift band of your own rule",
        lift_band(weighed.total, bands) if bands else constant(case, math.nan),
        "",
        f"of {len(bands)}; one more is past the heaviest" if bands else "",
        by=lift_band,
        inputs=(mass_input(weighed),),
        missing=weighed.missing + (() if bands else (_BANDS,)),
    )


def _heaviest(case: Case, weighed: Weighed) -> Limit:
    bands = _bands(case)
    figure = Figure(
        "rack.lift",
        "mass to lift",
        weighed.total,
        "kg",
        "with all its parts",
        inputs=(mass_input(weighed),),
        missing=weighed.missing + (() if bands else (_BANDS,)),
    )
    return Limit(
        figure,
        constant(case, max(_masses(case), default=math.nan)),
        "most",
        "The machine is heavier than every band of your lifting rule: use a lifter, or take parts "
        "out first.",
        legal=False,
        facts=case.cite(bands[-1].up_to) if bands else (),
    )


def _limit(case: Case) -> Floats:
    lift = case.site.lift
    if lift is None:
        return math.nan
    every = stated(case, "site.lift.every", "min", unless_given=5.0)
    return weight_limit(
        amount(lift.horizontal, "m"),
        amount(lift.vertical, "m"),
        amount(lift.travel, "m"),
        stated(case, "site.lift.turned", "°", unless_given=0.0).value,
        1.0 / every.value if every.value else math.inf,
        stated(case, "site.lift.lasts", "h", unless_given=1.0).value,
        lift.coupling,
    )


def _recommended(case: Case) -> Figure:
    return Figure(
        "rack.weight_limit",
        "recommended weight limit",
        constant(case, float(np.asarray(_limit(case)))),
        "kg",
        _POSTURE,
        by=weight_limit,
        inputs=tuple(
            given
            for name, unit, words in _ASKED
            for given in stated(case, f"site.lift.{name}", unit).as_input(words)
        ),
        missing=() if case.site.lift else ("site.lift",),
        outside="Lifting for more than 8 hours is outside the method.",
    )


def _index(case: Case, weighed: Weighed) -> Figure:
    return Figure(
        "rack.lift_index",
        "mass over the recommended weight limit",
        lifting_index(weighed.total, _limit(case)),
        "",
        "above 1 it is more than is recommended for one person",
        by=lifting_index,
        inputs=(mass_input(weighed), *_recommended(case).inputs),
        missing=weighed.missing + _recommended(case).missing,
    )
