"""Spaces that the tests of the diagram engine ask about."""

from __future__ import annotations

import itertools
import json
from pathlib import Path

import pytest

from baywright.space import Choice, Origin, Space, Sum, Table

DATA = Path(__file__).parents[4] / "shared" / "data"


def origin(key: str) -> Origin:
    return Origin(key, "law", f"The law of {key} holds.")


def choices(*sizes: int) -> tuple[Choice, ...]:
    """Choices named a, b, c and so on."""
    return tuple(
        Choice(chr(ord("a") + number), tuple(map(str, range(size))))
        for number, size in enumerate(sizes)
    )


def total(at_most: int, key: str = "sum", /, **weights: tuple[int, ...]) -> Sum:
    return Sum(tuple(weights.items()), at_most, origin(key))


def kept_outside(*parts: str) -> Path:
    """A file beside the repository, or a skipped test when it is not there."""
    file = DATA.joinpath(*parts)
    if not file.exists():
        pytest.skip(f"{file} is not there; it is kept outside the repository")
    return file


def two_socket() -> Space:
    """A synthetic platform of 93 choices; what is known about it stands beside the file."""
    data = json.loads(kept_outside("spaces", "two-socket.json").read_text(encoding="utf-8"))
    return Space(
        tuple(Choice(n, tuple(v), n in data["derived"]) for n, v in data["choices"].items()),
        tuple(
            Table(tuple(t["over"]), frozenset(map(tuple, t["rows"])), origin(t["id"]))
            for t in data["tables"]
        ),
        tuple(
            Sum(
                tuple((n, tuple(w)) for n, w in s["weights"].items()), s["at_most"], origin(s["id"])
            )
            for s in data["sums"]
        ),
    )


def clauses(text: str) -> Space:
    """A space of Boolean choices from clauses in DIMACS form: a table for each clause."""
    rows = [line.split() for line in text.splitlines()]
    count = next(int(row[2]) for row in rows if row[:1] == ["p"])
    literals = [[int(word) for word in row[:-1]] for row in rows if row and row[0] not in "cp"]
    names = [str(number) for number in range(1, count + 1)]
    return Space(
        tuple(Choice(name, ("false", "true")) for name in names),
        tuple(_clause(clause, place) for place, clause in enumerate(literals)),
    )


def _clause(literals: list[int], place: int) -> Table:
    scope = sorted({abs(literal) for literal in literals})
    allowed = (
        row
        for row in itertools.product((0, 1), repeat=len(scope))
        if any(row[scope.index(abs(literal))] == (literal > 0) for literal in literals)
    )
    return Table(tuple(map(str, scope)), frozenset(allowed), origin(f"clause {place}"))
