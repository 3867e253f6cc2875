"""External: drives that a controller reaches outside the machine, counted apart."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

import numpy as np

from baywright.facts.parts import Controller
from baywright.facts.parts.cards import External
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure
from baywright.sizing.storage.links import drive_lane_rate, oversubscription
from baywright.sizing.storage.stated import fitted, number

_OUTSIDE = "outside the machine, not counted with the drives inside"


def of_external(case: Case) -> Iterator[Figure]:
    """Yield figures about drives outside, where some controller reaches any."""
    if not _reaching(case):
        return
    name = "drives within reach of external controllers"
    yield Figure("storage.external_drives", name, _over_cards(case, _drives), "", _OUTSIDE)
    yield Figure(
        "storage.external_chain",
        "drive lanes on a chain over lanes to it",
        _over_cards(case, _lanes_ratio),
        "",
        f"{_OUTSIDE}; every enclosure full",
        oversubscription,
        missing=_lacking(case, "lanes"),
    )
    yield Figure(
        "storage.external_rate",
        "data that the chains carry together",
        _over_cards(case, _chain_rate) / 1e9,
        "GB/s",
        _OUTSIDE,
        drive_lane_rate,
        missing=_lacking(case, "lanes", "link_rate"),
    )


def _reaching(case: Case) -> dict[str, External]:
    cards = fitted(case, Controller).items()
    return {name: card.external for name, card in cards if card.external is not None}


def _lacking(case: Case, *fields: str) -> tuple[str, ...]:
    return tuple(
        f"parts.{name}.external.{field}"
        for name, external in _reaching(case).items()
        for field in fields
        if getattr(external, field) is None
    )


def _over_cards(case: Case, value: Callable[[External], float]) -> Reals:
    return case.weighed(
        lambda name, part: (
            value(part.external) if isinstance(part, Controller) and part.external else 0.0
        )
    )


def _drives(external: External) -> float:
    return float(
        np.prod([number(f) for f in (external.chains, external.enclosures, external.drives)])
    )


def _lanes_ratio(external: External) -> float:
    on_chain = number(external.enclosures) * number(external.drives)
    return float(oversubscription(on_chain, number(external.lanes)))


def _chain_rate(external: External) -> float:
    if external.link_rate is None:
        return math.nan
    lane = drive_lane_rate(number(external.link_rate, "b/s"))
    return number(external.chains) * number(external.lanes) * lane
