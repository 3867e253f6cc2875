"""Picks: the two to five candidates of a front that are worth a customer's time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.desk.fit.candidates import Candidate

MOST = 5
"""No more proposals than this are made."""


@dataclass(frozen=True, slots=True)
class Pick:
    """A candidate with what it is best in.

    Args:
        names: what it is best in, such as ``cheapest``.
        candidate: the candidate.
    """

    names: tuple[str, ...]
    candidate: Candidate


def picks(front: Sequence[Candidate], preferred: Sequence[str] = ()) -> tuple[Pick, ...]:
    """Return two to five candidates of a front, or all of it where it has fewer.

    The cheapest comes first; then the least draw, the fewest machines, the most headroom on no
    more machines than the cheapest has, the most of what is preferred, and the most even one,
    whose numbers lie nearest to the best of each.

    Args:
        front: candidates that none of them beats.
        preferred: words of the numbers of which more is better.
    """
    named: dict[int, list[str]] = {}
    for name, best in _best(front, preferred):
        position = front.index(best)
        if position in named or len(named) < MOST:
            named.setdefault(position, []).append(name)
    if len(named) == 1 and len(front) > 1:
        named[_furthest(front, next(iter(named)))] = ["another kind"]
    return tuple(Pick(tuple(names), front[at]) for at, names in named.items())


def _best(front: Sequence[Candidate], preferred: Sequence[str]) -> Iterator[tuple[str, Candidate]]:
    if not front:
        return
    cheapest = min(front, key=lambda each: each.costs)
    yield "cheapest", cheapest
    yield "least draw", min(front, key=lambda each: (each.load, each.costs))
    if len({each.hosts for each in front}) > 1:
        yield "fewest machines", min(front, key=lambda each: (each.hosts, each.costs))
    as_many = [each for each in front if each.hosts <= cheapest.hosts]
    if cheapest.headroom is not None:
        yield "most headroom", min(as_many, key=_by_headroom)
    for position, words in enumerate(preferred):
        yield f"most of {words}", min(front, key=_by_preferred(position))
    yield "most even", min(front, key=lambda each: (_distance(front, each), each.costs))


def _by_headroom(each: Candidate) -> tuple[Fraction, tuple[Fraction, ...]]:
    return -(each.headroom or Fraction(0)), each.costs


def _by_preferred(
    position: int,
) -> Callable[[Candidate], tuple[Fraction, tuple[Fraction, ...]]]:
    return lambda each: (-each.preferred[position], each.costs)


def _distance(front: Sequence[Candidate], candidate: Candidate) -> Fraction:
    """Return the squared distance from the best of each number, each scaled to its range."""
    return sum((part * part for part in _scaled(front, candidate)), Fraction(0))


def _scaled(front: Sequence[Candidate], candidate: Candidate) -> list[Fraction]:
    columns = zip(*(each.costs for each in front), strict=True)
    ends = [(min(column), max(column)) for column in columns]
    return [
        (cost - low) / (high - low) if high > low else Fraction(0)
        for cost, (low, high) in zip(candidate.costs, ends, strict=True)
    ]


def _furthest(front: Sequence[Candidate], start: int) -> int:
    """Return the candidate that differs most from one of them."""
    mine = _scaled(front, front[start])

    def apart(position: int) -> Fraction:
        theirs = _scaled(front, front[position])
        return sum(((a - b) ** 2 for a, b in zip(mine, theirs, strict=True)), Fraction(0))

    return max((at for at in range(len(front)) if at != start), key=apart)
