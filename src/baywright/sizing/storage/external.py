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


def of_external(case: Case) -> Iterator[Figure]:
    """Yield figures about drives outside, where some controller reaches any."""
    reaching = {n: card for n, card in fitted(case, Controller).items() if card.external}
    if not reaching:
        return
    condition = "outside the machine, not counted with the drives inside"
    yield Figure(
        "storage.external_drives",
        "drives within reach of external controllers",
        _over_cards(case, _drives),
        "",
        condition,
    )
    missing = tuple(
        f"parts.{name}.external.{field}"
        for name, card in reaching.items()
        for field in ("lanes", "link_rate")
        if getattr(card.external, field) is None
    )
    yield Figure(
        "storage.external_chain",
        "drive lanes on a chain over lanes to it",
        _over_cards(case, _lanes_ratio),
        "",
        f"{condition}; every enclosure full",
        oversubscription,
        missing=tuple(path for path in missing if path.endswith(".lanes")),
    )
    yield Figure(
        "storage.external_rate",
        "data that the chains carry together",
        _over_cards(case, _chain_rate) / 1e9,
        "GB/s",
        condition,
        drive_lane_rate,
        missing=missing,
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
