"""Minimal impossible sets: one of them, and all of them one after another.

One is found by QuickXplain (Junker, AAAI 2004). Further ones follow from a duality (Reiter,
Artificial Intelligence 32, 1987; Liffiton and others, Constraints 21, 2016): drop as few keys as
possible so that every set found so far lacks one. Either what is left is impossible, and holds a
set not found yet, or it is possible, and then one of the dropped keys has to stay. When no keys
can be dropped any more, every minimal set has been found.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from baywright.answers.inquiry import RecheckError, SpaceInquiry
from baywright.engines.contract import Objective
from baywright.space import Choice, Origin, Space, Sum

Keys = frozenset[str]

Possible = Callable[[Keys], bool]
"""Whether a build exists when only these origins have to hold."""

_EXPLORED = Origin("explored", "law", "What is known of a set already is not asked again.")


def minimal(candidates: Sequence[str], possible: Possible) -> list[str]:
    """Return a minimal part of the candidates that is impossible; earlier ones are kept longer.

    Args:
        candidates: keys that are impossible together.
        possible: whether a set of keys is possible.
    """

    def explain(background: Keys, rest: list[str]) -> list[str]:
        """Explain a background that is possible alone, and impossible with the rest."""
        if len(rest) == 1:
            return rest
        half = len(rest) // 2
        first, second = rest[:half], rest[half:]
        late = beyond(background | frozenset(first), second)
        return beyond(background | frozenset(late), first) + late

    def beyond(background: Keys, rest: list[str]) -> list[str]:
        return explain(background, rest) if possible(background) else []

    keys = list(candidates)
    return beyond(frozenset(), keys) if keys else []


def smallest(candidates: Sequence[str], possible: Possible, tries: int = 3) -> list[str]:
    """Return the smallest of the minimal sets that a few orders of the candidates lead to."""
    found = minimal(candidates, possible)
    best = found
    for turn in range(1, tries):
        if len(best) <= 2:
            break
        # What the last set used goes last, so that the next set does without it where it can.
        keys = [key for key in candidates if key not in found] + found[turn:] + found[:turn]
        found = minimal(keys, possible)
        best = min(best, found, key=len)
    return best


@dataclass(frozen=True, slots=True)
class Conflict:
    """A space without builds, of which some origins always hold and others are candidates.

    Args:
        inquiry: the engines.
        space: the space.
        background: origin keys that always hold.
        candidates: origin keys of which a minimal set is sought.
    """

    inquiry: SpaceInquiry
    space: Space
    background: Keys
    candidates: Keys

    def possible(self, keys: Keys) -> bool:
        """Say whether a build exists when the background and these candidates hold."""
        return self.inquiry.possible(self.space, self._without(keys)) is not None

    def smallest(self, keys: Keys) -> Keys:
        """Return a small minimal set among candidates that are impossible together."""
        core = self.inquiry.core(self.space, self._without(keys)) & keys
        # An engine that names no core is slow here as well: one order has to do.
        return frozenset(smallest(sorted(core), self.possible, 1 if core == keys else 3))

    def _without(self, keys: Keys) -> Keys:
        return frozenset(self.space.origins) - self.background - keys


def minimal_sets(conflict: Conflict, known: Iterable[Keys] = ()) -> Iterator[Keys]:
    """Yield every minimal impossible set of the candidates once, beside those known.

    Ends when every one has been found.

    Args:
        conflict: the candidates and what holds beside them.
        known: minimal sets found before.

    Raises:
        RecheckError: when a second engine does not agree that these are all.
        StoppedError: at a limit.
    """
    explored = _Explored(list(known))
    while (dropped := explored.fewest_to_drop(conflict.inquiry)) is not None:
        kept = conflict.candidates - dropped
        if conflict.possible(kept):
            explored.needed.append(dropped)
        else:
            explored.found.append(conflict.smallest(kept))
            yield explored.found[-1]


@dataclass(frozen=True, slots=True)
class _Explored:
    """What is known of the sets of candidates.

    Args:
        found: minimal sets that are impossible.
        needed: sets of which a member has to stay, as the rest is possible.
    """

    found: list[Keys]
    needed: list[Keys] = field(default_factory=list)

    def fewest_to_drop(self, inquiry: SpaceInquiry) -> Keys | None:
        """Return the fewest keys to drop so that nothing known decides about the rest.

        Without any that can be dropped, return ``None``; that is proven by two engines.
        """
        keys = sorted(frozenset().union(*self.found))
        choices = tuple(Choice(key, ("kept", "dropped")) for key in keys)
        space = Space(choices, (), tuple(self._sums()))
        best = inquiry.best(space, Objective(tuple((key, (0, 1)) for key in keys)))
        if best is not None:
            return frozenset(key for key in keys if best.values[key])
        if inquiry.possible(space) is not None:
            raise RecheckError("there are more sets of reasons than the optimiser found")
        return None

    def _sums(self) -> Iterator[Sum]:
        for keys in self.found:
            yield Sum(tuple((key, (0, -1)) for key in sorted(keys)), -1, _EXPLORED)
        for keys in self.needed:
            yield Sum(tuple((key, (0, 1)) for key in sorted(keys)), len(keys) - 1, _EXPLORED)
