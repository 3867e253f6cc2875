"""Builds that were found, to show other statements: a yes needs a checked build and no engine."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from baywright.desk.statements.narrowing import Narrowed
from baywright.laws.machine import Machine

MOST = 400
"""Builds kept of one machine."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A checked build.

    Args:
        values: value index by name of the choice, helper choices of wishes left out.
        engine: what found it.
    """

    values: Mapping[str, int]
    engine: str


@dataclass
class Shelf:
    """Checked builds of each machine."""

    _kept: dict[int, tuple[Machine, list[Kept]]] = field(default_factory=dict)

    def keep(self, machine: Machine, values: Mapping[str, int], engine: str) -> None:
        """Keep a build that the evaluator has checked."""
        _, builds = self._kept.setdefault(id(machine), (machine, []))
        if len(builds) < MOST:
            own = {choice.name: values[choice.name] for choice in machine.space.choices}
            builds.append(Kept(own, engine))

    def fitting(self, machine: Machine, there: Narrowed) -> Kept | None:
        """Return a build that a narrowed space allows, checked again, or ``None``."""
        if len(there.space.choices) > len(machine.space.choices):
            return None
        _, builds = self._kept.get(id(machine), (machine, []))
        return next((each for each in builds if not there.breaks(each.values)), None)
