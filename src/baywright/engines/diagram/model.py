"""The model: a space read for the diagram."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.engines.diagram.rules import Rule, SumRule, TableRule
from baywright.engines.loops import Ids, Longs


@dataclass(frozen=True, slots=True)
class Budget:
    """The one sum that is not compiled: its weights stand on the values and are added on the way.

    Args:
        weights: for each choice of the model, the weight of each value, from 0.
        at_most: the bound.
        keys: origins of the sums that it says together.
    """

    weights: tuple[Longs, ...]
    at_most: int
    keys: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Model:
    """What is compiled.

    Args:
        sizes: number of values of each choice: those of the space, then auxiliary ones, which
            the others determine.
        left: for each choice, the values that are left.
        tables: the tables, none of them within the scope of another.
        sums: the sums that are compiled.
    """

    sizes: tuple[int, ...]
    left: tuple[Ids, ...]
    tables: tuple[TableRule, ...]
    sums: tuple[SumRule, ...]

    @property
    def rules(self) -> tuple[Rule, ...]:
        """All tables, then all sums."""
        return (*self.tables, *self.sums)

    @property
    def possible(self) -> bool:
        """Whether each choice has a value left."""
        return all(len(values) for values in self.left)
