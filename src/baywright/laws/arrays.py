"""Arrays: which sizes fit, each under one controller."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from baywright.facts.parts import Drive
from baywright.laws.controllers import cable_of, cabled_zones, controller_slots
from baywright.laws.formula import AllOf, AtMost, Exists, Formula, NotEncodable, Rows
from baywright.laws.frame import Frame, Option, Weigh
from baywright.laws.linear import Linear, added
from baywright.laws.selection import selects
from baywright.laws.subsystem import Function, Subsystem
from baywright.laws.zones import drives_of
from baywright.space import Choice
from baywright.terms import Arguments
from baywright.terms.standard import arrays as arrays_entry
from baywright.terms.syntax import Number


def arrays(frame: Frame, sizes: Sequence[int], counts: Weigh) -> Formula:
    """Return the formula that arrays of those sizes fit, each under one controller.

    Each array goes to one slot; what the arrays of a slot ask for is at most the drives that
    its controller drives.

    Args:
        frame: the choices.
        sizes: drives of each array.
        counts: 1 for a drive that may be in an array, 0 for others.
    """
    slots = tuple(controller_slots(frame.book))
    # Counts tell builds apart by their parts and cables, not by where an array could go.
    homes = [
        Choice(f"array {position} of {size}", slots, derived=True)
        for position, size in enumerate(sizes, 1)
    ]
    shares: list[Choice] = []
    terms: list[Formula] = []
    for index, slot in enumerate(slots):
        driven = [_driven(frame, zone, slot, counts) for zone in cabled_zones(frame.book)]
        each = [share for zone in driven for share in zone]
        shares += [choice for choice, _ in each]
        terms += [rows for _, rows in each]
        there = added(_number_of(choice) for choice, _ in each)
        asked = added(
            Linear({home.name: tuple(Fraction(size * (i == index)) for i in range(len(slots)))})
            for home, size in zip(homes, sizes, strict=True)
        )
        terms.append(AtMost(asked.minus(there), Fraction(0)))
    return Exists((*homes, *shares), AllOf(tuple(terms)))


def _driven(frame: Frame, zone: str, slot: str, counts: Weigh) -> list[tuple[Choice, Rows]]:
    """Return, for each drive choice of a zone, how many of its drives the slot drives."""
    found = []
    cables = frame.options(cable_of(zone))
    for drives in drives_of(frame.book, zone):
        numbers = [_matching(frame, option, counts) for option in frame.options(drives)]
        labels = tuple(map(str, range(max(numbers) + 1)))
        share = Choice(f"{drives} for arrays on {slot}", labels, derived=True)
        rows = frozenset(
            (i, j, number if cable.value == slot else 0)
            for i, number in enumerate(numbers)
            for j, cable in enumerate(cables)
        )
        found.append((share, Rows((drives, cable_of(zone), share.name), rows)))
    return found


def _number_of(choice: Choice) -> Linear:
    return Linear({choice.name: tuple(map(Fraction, range(choice.size)))})


def _matching(frame: Frame, option: Option, counts: Weigh) -> int:
    drives = (
        int(counts(name, part)) * number
        for name, part, number in frame.parts_in(option)
        if isinstance(part, Drive)
    )
    return sum(drives)


def array_sizes(arguments: Arguments) -> tuple[int, ...]:
    """Return the sizes that a call of ``arrays`` asks for.

    Raises:
        NotEncodable: when a size is not a positive whole number.
    """
    sizes = [arguments.given["size"], *arguments.repeated]
    values = [size.value for size in sizes if isinstance(size, Number)]
    if len(values) < len(sizes) or any(v.denominator != 1 or v < 1 for v in values):
        raise NotEncodable("the sizes of arrays are whole numbers, such as arrays(16, 8)")
    return tuple(int(value) for value in values)


def _arrays(frame: Frame, arguments: Arguments) -> Formula:
    return arrays(frame, array_sizes(arguments), selects(arguments))


def _functions(frame: Frame) -> Mapping[str, Function]:
    return {"arrays": Function(arrays_entry("drive"), _arrays)}


SUBSYSTEM = Subsystem("arrays", functions=_functions)
