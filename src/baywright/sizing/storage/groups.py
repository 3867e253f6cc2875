"""Groups: the drives alike behind one controller, which an array may span."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from baywright.facts.parts import Drive
from baywright.laws.controllers import cable_of
from baywright.laws.frame import Option
from baywright.sizing.case import Case, Truths
from baywright.sizing.equation import Reals


@dataclass(frozen=True, slots=True)
class Group:
    """Drives of one part behind one controller, or without one.

    Args:
        slot: the slot of the controller, or ``None`` for drives on lanes and ports of the board.
        name: id of the drive.
        drive: the drive.
        counts: how many each build has.
    """

    slot: str | None
    name: str
    drive: Drive
    counts: Reals


def groups_of(case: Case) -> list[Group]:
    """Return the groups of drives that some build has."""
    counts: dict[tuple[str | None, str], Reals] = {}
    for choice in case.codes:
        for drive, held in drives_held(case, choice):
            for slot, there in _cabled(case, case.frame.fittings[choice].place):
                so_far = counts.get((slot, drive), np.zeros(case.size))
                counts[slot, drive] = so_far + held * there
    return list(_found(case, counts))


def _found(case: Case, counts: Mapping[tuple[str | None, str], Reals]) -> Iterator[Group]:
    for (slot, name), count in counts.items():
        part = case.book.parts[name]
        if isinstance(part, Drive) and count.any():
            yield Group(slot, name, part, count)


def drives_held(case: Case, choice: str) -> Iterator[tuple[str, Reals]]:
    """Yield each drive that a choice can put in, and how many of it each build has there."""
    options = case.frame.options(choice)
    names = dict.fromkeys(name for option in options for name, _ in option.parts)
    for name in names:
        if isinstance(case.book.parts[name], Drive):
            row = [dict(option.parts).get(name, 0) for option in options]
            yield name, np.array(row, np.float64)[case.codes[choice]]


def _cabled(case: Case, place: str) -> Iterator[tuple[str | None, Truths]]:
    """Yield each slot that may drive a place, and which builds have it so."""
    cable = cable_of(place)
    if cable not in case.codes:
        yield None, np.ones(case.size, bool)
        return
    for code, option in enumerate(case.frame.options(cable)):
        slot = option.value if isinstance(option.value, str) else None
        yield slot, case.codes[cable] == code


def of_distinct(
    case: Case, choices: Iterable[str], value: Callable[[Mapping[str, Option]], float]
) -> Reals:
    """Return a number of each build that some choices settle, worked out once for each layout.

    Args:
        case: the builds.
        choices: names of the choices; those the builds do not have are passed over.
        value: the number, given the option of each choice.
    """
    names = [name for name in dict.fromkeys(choices) if name in case.codes]
    sizes = [len(case.frame.options(name)) for name in names]
    rows = np.ravel_multi_index([case.codes[name] for name in names], sizes)
    distinct, back = np.unique(rows, return_inverse=True)
    codes = np.transpose(np.unravel_index(distinct, sizes))
    found = [
        value({name: case.frame.options(name)[code] for name, code in zip(names, row, strict=True)})
        for row in codes
    ]
    return np.array(found, np.float64)[back]


def worst(values: Iterable[Reals], size: int) -> Reals:
    """Return the greatest of some numbers for each build; one not decided leaves it so."""
    found = np.zeros(size)
    for each in values:
        found = np.maximum(found, each)
    return found
