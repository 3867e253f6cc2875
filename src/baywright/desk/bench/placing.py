"""Places of the bench: which choices belong to a place, what is settled, and what is pinned."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from baywright.laws.machine import Machine
from baywright.problems import problem, suggestion


def place_of(machine: Machine, choice: str) -> str:
    """Return the place or setting that a choice is shown with; a cable goes with its zone."""
    place = choice.partition(" ")[0]
    return place if place in machine.book.places else choice


def choices_by_place(machine: Machine) -> dict[str, tuple[str, ...]]:
    """Return the choices of each place and setting, the main one first."""
    found: dict[str, tuple[str, ...]] = {}
    for name, fitting in machine.frame.fittings.items():
        if not fitting.derived:
            place = place_of(machine, name)
            found[place] = (*found.get(place, ()), name)
    return found


def settled(
    choices: Sequence[str], chosen: Mapping[str, int], options: Mapping[str, frozenset[int]]
) -> dict[str, int]:
    """Return the choices that are made, or that have one value left, with their values."""
    found = {}
    for name in choices:
        if name in chosen:
            found[name] = chosen[name]
        elif len(options[name]) == 1:
            found[name] = next(iter(options[name]))
    return found


def check_pins(machine: Machine, pins: Iterable[str]) -> frozenset[str]:
    """Return the pinned places.

    Raises:
        Problems: kind ``no-place``, for one that there is not.
    """
    found, known = frozenset(pins), choices_by_place(machine)
    for place in sorted(found - known.keys()):
        message = f"There is no place {place!r} to pin."
        raise problem("no-place", message, None, suggestion(place, known))
    return found


def values_held(
    machine: Machine,
    pins: frozenset[str],
    chosen: Mapping[str, int],
    options: Mapping[str, frozenset[int]],
) -> dict[str, int]:
    """Return the values of the choices of pinned places, as far as they are settled."""
    choices = [
        name
        for place, names in choices_by_place(machine).items()
        if place in pins
        for name in names
    ]  # fmt: skip
    return settled(choices, chosen, options)
