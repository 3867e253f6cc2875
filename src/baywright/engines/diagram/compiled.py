"""A compiled space: its form, the sums carried along it, and the way between names and numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from baywright.engines.contract import Objective
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.passes import LARGEST
from baywright.engines.loops import Flags, Longs


@dataclass(frozen=True, slots=True)
class Carried:
    """A sum that is carried along the arcs.

    Args:
        weights: the weight of each value of all choices, from 0.
        at_most: the bound.
        keys: origins of the sums that it says together.
    """

    weights: Longs
    at_most: int
    keys: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Description:
    """What a space was compiled to.

    Args:
        states: number of states.
        arcs: number of arcs.
        budget: origins of the sums that are carried along the arcs, and kept exactly.
        checked: origins of further sums. Builds are checked against them, and the search engine
            decides the values for which neither a bound nor a checked build does.
    """

    states: int
    arcs: int
    budget: tuple[str, ...]
    checked: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Compiled:
    """A compiled space.

    Args:
        names: the choices of the space, to their numbers.
        form: the compiled form; its choices are those of the space, then auxiliary ones.
        limits: the sums that are not in the form. Answers are exact for the first one alone.
        derived: numbers of the choices that do not tell builds apart.
        determined: whether the others determine these, so that counting may overlook them.
    """

    names: Mapping[str, int]
    form: Form
    limits: tuple[Carried, ...]
    derived: frozenset[int]
    determined: bool
    _sets: dict[tuple[int, bytes], frozenset[int]] = field(default_factory=dict, init=False)

    @property
    def budget(self) -> Carried:
        """The first of the limits, or one that everything keeps."""
        if self.limits:
            return self.limits[0]
        return Carried(np.zeros(len(self.form.state_of), np.int64), 0, ())

    def description(self) -> Description:
        """Say how large the form is and what is not in it."""
        checked = tuple(key for limit in self.limits[1:] for key in limit.keys)
        return Description(self.form.states, len(self.form.arcs), self.budget.keys, checked)

    def flags(self, allowed: Mapping[str, frozenset[int]]) -> Flags:
        """Return which values may be used.

        Raises:
            ValueError: when a name is no choice of the space.
        """
        flags = np.ones(len(self.form.state_of), np.uint8)
        for name, values in allowed.items():
            if name not in self.names:
                raise ValueError(f"the assumptions name {name!r}, which is no choice of the space")
            begin, end = self._span(self.names[name])
            flags[begin:end] = 0
            flags[[begin + value for value in values if 0 <= value < end - begin]] = 1
        return flags

    def weights(self, objective: Objective) -> tuple[Longs, int]:
        """Return the weight of each value, from 0, and what is to be added to every total.

        Raises:
            ValueError: when the totals are too large to be added in 64 bits.
        """
        spans = (
            max(of_value, default=0) - min(of_value, default=0) for _, of_value in objective.weights
        )
        if sum(spans) > LARGEST:
            raise ValueError("the weights of the objective are too large for the diagram engine")
        weights, shift = np.zeros(len(self.form.state_of), np.int64), 0
        for name, of_value in objective.weights:
            begin, end = self._span(self.names[name])
            least = min(of_value, default=0)
            weights[begin:end] = [weight - least for weight in of_value]
            shift += least
        return weights, shift

    def options(self, possible: Flags) -> dict[str, frozenset[int]]:
        """Return the possible values of each choice of the space."""
        return {name: self._set(number, possible) for name, number in self.names.items()}

    def by_choice(self, numbers: Sequence[int]) -> dict[str, tuple[int, ...]]:
        """Return a number for each value of each choice of the space."""
        spans = ((name, self._span(number)) for name, number in self.names.items())
        return {name: tuple(numbers[begin:end]) for name, (begin, end) in spans}

    def with_value(self, allowed: Flags, name: str, value: int) -> Flags:
        """Return the allowed values, of one choice only one of them."""
        begin, end = self._span(self.names[name])
        flags = allowed.copy()
        flags[begin:end] = 0
        flags[begin + value] = allowed[begin + value]
        return flags

    def build(self, chosen: Flags) -> dict[str, int]:
        """Return the one value that is chosen of each choice of the space."""
        values = np.flatnonzero(chosen)
        return {
            name: int(values[number] - self.form.values[number])
            for name, number in self.names.items()
        }

    def places(self, values: Mapping[str, int]) -> list[int]:
        """Return the numbers of the values of a build."""
        return [self._span(number)[0] + values[name] for name, number in self.names.items()]

    def _span(self, number: int) -> tuple[int, int]:
        return int(self.form.values[number]), int(self.form.values[number + 1])

    def _set(self, number: int, possible: Flags) -> frozenset[int]:
        begin, end = self._span(number)
        flags = possible[begin:end]
        key = number, flags.tobytes()
        if key not in self._sets:
            self._sets[key] = frozenset(np.flatnonzero(flags).tolist())
        return self._sets[key]
