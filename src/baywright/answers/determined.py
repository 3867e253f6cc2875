"""Whether the other choices of a space determine its derived ones, as counts take for granted."""

from __future__ import annotations

from collections.abc import Collection

from baywright.answers.inquiry import StoppedError
from baywright.engines.contract import Cut, Engine, Limit, Possible
from baywright.space import Choice, Law, Origin, Space, Sum, Table

_APART = Origin("determined.apart", "law", "The two builds differ.")
_WHERE = "where the builds differ"


def all_determined(space: Space, judge: Engine, limit: Limit) -> bool:
    """Say whether no two legal builds differ in derived choices alone.

    Most derived choices are shown to be determined by a table. The others are asked for: the
    builds of the space with a twin of each of them are pairs that agree in everything else.

    Args:
        space: the space.
        judge: the engine that looks for such a pair.
        limit: its time.

    Raises:
        StoppedError: when the judge reaches its limit.
    """
    loose = _not_shown(space)
    if not loose:
        return True
    found = judge.prove(_pairs(space, loose), limit=limit)
    if isinstance(found, Cut):
        names = ", ".join(loose)
        raise StoppedError(f"{judge.name} could not tell in time whether {names} are determined")
    return not isinstance(found, Possible)


def _not_shown(space: Space) -> list[str]:
    """Return the derived choices that no chain of tables shows to be determined."""
    known = {choice.name for choice in space.choices if not choice.derived}
    before = -1
    while before != len(known):
        before = len(known)
        known.update(name for table in space.tables for name in _shown(table, known))
    return [choice.name for choice in space.choices if choice.name not in known]


def _shown(table: Table, known: Collection[str]) -> list[str]:
    """Return the one choice that a table determines by choices that are known, if it does."""
    missing = {name for name in table.scope if name not in known}
    kept = [place for place, name in enumerate(table.scope) if name in known]
    if len(missing) != 1 or len({tuple(r[i] for i in kept) for r in table.rows}) < len(table.rows):
        return []
    return list(missing)


def _twin(name: str) -> str:
    return f"{name} (twin)"


def _pairs(space: Space, loose: Collection[str]) -> Space:
    """Return the space whose builds are pairs that differ in one of the choices at least.

    Pairs come in both orders, so it is enough to look for those in which the first has the
    lower value in the choice where they are told to differ.
    """
    choices = [space.choice(name) for name in loose]
    where = Choice(_WHERE, tuple(loose))
    laws = [_renamed(law, loose) for law in space.laws if not set(loose).isdisjoint(law.scope)]
    sums = [law for law in laws if isinstance(law, Sum)]
    sums += [_lower(choice, place, len(choices)) for place, choice in enumerate(choices)]
    return space.extended(
        (*(Choice(_twin(choice.name), choice.values) for choice in choices), where),
        (law for law in laws if isinstance(law, Table)),
        sums,
    )


def _lower(choice: Choice, place: int, places: int) -> Sum:
    """Say that a choice has a lower value than its twin, when that is where they differ."""
    values = tuple(range(choice.size))
    here = tuple(choice.size if other == place else 0 for other in range(places))
    twin = tuple(-value for value in values)
    weights = ((choice.name, values), (_twin(choice.name), twin), (_WHERE, here))
    return Sum(weights, choice.size - 1, _APART)


def _renamed(law: Law, loose: Collection[str]) -> Law:
    def new(name: str) -> str:
        return _twin(name) if name in loose else name

    if isinstance(law, Table):
        return Table(tuple(map(new, law.scope)), law.rows, law.origin)
    return Sum(tuple((new(n), w) for n, w in law.weights), law.at_most, law.origin, law.unit)
