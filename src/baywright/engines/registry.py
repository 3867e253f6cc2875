"""The engines by the name that is shown with their answers."""

from __future__ import annotations

from baywright.engines.brute import Brute
from baywright.engines.contract import Engine
from baywright.engines.cpsat import CpSat
from baywright.engines.diagram import Diagram
from baywright.engines.search import Search


def engines() -> dict[str, Engine]:
    """Return a fresh engine of every kind, by name."""
    every: tuple[Engine, ...] = (Brute(), Search(), CpSat(), Diagram())
    return {engine.name: engine for engine in every}
