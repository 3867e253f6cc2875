"""Formulas in clauses as spaces: the DIMACS form that solvers and counters share.

Every variable is a choice of no and yes. A clause is a table, or a sum where it is long. The form
is that of the DIMACS challenge (1993); ``c p show`` lines name the variables that tell solutions
apart, as in the model counting competitions. Lines such as ``c 12 name`` name a variable.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from baywright.facts.citation import Citation
from baywright.facts.readers import shown
from baywright.problems import Mark, Problem, Problems, problem
from baywright.space import Choice, Law, Origin, Space, Sum, Table

MOST_VARIABLES = 5_000
MOST_CLAUSES = 10_000
MOST_LITERALS = 5_000_000
"""Of all clauses together."""

LONGEST_TABLE = 6
"""A clause of more variables is a sum: as a table it would have more than 2 to this power rows."""

_HEADER = re.compile(r"p\s+cnf\s+([0-9]{1,9})\s+([0-9]{1,9})\s*")
_NAME = re.compile(r"c\s+([0-9]{1,9})\s+(\S{1,300})\s*")
_SHOW = re.compile(r"c\s+p\s+show\s+(.*)")
_LITERAL = re.compile(r"-?[0-9]{1,9}")


@dataclass(slots=True)
class _Formula:
    """What the lines say.

    Args:
        file: name of the file in problems.
        variables: how many variables the header promises; below 0 before it is read.
        clauses: how many clauses it promises.
        names: names of variables.
        shown: the words of lines that name what tells solutions apart, each with its line.
        found: the clauses, each with its line.
        problems: what is wrong.
    """

    file: str
    variables: int = -1
    clauses: int = 0
    names: dict[int, str] = field(default_factory=dict)
    shown: list[tuple[int, str]] = field(default_factory=list)
    found: list[tuple[int, tuple[int, ...]]] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def refuse(self, line: int, message: str, hint: str) -> None:
        """Note a problem; after many of them give up."""
        self.problems.append(Problem("dimacs", message, Mark(self.file, line, 1), hint))
        if len(self.problems) >= 50:
            raise Problems(self.problems)


def space_of_clauses(text: str, file: str) -> Space:
    """Read a formula.

    Args:
        text: the text.
        file: name of the file in problems.

    Raises:
        Problems: kind ``dimacs``, each with its line.
    """
    formula = _Formula(file)
    for line, literals in _clauses(formula, text):
        formula.found.append((line, literals))
    last = text.count("\n") + 1
    if formula.variables < 0:
        formula.refuse(1, "There is no line 'p cnf'.", "Write 'p cnf VARIABLES CLAUSES' first.")
    elif len(formula.found) != formula.clauses:
        message = f"There are {len(formula.found):,} clauses; the header says {formula.clauses:,}."
        formula.refuse(last, message, "Correct the header, or look for a clause without its 0.")
    told_apart = {abs(_literal(formula, line, word)) for line, word in formula.shown} - {0}
    if formula.problems:
        raise Problems(formula.problems)
    return _space(formula, told_apart)


def _clauses(formula: _Formula, text: str) -> Iterator[tuple[int, tuple[int, ...]]]:
    """Yield the clauses with the line each begins in; one may spread over several lines."""
    begun, literals, number = 0, [], 0
    for line, written in enumerate(text.split("\n"), 1):
        stripped = written.strip()
        if stripped == "%":
            break
        if stripped.startswith("c"):
            _comment(formula, line, stripped)
            continue
        if stripped.startswith("p"):
            _header(formula, line, stripped)
            continue
        for word in stripped.split():
            begun = begun or line
            number += 1
            _check_amount(formula, line, number)
            literal = _literal(formula, line, word)
            if literal:
                literals.append(literal)
            else:
                yield begun, tuple(literals)
                begun, literals = 0, []
    if literals:
        formula.refuse(begun, "This clause has no end.", "End it with 0.")


def _check_amount(formula: _Formula, line: int, number: int) -> None:
    if number > MOST_LITERALS:
        message = f"There are more than {MOST_LITERALS:,} literals."
        raise problem("too-large", message, Mark(formula.file, line, 1), "Give a smaller formula.")


def _header(formula: _Formula, line: int, written: str) -> None:
    match = _HEADER.fullmatch(written)
    if match is None or formula.variables >= 0:
        formula.refuse(line, "This header cannot be read.", "Write one 'p cnf VARIABLES CLAUSES'.")
        return
    formula.variables, formula.clauses = int(match[1]), int(match[2])
    if formula.variables > MOST_VARIABLES or formula.clauses > MOST_CLAUSES:
        message = f"{formula.variables:,} variables and {formula.clauses:,} clauses are too many."
        hint = f"Up to {MOST_VARIABLES:,} variables and {MOST_CLAUSES:,} clauses can be read."
        raise problem("too-large", message, Mark(formula.file, line, 1), hint)


def _comment(formula: _Formula, line: int, written: str) -> None:
    """Read a name or the variables shown; any other comment says nothing about the formula."""
    if match := _NAME.fullmatch(written):
        name = match[2]
        if name.isprintable() and name not in formula.names.values():
            formula.names[int(match[1])] = name
    elif match := _SHOW.fullmatch(written):
        formula.shown += [(line, word) for word in match[1].split()]


def _literal(formula: _Formula, line: int, word: str) -> int:
    """Return a literal; 0 also after a refusal."""
    if _LITERAL.fullmatch(word) is None:
        formula.refuse(line, f"{shown(word)} is no literal.", "Write whole numbers, 0 at the end.")
        return 0
    literal = int(word)
    if abs(literal) > formula.variables:
        hint = f"The header says {formula.variables:,} variables."
        if formula.variables < 0:
            hint = "The header 'p cnf VARIABLES CLAUSES' comes before the clauses."
        formula.refuse(line, f"There is no variable {abs(literal)}.", hint)
        return 0
    return literal


def _space(formula: _Formula, told_apart: set[int]) -> Space:
    numbers = range(1, formula.variables + 1)
    names = {n: formula.names.get(n, f"x{n}") for n in numbers}
    if len(set(names.values())) < len(names):
        message = "A variable is named like another one without a name."
        mark = Mark(formula.file, 1, 1)
        raise problem("dimacs", message, mark, "Name the variables otherwise than x1, x2, ...")
    laws = [
        _law(formula.file, line, place, literals, names)
        for place, (line, literals) in enumerate(formula.found, 1)
        if not any(-literal in literals for literal in literals)
    ]
    return Space(
        tuple(
            Choice(names[n], ("no", "yes"), bool(formula.shown) and n not in told_apart)
            for n in numbers
        ),
        tuple(law for law in laws if isinstance(law, Table)),
        tuple(law for law in laws if isinstance(law, Sum)),
    )


def _law(file: str, line: int, place: int, clause: tuple[int, ...], names: dict[int, str]) -> Law:
    """Return a clause as a table or a sum; one that always holds has been left out."""
    literals = tuple(dict.fromkeys(clause))
    said = (
        ", ".join(f"{names[abs(n)]} is {'yes' if n > 0 else 'no'}" for n in literals) or "nothing"
    )
    sentence = f"At least one holds: {said}." if len(literals) > 1 else f"Always: {said}."
    text = " ".join(map(str, literals))
    fact = Citation(f"clause {place}", text, Mark(file, line, 1))
    origin = Origin(f"clause {place}", "law", sentence, (fact,))
    scope = tuple(names[abs(n)] for n in literals)
    if len(literals) > LONGEST_TABLE:
        # At least one literal holds: each that does counts one against the bound.
        weights = ((0, -1) if n > 0 else (-1, 0) for n in literals)
        return Sum(tuple(zip(scope, weights, strict=True)), -1, origin)
    broken = tuple(int(n < 0) for n in literals)
    every = itertools.product((0, 1), repeat=len(literals))
    return Table(scope, frozenset(row for row in every if row != broken), origin)
