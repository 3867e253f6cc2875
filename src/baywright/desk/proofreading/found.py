"""Legal builds that were found: many a question is answered by one of an earlier question."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

Row: TypeAlias = tuple[int, ...]
"""A build, by the value index of each choice."""

Test: TypeAlias = Callable[[Row], bool]

MOST = 256
"""Builds that are kept."""


@dataclass
class FoundBuilds:
    """Builds and, once it was asked, which of them have a term.

    Args:
        names: the choices, in the order of rows.
    """

    names: tuple[str, ...]
    _rows: list[Row] = field(default_factory=list)
    _having: dict[str, tuple[int, int]] = field(default_factory=dict)

    def keep(self, build: Mapping[str, int]) -> None:
        """Take in a build."""
        if len(self._rows) < MOST:
            self._rows.append(self.row(build))

    def row(self, build: Mapping[str, int]) -> Row:
        """Return a build as a row."""
        return tuple(build[name] for name in self.names)

    def having(self, tests: Mapping[str, Test]) -> Iterable[Mapping[str, int]]:
        """Yield the builds that have some terms.

        Args:
            tests: by term, whether a row has it.
        """
        left = (1 << len(self._rows)) - 1
        for term, test in tests.items():
            left &= self._mask(term, test)
        for at, row in enumerate(self._rows):
            if left >> at & 1:
                yield dict(zip(self.names, row, strict=True))

    def _mask(self, term: str, test: Test) -> int:
        """Return a bit for each build that has a term; only new builds are looked at."""
        mask, seen = self._having.get(term, (0, 0))
        for at in range(seen, len(self._rows)):
            mask |= test(self._rows[at]) << at
        self._having[term] = mask, len(self._rows)
        return mask
