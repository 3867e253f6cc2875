"""Builds against a machine: a build file as wishes, an assignment as parts in places."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from baywright.facts.build import Build, Fitted, Item
from baywright.facts.fact import mark_of
from baywright.facts.parts import Controller
from baywright.facts.places import Bank, Fans, Mount, Socket, Zone
from baywright.laws.controllers import cable_of, controller_slots
from baywright.laws.frame import Option
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish
from baywright.laws.wording import listed
from baywright.problems import Problem, Problems, suggestion
from baywright.space import Assignment, Origin, Table


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a build: what a place, a cable or a setting has.

    Args:
        choice: name of the choice.
        place: id of the place or setting it belongs to.
        label: its value as written in a table.
    """

    choice: str
    place: str
    label: str


def lines_of(machine: Machine, assignment: Assignment) -> list[Line]:
    """Return a complete build line by line, empty places and what follows from others left out."""
    return [
        Line(name, fitting.place, fitting.options[assignment[name]].label)
        for name, fitting in machine.frame.fittings.items()
        if not fitting.derived and _says_something(fitting.options[assignment[name]])
    ]


def _says_something(option: Option) -> bool:
    return bool(option.parts) or option.value is not None


def parts_list(machine: Machine, assignment: Assignment) -> dict[str, int]:
    """Return how many of each part a build has, what parts bring included."""
    counts: dict[str, int] = {}
    for name, fitting in machine.frame.fittings.items():
        if not fitting.derived:
            for part, _, number in machine.frame.parts_in(fitting.options[assignment[name]]):
                counts[part] = counts.get(part, 0) + number
    return counts


def build_wishes(machine: Machine, build: Build) -> list[Wish]:
    """Return a build as wishes, one for each group of places that changes together.

    Raises:
        Problems: for what the book has no choice for, all of them.
    """
    found: list[Problem] = []
    fixed: dict[str, dict[str, int]] = {}
    for choice, wanted, written in _wanted(machine, build):
        options = machine.frame.options(choice)
        index = next((i for i, option in enumerate(options) if _same(option, wanted)), None)
        if index is None:
            found.append(_no_such(machine, choice, written))
        else:
            fixed.setdefault(_group(machine, choice, index), {})[choice] = index
    if found:
        raise Problems(found)
    return [_wish(machine, group, values) for group, values in fixed.items()]


def codes_of(machine: Machine, build: Build) -> dict[str, int]:
    """Return the index of every choice that is not derived, as a build file has it.

    A place of which the file says nothing is empty, or holds what is always there; a setting
    has its first value.

    Raises:
        Problems: for what the book has no choice for, all of them.
    """
    asked = {choice: code for wish in build_wishes(machine, build) for choice, code in wish.asked}
    fittings = machine.frame.fittings.items()
    return {name: asked.get(name, 0) for name, fitting in fittings if not fitting.derived}


def _wanted(machine: Machine, build: Build) -> Iterator[tuple[str, Option, str]]:
    """Yield, for each choice a build speaks of, what it wants there and how it is written."""
    for place, fitted in build.places.items():
        for choice, items in _by_choice(machine, place, fitted):
            wanted = Option("", tuple(sorted((item.part, item.count) for item in items)))
            yield choice, wanted, " + ".join(f"{i.count} x {i.part}" for i in items) or "empty"
        if fitted.controller is not None:
            yield cable_of(place), Option("", value=str(fitted.controller)), str(fitted.controller)
    for setting, value in build.settings.items():
        yield setting, Option("", value=str(value)), str(value)


def _by_choice(machine: Machine, place: str, fitted: Fitted) -> Iterator[tuple[str, list[Item]]]:
    """Share the parts written for a place among its choices: a zone has one for its drives."""
    choices = machine.frame.at(place)
    shares: dict[str, list[Item]] = {choice: [] for choice in choices}
    for item in fitted.items:
        takers = [choice for choice in choices if _can_hold(machine, choice, item.part)]
        shares[takers[0] if takers else choices[0]].append(item)
    yield from shares.items()


def _can_hold(machine: Machine, choice: str, part: str) -> bool:
    return any(part == other for o in machine.frame.options(choice) for other, _ in o.parts)


def _same(option: Option, wanted: Option) -> bool:
    return tuple(sorted(option.parts)) == wanted.parts and option.value == wanted.value


def _no_such(machine: Machine, choice: str, written: str) -> Problem:
    fitting = machine.frame.fittings.get(choice)
    known = [option.label for option in fitting.options] if fitting else []
    message = f"{choice} cannot be {written!r}."
    why = fitting.structure.sentence if fitting else ""
    hint = " ".join(filter(None, (why, suggestion(written, known))))
    return Problem("not-a-value", message, mark_of(written), hint)


def _group(machine: Machine, choice: str, index: int) -> str:
    """Return what changes together with a choice: all processors, all memory, all storage."""
    place = machine.frame.fittings[choice].place
    if place in controller_slots(machine.book) and _asks_for_controller(machine, choice, index):
        return "storage"
    match machine.book.places.get(place):
        case Socket():
            return "processors"
        case Bank():
            return "memory"
        case Zone() | Mount():
            return "storage"
        case _:
            return "storage" if place.endswith(" controller") else place


def _asks_for_controller(machine: Machine, choice: str, index: int) -> bool:
    part = machine.book.parts.get(machine.frame.options(choice)[index].part or "")
    return isinstance(part, Controller)


def _wish(machine: Machine, group: str, values: Mapping[str, int]) -> Wish:
    said = listed(
        f"{choice}: {machine.frame.options(choice)[index].label}"
        for choice, index in values.items()
    )
    origin = Origin(f"wish:{group}", "wish", f"Asked: {said}.")
    tables = tuple(
        Table((choice,), frozenset({(index,)}), origin) for choice, index in values.items()
    )
    asked = tuple(values.items())
    # Fans follow from the rest of a build, so changing them with it is light.
    light = isinstance(machine.book.places.get(group), Fans)
    return Wish(origin, said, (), tables, price=5 if light else 100, group=group, asked=asked)
