"""Who listens, and what matters to them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Literal, TypeAlias, get_args

from baywright.desk.walk.lines import Line

Audience: TypeAlias = Literal["sellers", "engineers", "service"]

AUDIENCES: tuple[Audience, ...] = get_args(Audience)

SHOULD = 2
"""Weight from which a line should be said."""

WEIGHTS: Mapping[str, tuple[int, int, int]] = MappingProxyType(
    {
        # topic: sellers, engineers, service
        "build": (3, 3, 3), "status": (3, 3, 3), "machine": (3, 2, 1), "size": (3, 2, 1),
        "width": (1, 1, 0), "mass": (2, 2, 3), "announced": (1, 0, 0), "dates": (3, 1, 0),
        "stance": (2, 2, 2), "price": (2, 0, 0), "models": (3, 1, 0), "lock": (2, 2, 3),
        "lights": (1, 2, 3), "marks": (1, 1, 3), "counts": (3, 3, 2), "zones": (3, 3, 2),
        "conditions": (3, 3, 1), "exclusions": (3, 3, 1), "totals": (3, 2, 1),
        "controllers": (2, 3, 1), "mixes": (2, 1, 0), "capacity": (3, 1, 0), "sizes": (1, 1, 1),
        "blanks": (1, 2, 3), "ports": (2, 2, 2), "speeds": (2, 3, 1), "management": (1, 2, 1),
        "network": (2, 2, 1), "identical": (2, 3, 3), "ratings": (2, 2, 2), "voltages": (1, 3, 2),
        "inlets": (1, 2, 3), "redundancy": (3, 3, 2), "draw": (1, 3, 1), "power factor": (0, 2, 0),
        "supplies": (1, 3, 2), "lengths": (1, 3, 2), "lanes": (2, 3, 0),
        "heights": (0, 2, 1), "accelerators": (2, 2, 0), "kits": (1, 2, 2), "slots": (1, 3, 2),
        "watts": (1, 2, 0), "flow": (0, 2, 0), "altitude": (0, 2, 1), "inlet": (2, 3, 1),
        "air": (1, 3, 2), "choices": (3, 2, 1), "optional": (1, 1, 1), "systems": (1, 2, 1),
        "channels": (1, 3, 1), "generation": (3, 2, 1), "memory": (1, 3, 3), "packs": (1, 2, 3),
        "service": (0, 1, 3), "running": (2, 2, 3), "work": (0, 1, 3), "firmware": (0, 2, 3),
        "rules": (2, 2, 2), "interlock": (2, 3, 3), "fan": (1, 3, 2),
        "later": (3, 2, 1), "power": (0, 2, 0),
    }
)  # fmt: skip
"""How much each topic matters: 3 and 2 should be said, 1 may be, 0 is left out."""


def ranked(line: Line, audience: Audience) -> Line | None:
    """Return a line with its rank and its weight, or ``None`` where it is left out."""
    if line.rank == "must":
        return line
    weights = WEIGHTS.get(line.topic.partition(" ")[0]) or WEIGHTS.get(line.topic, (1, 1, 1))
    weight = weights[AUDIENCES.index(audience)]
    if not weight:
        return None
    return replace(line, rank="should" if weight >= SHOULD else "may", weight=weight)
