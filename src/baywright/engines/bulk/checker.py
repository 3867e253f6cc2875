"""Checks many builds at once, on as many cores as it is given."""

from __future__ import annotations

import os
from collections.abc import Collection, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from baywright.engines.bulk.arrays import Codes, Lookups, code_type
from baywright.engines.bulk.deriving import Derivation, derivations
from baywright.engines.bulk.laying import Layout, with_single_scopes
from baywright.engines.bulk.loops import BLOCK, every_broken, first_broken
from baywright.engines.bulk.steps import Step, step
from baywright.engines.bulk.verdicts import Verdicts
from baywright.engines.contract import Engine
from baywright.engines.loops import Flags
from baywright.engines.search import Search
from baywright.space import Choice, Space

PORTION = 1 << 15
"""Builds that a core takes at a time."""


@dataclass(frozen=True, slots=True, eq=False)
class _Filled:
    """A derived choice to fill in.

    Args:
        choice: its position.
        size: number of its values.
        step: fills in what follows.
        known: the laws over it and choices known before it.
        laws: how many those are.
    """

    choice: int
    size: int
    step: Step
    known: Lookups
    laws: int

    def fill(self, codes: Codes, low: int, high: int) -> None:
        """Fill in the choice for some builds."""
        unfit = np.zeros(high - low, np.uint8)
        self.step.fill(codes, low, unfit)
        builds = low + np.flatnonzero(unfit)
        for part in np.split(builds, range(BLOCK, len(builds), BLOCK)):
            codes[self.choice, part] = self._least_broken(codes[:, part])

    def _least_broken(self, codes: Codes) -> Codes:
        """Return, for each build, the lowest value that breaks the fewest laws."""
        builds = codes.shape[1]
        best, fewest = np.zeros(builds, codes.dtype), np.full(builds, self.laws + 1)
        broken = np.empty((self.laws, builds), np.uint8)
        for value in range(self.size):
            codes[self.choice] = value
            every_broken(codes, self.known, 0, builds, broken)
            count = broken.sum(axis=0, dtype=fewest.dtype)
            best[count < fewest] = value
            np.minimum(fewest, count, out=fewest)
        return best


class Checker:
    """Looks up, for many builds of one space, whether they are legal and what they break.

    A derived choice that is not given takes the value that follows from the others. Where none
    fits, the build is not legal; the choice then takes the lowest of the values that break the
    fewest of the laws known at that point, so that the laws named are those it comes closest to.

    Args:
        space: the space.
        given: names of the choices that builds will give; all of them unless stated.
        engine: proves that several laws decide a derived choice; the search engine unless stated.

    Raises:
        Problems: for every choice that is neither given nor follows from those that are.
        Unsupported: when a sum has numbers beyond 64 bits.
    """

    def __init__(
        self, space: Space, given: Collection[str] | None = None, engine: Engine | None = None
    ) -> None:
        self.space = space
        self.code_type = code_type(choice.size for choice in space.choices)
        layout = Layout(with_single_scopes(space))
        self._fused = layout.fused()
        self._single, self._order = layout.single(range(len(space.laws))), layout.order()
        self._none, self._number_type = layout.none, layout.number_type
        names = [choice.name for choice in space.choices]
        derived = derivations(layout.space, names if given is None else given, engine or Search())
        self._filled = [_filled(layout, each) for each in derived]

    def empty(self, builds: int) -> Codes:
        """Return room for so many builds: a row for each choice, a column for each build."""
        return np.zeros((len(self.space.choices), builds), self.code_type)

    def codes(self, columns: Mapping[str, NDArray[Any]]) -> Codes:
        """Return builds from a column of value indices for each choice that is given.

        Raises:
            ValueError: for a column that is too short or too long, is of no choice, or holds what
                is no value index.
        """
        lengths = {len(column) for column in columns.values()}
        if len(lengths) > 1:
            raise ValueError("the columns are not of one length")
        found = self.empty(max(lengths, default=0))
        place = {choice.name: at for at, choice in enumerate(self.space.choices)}
        for name, column in columns.items():
            if name not in place:
                raise ValueError(f"there is no choice {name!r}")
            _check_indices(column, self.space.choice(name))
            found[place[name]] = column
        return found

    def verdicts(self, codes: Codes, *, every: bool = False, cores: int | None = None) -> Verdicts:
        """Check builds, and fill in the derived choices that are not given.

        Args:
            codes: the builds as ``codes`` returns them; every given value has to exist.
            every: whether to find all broken laws of a build, not only the first.
            cores: how many cores to use; all that the process may use unless stated.
        """
        found = np.full(codes.shape[1], self._none, self._number_type)
        bits = self._no_bits(len(found)) if every else None

        def check(low: int) -> None:
            high = min(low + PORTION, len(found))
            for each in self._filled:
                each.fill(codes, low, high)
            first_broken(codes, self._fused, low, high, found)
            if bits is not None:
                self._set_bits(codes, low, high, bits)

        with ThreadPoolExecutor(cores or _cores()) as pool:
            list(pool.map(check, range(0, len(found), PORTION)))
        first = found.astype(np.int32)
        first[found == self._none] = -1
        return Verdicts(self.space.laws, first, bits)

    def _no_bits(self, builds: int) -> Flags:
        return np.zeros((builds, (len(self.space.laws) + 7) // 8), np.uint8)

    def _set_bits(self, codes: Codes, low: int, high: int, bits: Flags) -> None:
        """Set the bits of the laws that some builds break."""
        broken = np.empty((len(self._order), BLOCK), np.uint8)
        for begin in range(low, high, BLOCK):
            end = min(begin + BLOCK, high)
            every_broken(codes, self._single, begin, end, broken)
            in_order = np.empty((end - begin, len(self._order)), np.uint8)
            in_order[:, self._order] = broken[:, : end - begin].T
            bits[begin:end] = np.packbits(in_order, axis=1, bitorder="little")


def _filled(layout: Layout, derivation: Derivation) -> _Filled:
    wanted = {id(law) for law in derivation.known}
    numbers = [number for number, law in enumerate(layout.space.laws) if id(law) in wanted]
    choice = derivation.choice
    return _Filled(
        layout.position[choice.name],
        choice.size,
        step(layout, derivation),
        layout.single(numbers),
        len(numbers),
    )


def verdicts(
    space: Space,
    columns: Mapping[str, NDArray[Any]],
    *,
    every: bool = False,
    engine: Engine | None = None,
) -> Verdicts:
    """Check builds given as a column of value indices for each choice.

    Args:
        space: the space.
        columns: value indices by name of the choice; derived choices may be left out.
        every: whether to find all broken laws of a build, not only the first.
        engine: as of ``Checker``.

    Raises:
        Problems: for every choice that is neither given nor follows from those that are.
        Unsupported: when a sum has numbers beyond 64 bits.
        ValueError: as of ``Checker.codes``.
    """
    checker = Checker(space, tuple(columns), engine)
    return checker.verdicts(checker.codes(columns), every=every)


def _check_indices(column: NDArray[Any], choice: Choice) -> None:
    whole = np.issubdtype(column.dtype, np.integer)
    if not whole or (len(column) and not (column.min() >= 0 and column.max() < choice.size)):
        raise ValueError(f"{choice.name!r} takes whole numbers from 0 to {choice.size - 1}")


def _cores() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
