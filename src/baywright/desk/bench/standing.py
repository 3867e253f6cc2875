"""Where the steps on a bench have led: places, what is left of each, and a build that shows it."""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator, Mapping, Sequence, Sized
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from baywright.answers.inquiry import StoppedError
from baywright.answers.verdicts import Witness
from baywright.answers.witnesses import witness
from baywright.answers.wording import Names
from baywright.desk.bench.bench import Bench, elapsed
from baywright.desk.bench.placing import (
    check_pins,
    choices_by_place,
    place_of,
    settled,
    values_held,
)
from baywright.desk.bench.steps import Step, after
from baywright.facts.build import Build, Fitted, Item
from baywright.facts.fact import Fact
from baywright.laws.machine import Machine
from baywright.laws.wording import listed

State: TypeAlias = Literal["fitted", "blank", "forced", "open"]


@dataclass(frozen=True, slots=True)
class Taken:
    """A step with its words.

    Args:
        step: the step.
        words: what it did, such as ``zone A: S8``.
        places: ids of the places and settings it is about.
    """

    step: Step
    words: str
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlaceNow:
    """A place or a setting as it stands.

    Args:
        id: its id.
        name: what the book calls it.
        section: the group it is read in, such as ``Drives``.
        state: what is known of it.
        words: what is in it, or that it is open.
        choices: names of its choices, the main one first.
        free: values its main choice can still have.
        changing: values it can have if something else changes.
        never: values it has in no legal build.
        set_in: number of the step that set it last, or 0.
        pinned: whether it is held as it is.
    """

    id: str
    name: str
    section: str
    state: State
    words: str
    choices: tuple[str, ...]
    free: int
    changing: int
    never: int
    set_in: int
    pinned: bool = False


@dataclass(frozen=True)
class Standing:
    """Where the steps have led.

    Args:
        chosen: the choices made, by name.
        steps: the steps that were followed.
        refused: steps that no longer fit those before them, in words.
        options: what each choice can still be.
        places: the places and settings, in the order of the book.
        shown: the cheapest legal build with these choices.
        answered_by: the engine.
        milliseconds: time it took.
        pins: ids of the places that are held as they are.
        held: values of their choices, those that are settled.
    """

    chosen: Mapping[str, int]
    steps: tuple[Taken, ...]
    refused: tuple[Taken, ...]
    options: Mapping[str, frozenset[int]]
    places: tuple[PlaceNow, ...]
    shown: Witness
    answered_by: str
    milliseconds: float
    pins: frozenset[str] = frozenset()
    held: Mapping[str, int] = field(default_factory=dict)

    @property
    def complete(self) -> bool:
        """Whether nothing is open any more."""
        return all(place.state != "open" for place in self.places)

    def place(self, name: str) -> PlaceNow | None:
        """Return a place by its id, or ``None`` where there is none."""
        return next((place for place in self.places if place.id == name), None)


@dataclass(frozen=True, slots=True)
class _Choices:
    """What the choices are, and what they can be: now, and if all but pinned places changed."""

    chosen: Mapping[str, int]
    options: Mapping[str, frozenset[int]]
    possible: Mapping[str, frozenset[int]]

    def of(self, machine: Machine, name: str) -> Iterator[Sized]:
        """Yield all values of a choice, those it could have, and those it can have now."""
        yield machine.frame.options(name)
        yield self.possible[name]
        yield self.options[name] if name not in self.chosen else (name,)


def stand(bench: Bench, steps: Sequence[Step], pins: Iterable[str] = ()) -> Standing:
    """Follow steps; those that do not fit what came before them are left out and listed.

    Args:
        bench: the bench.
        steps: the steps.
        pins: ids of places that are held as the steps leave them.

    Raises:
        Problems: kind ``no-place``, for a pin in a place that there is not.
        StoppedError: at the limit, and when the book has no legal build.
        RecheckError: when the engine's build breaks a law.
    """
    start = time.perf_counter()
    chosen, taken, refused = _followed(bench, steps)
    options = bench.options(chosen)
    found = bench.least(bench.by_price, chosen)
    if found is None:
        raise StoppedError(f"{bench.engine.name} showed no build")
    pinned = check_pins(bench.machine, pins)
    held = values_held(bench.machine, pinned, chosen, options)
    now = _Choices(chosen, options, bench.options(held) if held else bench.free)
    places = tuple(_places(bench, now, taken, pinned))
    shown = witness(bench.machine, found)
    name, spent = bench.engine.name, elapsed(start)
    return Standing(
        chosen, taken, refused, options, places, shown, name, spent, pinned, held
    )  # fmt: skip


def _followed(
    bench: Bench, steps: Sequence[Step]
) -> tuple[dict[str, int], tuple[Taken, ...], tuple[Taken, ...]]:
    chosen: dict[str, int] = {}
    taken: list[Taken] = []
    refused: list[Taken] = []
    for step in steps:
        made = after(bench.machine, chosen, step)
        if bench.possible(made):
            chosen = made
            taken.append(_taken(bench.machine, step))
        else:
            refused.append(_taken(bench.machine, step))
    return chosen, tuple(taken), tuple(refused)


def _taken(machine: Machine, step: Step) -> Taken:
    places = tuple(dict.fromkeys(place_of(machine, choice) for choice, _ in step.values))
    return Taken(step, _words(machine, step), places)


def _words(machine: Machine, step: Step) -> str:
    names = Names(machine.book)
    fitted = [(choice, label) for choice, label in step.values if label]
    if len(fitted) > 3:
        return f"{len(fitted)} choices filled in"
    said = [f"{names.choice(choice)}: {names.label(choice, label)}" for choice, label in fitted]
    opened = [names.choice(choice) for choice, label in step.values if not label]
    said += [f"{listed(opened)} open again"] if opened else []
    return ", ".join(said)


def _places(
    bench: Bench, now: _Choices, taken: Sequence[Taken], pinned: frozenset[str]
) -> Iterator[PlaceNow]:
    machine, names = bench.machine, Names(bench.machine.book)
    for place, choices in choices_by_place(machine).items():
        main = choices[0]
        every, ever, free = (len(each) for each in now.of(machine, main))
        yield PlaceNow(
            place,
            names.place(place),
            names.section(place).value,
            _state(machine, choices, now),
            _in_place(machine, choices, now),
            choices,
            free,
            ever - free,
            every - ever,
            max((n for n, each in enumerate(taken, 1) if place in each.places), default=0),
            place in pinned,
        )


def _state(machine: Machine, choices: Sequence[str], now: _Choices) -> State:
    main = choices[0]
    if main in now.chosen:
        option = machine.frame.options(main)[now.chosen[main]]
        return "fitted" if option.parts or main in machine.book.settings else "blank"
    return "forced" if len(now.options[main]) == 1 else "open"


def _in_place(machine: Machine, choices: Sequence[str], now: _Choices) -> str:
    names = Names(machine.book)
    decided = settled(choices, now.chosen, now.options)
    said = [
        names.label(name, machine.frame.options(name)[value].label)
        for name, value in decided.items()
        if name == choices[0] or machine.frame.options(name)[value].label != "empty"
    ]
    return ", ".join(said) or "open"


def build_so_far(bench: Bench, standing: Standing, name: str) -> Build:
    """Return what is decided as a build, so that it can be drawn; open places are left out."""
    machine = bench.machine
    places = {}
    for place, choices in choices_by_place(machine).items():
        values = settled(choices, standing.chosen, standing.options)
        if place in machine.book.places and choices[0] in values:
            places[place] = fitted(machine, values)
    settings = {
        each: str(machine.frame.options(each)[value].value)
        for each in machine.book.settings
        for value in settled((each,), standing.chosen, standing.options).values()
    }
    book = str(machine.book.book.id)
    return Build(book=book, name=Fact(name, name), places=places, settings=settings)


def fitted(machine: Machine, values: Mapping[str, int]) -> Fitted:
    """Return what a place holds by the values of its choices."""
    chosen = {name: machine.frame.options(name)[value] for name, value in values.items()}
    items = (Item(part, count) for option in chosen.values() for part, count in option.parts)
    leads = [
        str(option.value)
        for name, option in chosen.items()
        if name.endswith(" controller") and option.value is not None
    ]
    return Fitted(tuple(items), leads[0] if leads else None)
