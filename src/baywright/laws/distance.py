"""How far one value of a choice is from another: the smaller, the lighter the change."""

from __future__ import annotations

from baywright.facts.parts import Drive
from baywright.laws.frame import Option
from baywright.laws.machine import Machine

PER_DRIVE, PER_PIECE, OTHER_PART, EMPTIED = 40, 5, 100, 5
"""A drive more or less; any other piece; another part in its place; a place emptied or filled."""


def distance(machine: Machine, choice: str, asked: int) -> tuple[int, ...]:
    """Return the distance of every value of a choice from the one asked for."""
    options = machine.frame.options(choice)
    return tuple(
        0 if index == asked else 1 + _between(machine, options[asked], option)
        for index, option in enumerate(options)
    )


def _between(machine: Machine, asked: Option, other: Option) -> int:
    pieces = abs(asked.count - other.count) * _piece(machine, asked if asked.parts else other)
    if not asked.parts or not other.parts:
        return EMPTIED + pieces
    same = {part for part, _ in asked.parts} == {part for part, _ in other.parts}
    return pieces + (0 if same else OTHER_PART + _steps(machine, asked, other))


def _piece(machine: Machine, option: Option) -> int:
    drives = any(isinstance(machine.book.parts[part], Drive) for part, _ in option.parts)
    return PER_DRIVE if drives else PER_PIECE


def _steps(machine: Machine, asked: Option, other: Option) -> int:
    """Return how many parts of the book lie between two parts: the next size is the nearest."""
    order = list(machine.book.parts)
    return abs(order.index(asked.parts[0][0]) - order.index(other.parts[0][0]))
