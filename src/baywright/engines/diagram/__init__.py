"""The diagram engine: a decomposition found by the program, and every question a pass over it."""

from baywright.engines.diagram.compiled import Description
from baywright.engines.diagram.engine import Diagram
from baywright.engines.diagram.fronts import FrontPoint
from baywright.engines.diagram.guards import Guards

__all__ = ["Description", "Diagram", "FrontPoint", "Guards"]
