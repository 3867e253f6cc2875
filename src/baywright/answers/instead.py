"""What a build has where it does not have what was asked."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.answers.figures import amount
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Lowest, Span
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
        case Lookup() | Lowest() as looked_up:
            options = (machine.frame.options(c)[values[c]] for c in looked_up.scope)
            number = looked_up.number(*options)
            return "none" if number is None else amount(number, looked_up.dimension)
        case _:
            return "given up"


def _labels(machine: Machine, choices: tuple[str, ...], values: Mapping[str, int]) -> str:
    return listed(machine.frame.options(choice)[values[choice]].label for choice in choices)
