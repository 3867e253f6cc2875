"""What a build has where it does not have what was asked."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.answers.figures import amount
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Span
from baywright.laws.wishes import Wish
from baywright.laws.wording import listed
from baywright.terms.syntax import Compare, Name


def instead(machine: Machine, wish: Wish, values: Mapping[str, int]) -> str:
    """Return what a build has of the place, setting or value that a wish speaks of."""
    if not isinstance(wish.term, Compare) or not isinstance(wish.term.left, Name):
        return "given up"
    name = wish.term.left.name
    named = machine.names.get(name)
    if named is None:
        return _labels(machine, machine.frame.at(name), values)
    match named.meaning:
        case Span(low, _):
            return _labels(machine, low.scope, values)
        case Lookup(scope, value, dimension):
            found = value(*(machine.frame.options(c)[values[c]] for c in scope))
            if found is None:
                return "none"
            return str(found) if isinstance(found, int) else amount(found.canonical, dimension)
        case _:
            return "given up"


def _labels(machine: Machine, choices: tuple[str, ...], values: Mapping[str, int]) -> str:
    return listed(machine.frame.options(choice)[values[choice]].label for choice in choices)
