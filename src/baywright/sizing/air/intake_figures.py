"""Figures of the intake, and of running without the cover."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from baywright.facts.fact import Fact
from baywright.sizing.air.curves import operating_point
from baywright.sizing.air.flow import CFM
from baywright.sizing.air.intake import flow_left, intake_velocity, open_area
from baywright.sizing.air.operating import operating
from baywright.sizing.air.stream import Stream
from baywright.sizing.amounts import amount, ratio
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Input


def blocked(stream: Stream) -> float:
    """Return the share of the open intake that the site says is blocked; none unless said."""
    room = stream.case.site.room
    return ratio(room.grille_blocked) if room and room.grille_blocked else 0.0


def share_left(stream: Stream) -> Reals:
    """Return the share of the flow that is left behind the blocked intake of each build.

    By the fan curves where the book has them, and otherwise in proportion to the opening.
    """
    by_curves = _share_by_curves(stream)
    return np.where(np.isnan(by_curves), flow_left(1.0, blocked(stream)), by_curves)


def _share_by_curves(stream: Stream) -> Reals:
    free = operating(stream).flow
    choked = operating(stream, blocked=blocked(stream)).flow
    moving = free > 0
    return np.where(moving, choked, np.nan) / np.where(moving, free, 1.0)


def intake_figures(stream: Stream) -> Iterator[Figure]:
    """Yield the velocity through the intake, and what blocking it takes away."""
    yield _velocity(stream)
    yield _flow_blocked(stream)
    yield _flow_lost(stream)


def _velocity(stream: Stream) -> Figure:
    air = stream.air
    area = open_area(amount(air.grille, "m²"), ratio(air.grille_open), blocked(stream))
    return Figure(
        "air.intake_velocity",
        "velocity through the intake",
        intake_velocity(stream.flow * share_left(stream), area),
        "m/s",
        f"all fans at full speed, {_words(stream)}",
        by=intake_velocity,
        inputs=_inputs(stream),
        missing=stream.lacks_flow() + stream.lacks("grille", "grille_open"),
        outside="nothing of the intake is open",
    )


def _flow_blocked(stream: Stream) -> Figure:
    return Figure(
        "air.flow_blocked",
        "flow left behind the intake",
        stream.flow * share_left(stream) / CFM,
        "CFM",
        f"all fans at full speed, {_words(stream)}",
        by=_by(stream),
        inputs=_inputs(stream),
        missing=stream.lacks_flow(),
    )


def _flow_lost(stream: Stream) -> Figure:
    return Figure(
        "air.flow_lost",
        "share of the flow lost at the intake",
        100 * (1 - share_left(stream)),
        "%",
        _words(stream),
        by=_by(stream),
        inputs=_inputs(stream),
    )


def _words(stream: Stream) -> str:
    if blocked(stream) == 0:
        return "nothing of the intake blocked"
    how = "by the fan curves" if _by(stream) is operating_point else "in proportion to the opening"
    return f"{100 * blocked(stream):.3g} % of the open intake blocked, {how}"


def _by(stream: Stream) -> Callable[..., Any]:
    return flow_left if np.isnan(_share_by_curves(stream)).any() else operating_point


def _inputs(stream: Stream) -> tuple[Input, ...]:
    stated: tuple[tuple[str, Fact[Any] | None], ...] = (
        ("area of the intake grille", stream.air.grille),
        ("open share of it", stream.air.grille_open),
    )
    return tuple(
        Input(name, fact.text, stream.case.cite(fact)) for name, fact in stated if fact is not None
    )


def cover_figure(stream: Stream) -> Figure:
    """Return how long the machine may run without its cover, as the book states it."""
    fact = stream.air.cover_off
    stated = () if fact is None else (Input("as stated", fact.text, stream.case.cite(fact)),)
    return Figure(
        "air.cover_off",
        "longest time without the cover",
        np.full(stream.case.size, amount(fact, "s")),
        "s",
        "while running",
        inputs=stated,
        missing=stream.lacks("cover_off"),
    )
