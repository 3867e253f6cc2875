"""Choices, tables and sums, each with its origin."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal, TypeAlias

from baywright.facts.citation import Citation

Kind = Literal["law", "rule", "wish"]

Assignment: TypeAlias = Mapping[str, int]
"""A value index for each choice, by the name of the choice."""


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a table or a sum comes from. All that share a key stand or fall together.

    Args:
        key: identity of the law, rule or wish, such as ``slots.owner/R3a``.
        kind: ``law`` follows from structure, ``rule`` is stated by the book, ``wish`` by the asker.
        sentence: what it says, one sentence a person can copy.
        facts: the facts it stands on.
    """

    key: str
    kind: Kind
    sentence: str
    facts: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True)
class Choice:
    """A named variable with a small list of values.

    Args:
        name: unique name.
        values: labels of the values; a value is referred to by its index.
        derived: true when the other choices determine it, so that counts leave it out.
        structure: what the book says the values can be, shown when a wish asks for more.
    """

    name: str
    values: tuple[str, ...]
    derived: bool = False
    structure: Origin | None = None

    @property
    def size(self) -> int:
        """Number of values."""
        return len(self.values)


@dataclass(frozen=True, slots=True)
class Table:
    """A few choices and the value rows they allow.

    Args:
        scope: names of the choices; an empty scope with no rows can never hold.
        rows: allowed rows of value indices, one index for each choice of the scope.
        origin: where it comes from.
    """

    scope: tuple[str, ...]
    rows: frozenset[tuple[int, ...]]
    origin: Origin


@dataclass(frozen=True, slots=True)
class Sum:
    """Whole numbers per value, added over choices, that total at most a bound.

    Args:
        weights: for each choice of the scope, a weight for each of its values.
        at_most: the bound; both it and the weights may be negative.
        origin: where it comes from.
        unit: name of the unit the numbers are in, for people.
    """

    weights: tuple[tuple[str, tuple[int, ...]], ...]
    at_most: int
    origin: Origin
    unit: str = ""

    @property
    def scope(self) -> tuple[str, ...]:
        """Names of the choices that carry weights."""
        return tuple(name for name, _ in self.weights)


Law: TypeAlias = Table | Sum
"""Anything that can be broken."""


@dataclass(frozen=True)
class Space:
    """Choices with the tables and sums over them.

    Raises:
        ValueError: when a table or a sum names a choice or a value that does not exist.
    """

    choices: tuple[Choice, ...]
    tables: tuple[Table, ...] = ()
    sums: tuple[Sum, ...] = ()
    _by_name: dict[str, Choice] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        self._check(self.tables, self.sums)

    def _check(self, tables: Iterable[Table], sums: Iterable[Sum]) -> None:
        by_name = {choice.name: choice for choice in self.choices}
        if len(by_name) != len(self.choices):
            raise ValueError("two choices share a name")
        object.__setattr__(self, "_by_name", by_name)
        for table in tables:
            _check_table(table, by_name)
        for total in sums:
            _check_sum(total, by_name)

    def choice(self, name: str) -> Choice:
        """Return the choice of that name, or raise ``KeyError``."""
        return self._by_name[name]

    def __contains__(self, name: str) -> bool:
        return name in self._by_name

    @property
    def laws(self) -> tuple[Law, ...]:
        """All tables, then all sums."""
        return (*self.tables, *self.sums)

    @cached_property
    def origins(self) -> dict[str, Origin]:
        """Every origin by its key, in order of first appearance."""
        found: dict[str, Origin] = {}
        for law in self.laws:
            found.setdefault(law.origin.key, law.origin)
        return found

    def extended(
        self,
        choices: Iterable[Choice] = (),
        tables: Iterable[Table] = (),
        sums: Iterable[Sum] = (),
    ) -> Space:
        """Return a space with more choices, tables and sums; only these are checked."""
        more_tables, more_sums = tuple(tables), tuple(sums)
        return _unchecked(
            (*self.choices, *choices),
            (*self.tables, *more_tables),
            (*self.sums, *more_sums),
            new=(more_tables, more_sums),
        )

    def without(self, keys: Iterable[str]) -> Space:
        """Return the space without the tables and sums of those origins."""
        dropped = frozenset(keys)
        return _unchecked(
            self.choices,
            tuple(t for t in self.tables if t.origin.key not in dropped),
            tuple(s for s in self.sums if s.origin.key not in dropped),
        )

    def only(self, keys: Iterable[str]) -> Space:
        """Return the space with the tables and sums of those origins alone."""
        return self.without(frozenset(self.origins) - frozenset(keys))


def _unchecked(
    choices: tuple[Choice, ...],
    tables: tuple[Table, ...],
    sums: tuple[Sum, ...],
    new: tuple[tuple[Table, ...], tuple[Sum, ...]] = ((), ()),
) -> Space:
    """Return a space most of whose tables and sums have been checked in another one."""
    space = object.__new__(Space)
    for name, value in (("choices", choices), ("tables", tables), ("sums", sums)):
        object.__setattr__(space, name, value)
    space._check(*new)
    return space


def _check_table(table: Table, by_name: Mapping[str, Choice]) -> None:
    sizes = [_size(name, by_name, table.origin.key) for name in table.scope]
    for row in table.rows:
        if len(row) != len(sizes) or not all(
            0 <= value < size for value, size in zip(row, sizes, strict=True)
        ):
            raise ValueError(f"{table.origin.key}: row {row} does not fit the scope {table.scope}")


def _check_sum(total: Sum, by_name: Mapping[str, Choice]) -> None:
    for name, weights in total.weights:
        if len(weights) != _size(name, by_name, total.origin.key):
            raise ValueError(f"{total.origin.key}: {name} needs a weight for each value")
    if len(set(total.scope)) != len(total.scope):
        raise ValueError(f"{total.origin.key}: a choice carries weights twice")


def _size(name: str, by_name: Mapping[str, Choice], key: str) -> int:
    if name not in by_name:
        raise ValueError(f"{key}: there is no choice {name!r}")
    return by_name[name].size
