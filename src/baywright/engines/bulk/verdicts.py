"""What is found out about many builds at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baywright.engines.bulk.loops import spread
from baywright.engines.loops import Flags, Ids, Longs
from baywright.space import Law


@dataclass(frozen=True, slots=True, eq=False)
class Verdicts:
    """A verdict for each of many builds.

    Args:
        laws: all laws of the space, in the order in which they are looked at.
        first: for each build, the number of the first law it breaks, -1 when it is legal.
        bits: for each build, a bit for every law it breaks, the lowest bit of a byte first; or
            ``None`` when only the first was asked for.
    """

    laws: tuple[Law, ...]
    first: Ids
    bits: Flags | None = None

    @property
    def legal(self) -> NDArray[np.bool_]:
        """Which builds are legal."""
        return np.asarray(self.first < 0)

    @property
    def keys(self) -> tuple[str, ...]:
        """The origin keys of the laws, each once, in order of first appearance."""
        return tuple(dict.fromkeys(law.origin.key for law in self.laws))

    def first_keys(self) -> Ids:
        """Return, for each build, the place in ``keys`` of the first broken law, or -1."""
        return np.append(self._key_of_law(), np.int32(-1))[self.first]

    def broken_keys(self) -> NDArray[np.bool_]:
        """Return like ``broken`` with a column for each of ``keys``."""
        found = np.zeros((len(self.first), len(self.keys)), np.uint8)
        spread(self._known_bits(), self._key_of_law(), found)
        return found.view(np.bool_)

    def _key_of_law(self) -> Ids:
        place = {key: at for at, key in enumerate(self.keys)}
        return np.array([place[law.origin.key] for law in self.laws], np.int32)

    def counts(self) -> Longs:
        """Return how many builds break each law: first of all, or at all where that is known."""
        if self.bits is None:
            return np.bincount(self.first[self.first >= 0], minlength=len(self.laws))
        return np.asarray(self.broken().sum(axis=0, dtype=np.int64))

    def broken(self) -> NDArray[np.bool_]:
        """Return which laws each build breaks: a row for each build, a column for each law.

        Raises:
            ValueError: when only the first broken law was asked for.
        """
        count = len(self.laws)
        bits = np.unpackbits(self._known_bits(), axis=1, count=count, bitorder="little")
        return bits.view(np.bool_)

    def _known_bits(self) -> Flags:
        if self.bits is None:
            raise ValueError("only the first broken law was asked for")
        return self.bits
