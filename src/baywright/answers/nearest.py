"""Nearest builds: the fewest and lightest changes of a wish that make it possible.

Laws and rules are never changed. Each set of changes differs from the others, and each
build is solved with the wishes that are kept, and re-checked, before it is shown.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from baywright.answers.cheapest import cheapest
from baywright.answers.figures import amount
from baywright.answers.inquiry import Inquiry, StoppedError
from baywright.answers.instead import instead
from baywright.answers.softening import CHANGED, soften, switch_of
from baywright.answers.splits import other_splits
from baywright.answers.verdicts import Change, Nearest
from baywright.answers.witnesses import witness
from baywright.engines.contract import Objective
from baywright.laws.distance import distance
from baywright.laws.formula import compared, encode
from baywright.laws.linear import Linear, integral, whole
from baywright.laws.machine import Machine
from baywright.laws.wishes import Level, Wish, with_wishes
from baywright.space import Origin, Space, Sum, Table

ONE_CHANGE = 10_000
"""Price of giving up one wish; how far it is changed costs less than this."""

_AWAY = Origin("nearest.side", "wish", "The number lies on this side of what was asked.")


@dataclass(frozen=True, slots=True)
class _Found:
    """Wishes given up, and a build without them."""

    changed: tuple[Wish, ...]
    values: Mapping[str, int]


def nearest(inquiry: Inquiry, wishes: Sequence[Wish], most: int = 4) -> tuple[Nearest, ...]:
    """Return up to ``most`` nearest builds, lightest changes first.

    Raises:
        StoppedError: at a limit.
        RecheckError: when an engine's build breaks a law.
    """
    splits = dict(_splits(inquiry, wishes))
    found = [
        _shown(inquiry, wishes, each)
        for each in _correction_sets(inquiry, wishes, most)
        if not (len(each.changed) == 1 and each.changed[0].key in splits)
    ]
    return (*splits.values(), *(each for each in found if each.changes))[:most]


def _correction_sets(inquiry: Inquiry, wishes: Sequence[Wish], most: int) -> Iterator[_Found]:
    softened = soften(inquiry.machine.space, wishes)
    objective = _price(inquiry.machine, softened.soft)
    for position in range(most):
        limit = inquiry.panel.patience_for_the_best if position else None
        try:
            found = inquiry.best(softened.space, objective, limit)
        except StoppedError:
            if not position:
                raise
            # Lighter changes than any that are left have been found; the rest takes too long.
            return
        if found is None:
            return
        changed = tuple(w for w in softened.soft if found.values[switch_of(w)] == CHANGED)
        if not changed:
            return
        yield _Found(changed, found.values)
        softened = softened.blocked(changed)


def _price(machine: Machine, soft: Sequence[Wish]) -> Objective:
    weights: dict[str, tuple[int, ...]] = {
        switch_of(wish): (0, wish.price * ONE_CHANGE // 100) for wish in soft
    }
    for wish in soft:
        for choice, asked in wish.asked:
            weights[choice] = distance(machine, choice, asked)
    return Objective(tuple(weights.items()))


def _shown(inquiry: Inquiry, wishes: Sequence[Wish], found: _Found) -> Nearest:
    """Bring the changed numbers as near to what was asked as the kept wishes allow."""
    machine = inquiry.machine
    space = with_wishes(machine.space, [wish for wish in wishes if wish not in found.changed])
    values = found.values
    changes: list[Change] = []
    for wish in found.changed:
        if wish.level is not None:
            closest = _closest(inquiry, space, wish.level)
            if closest is not None:
                values, space = closest
    if not any(wish.asked for wish in wishes):
        values = cheapest(inquiry, space) or values
    for wish in found.changed:
        changes.extend(_changes(machine, wish, values))
    return Nearest(tuple(changes), witness(machine, values))


def _closest(
    inquiry: Inquiry, space: Space, level: Level
) -> tuple[Mapping[str, int], Space] | None:
    """Return the build whose number is nearest to the one asked, and the space that keeps it."""
    sides = (_nearest_on_side(inquiry, space, level, sign) for sign in (1, -1))
    builds = [values for values in sides if values is not None]
    if not builds:
        return None
    values = min(builds, key=lambda build: abs(level.linear.value(build) - level.bound))
    reached = level.linear.value(values)
    kept = Linear(level.linear.weights, level.linear.constant - reached, level.linear.dimension)
    encoded = encode(compared(kept, "=="), _AWAY, inquiry.machine.sizes)
    tables = [law for law in encoded.laws if isinstance(law, Table)]
    sums = [law for law in encoded.laws if isinstance(law, Sum)]
    return values, space.extended(encoded.choices, tables, sums)


def _nearest_on_side(
    inquiry: Inquiry, space: Space, level: Level, sign: int
) -> Mapping[str, int] | None:
    """Return the build with the least number at or above what was asked, or the mirror of that."""
    mirrored = level.linear.scaled(-sign)
    weights, at_most = integral(mirrored, -sign * level.bound)
    side = Sum(tuple(weights.items()), at_most, _AWAY)
    # On this side the mirrored number is at most the bound; the nearest has the greatest.
    objective = Objective(tuple(whole(mirrored).items())).negated()
    return inquiry.good(space.extended(sums=[side]), objective)


def _changes(machine: Machine, wish: Wish, values: Mapping[str, int]) -> Iterator[Change]:
    if wish.level is not None:
        reached = wish.level.linear.value(values)
        dimension = wish.level.linear.dimension
        yield Change(
            wish.level.words, amount(wish.level.bound, dimension), amount(reached, dimension)
        )
    elif wish.asked:
        for choice, index in wish.asked:
            if values[choice] != index:
                options = machine.frame.options(choice)
                yield Change(choice, options[index].label, options[values[choice]].label)
    else:
        yield Change(wish.text, "asked", instead(machine, wish, values))


def _splits(inquiry: Inquiry, wishes: Sequence[Wish]) -> Iterator[tuple[str, Nearest]]:
    """Arrays that do not fit can be split otherwise, with the same number of drives.

    Yields the key of the wish with its nearest split.
    """
    machine = inquiry.machine
    for wish in wishes:
        rest = [other for other in wishes if other is not wish]
        for other in other_splits(machine, wish) if wish.arrays else ():
            space = with_wishes(machine.space, [*rest, other])
            if inquiry.possible(space) is not None:
                change = Change("arrays", _sizes(wish.arrays), _sizes(other.arrays))
                values = cheapest(inquiry, space)
                if values is not None:
                    yield wish.key, Nearest((change,), witness(machine, values))
                break


def _sizes(arrays: Sequence[int]) -> str:
    return " + ".join(map(str, arrays))
