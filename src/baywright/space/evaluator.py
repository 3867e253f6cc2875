"""The plain evaluator: the page of code that every witness has to pass."""

from __future__ import annotations

from baywright.space.model import Assignment, Law, Space, Sum, Table


def holds(law: Law, assignment: Assignment) -> bool:
    """Say whether one table or sum holds in a complete assignment."""
    match law:
        case Table():
            return tuple(assignment[name] for name in law.scope) in law.rows
        case Sum():
            return sum(weights[assignment[name]] for name, weights in law.weights) <= law.at_most


def broken(space: Space, assignment: Assignment) -> tuple[Law, ...]:
    """Return every table and sum that a complete assignment breaks; none means it is legal.

    Raises:
        ValueError: when the assignment leaves a choice open or names a value that does not exist.
    """
    for choice in space.choices:
        if not 0 <= assignment.get(choice.name, -1) < choice.size:
            raise ValueError(f"the assignment gives no value of {choice.name!r}")
    return tuple(law for law in space.laws if not holds(law, assignment))
