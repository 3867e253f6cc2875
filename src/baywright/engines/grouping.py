"""The rows of a table seen by values: what goes with what, and what completes a beginning."""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterator, Sequence, Set
from typing import TypeAlias

Row: TypeAlias = tuple[int, ...]
_Partners: TypeAlias = dict[int, set[int]]


class Grouping:
    """The allowed rows of a table over two choices or more.

    Args:
        sizes: number of values of each choice.
        rows: the allowed rows of value indices.

    Attributes:
        largest: place of the choice with most values, the first of them.
    """

    def __init__(self, sizes: Sequence[int], rows: Set[Row]) -> None:
        self._sizes = sizes
        self._rows = rows
        self.largest = max(range(len(sizes)), key=lambda place: sizes[place])
        self._with: dict[tuple[int, int], _Partners] = {
            places: _partners(rows, *places)
            for places in itertools.permutations(range(len(sizes)), 2)
        }

    def partners(self) -> Iterator[tuple[int, int, int, list[int]]]:
        """Yield place and value, another place, and the values there that go with it.

        Only where some value there does not go with it; a value that stands in no row comes
        once, with no partners.
        """
        unused: set[tuple[int, int]] = set()
        for (place, other), partners in self._with.items():
            for value in range(self._sizes[place]):
                found = sorted(partners.get(value, ()))
                if len(found) < self._sizes[other] and (place, value) not in unused:
                    yield place, value, other, found
                if not found:
                    unused.add((place, value))

    def completions(self) -> Iterator[tuple[Row, list[int]]]:
        """Yield values of all choices but the largest, and those of the largest that go with them.

        Only where the partners do not say so already.
        """
        last = self.largest
        places = [place for place in range(len(self._sizes)) if place != last]
        complete: dict[Row, set[int]] = defaultdict(set)
        for row in self._rows:
            complete[row[:last] + row[last + 1 :]].add(row[last])
        for start in self._starts(places):
            ends = complete.get(start, set())
            known = zip(places, start, strict=True)
            partners = (self._with[place, last].get(value, set()) for place, value in known)
            if len(ends) < len(set.intersection(*partners)):
                yield start, sorted(ends)

    def _starts(self, places: Sequence[int]) -> Iterator[Row]:
        """Yield the values of some choices of which each two go together."""

        def extend(start: Row) -> Iterator[Row]:
            if len(start) == len(places):
                yield start
                return
            place = places[len(start)]
            for value in range(self._sizes[place]):
                if all(
                    value in self._with[other, place].get(before, ())
                    for other, before in zip(places, start, strict=False)
                ):
                    yield from extend((*start, value))

        return extend(())


def _partners(rows: Set[Row], place: int, other: int) -> _Partners:
    found: dict[int, set[int]] = defaultdict(set)
    for row in rows:
        found[row[place]].add(row[other])
    return found
