"""A public feature model whose number of solutions is published.

Source: the feature model "berkeleydb" in DIMACS form, 76 Boolean choices; exactly 4,080,389,785
solutions stand in the test suites of public model counters. Read in a stored copy beside the
repository; without it the test is left out. The number is exact, so no tolerance.
"""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from baywright.engines.registry import engines
from baywright.space import Choice, Origin, Space, Table

MODEL = Path(__file__).parents[3] / "shared" / "data" / "counting" / "berkeleydb.dimacs"
SOLUTIONS = 4_080_389_785


def clauses(text: str) -> list[list[int]]:
    """Return the clauses: a literal is the number of a choice, negative where it is denied."""
    lines = (line.split() for line in text.splitlines() if line and line[0] not in "cp")
    return [[int(word) for word in line[:-1]] for line in lines]


def table(literals: list[int], origin: Origin) -> Table:
    """Return the rows that one literal at least makes true."""
    scope = tuple(str(abs(literal)) for literal in literals)
    refused = tuple(int(literal < 0) for literal in literals)
    rows = itertools.product((0, 1), repeat=len(scope))
    return Table(scope, frozenset(row for row in rows if row != refused), origin)


@pytest.mark.skipif(not MODEL.is_file(), reason=f"{MODEL.name} is not beside the repository")
def test_the_published_number_of_solutions() -> None:
    read = clauses(MODEL.read_text(encoding="utf-8"))
    choices = tuple(Choice(str(number), ("no", "yes")) for number in range(1, 77))
    origin = Origin("model", "law", "The feature model holds.")
    space = Space(choices, tuple(table(literals, origin) for literals in read))
    assert engines()["diagram"].count(space) == SOLUTIONS
