"""Ghosts: what an option would do, shown before it is fitted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from baywright.answers.wording import Names
from baywright.desk.bench.bench import Bench
from baywright.desk.bench.placing import choices_by_place, place_of, settled
from baywright.desk.bench.standing import Standing, fitted, stand
from baywright.desk.bench.steps import Step
from baywright.facts.build import Build, Fitted
from baywright.facts.fact import Fact


@dataclass(frozen=True, slots=True)
class Ghost:
    """An option as if it were fitted.

    Args:
        step: the step that would fit it.
        places: what the places of the step would hold.
        marks: the same places with what is written beside them.
    """

    step: Step
    places: tuple[tuple[str, Fitted], ...]
    marks: tuple[tuple[str, str], ...]

    def on(self, build: Build) -> Build:
        """Return a build as it would be."""
        return build.model_copy(update={"places": {**build.places, **dict(self.places)}})


@dataclass(frozen=True, slots=True)
class Looked:
    """An option that is looked at.

    Args:
        ghost: how it is drawn.
        standing: where it would lead.
    """

    ghost: Ghost
    standing: Standing


def look(bench: Bench, standing: Standing, step: Step) -> Looked | None:
    """Return where a step would lead, or ``None`` when it does not fit.

    Args:
        bench: the bench.
        standing: where the steps so far have led.
        step: the step.

    Raises:
        StoppedError: at a limit.
    """
    steps = (*(taken.step for taken in standing.steps), step)
    then = stand(bench, steps, standing.pins)
    return None if then.refused else Looked(_ghost(bench, then, step), then)


def _ghost(bench: Bench, then: Standing, step: Step) -> Ghost:
    machine, names = bench.machine, Names(bench.machine.book)
    touched = dict.fromkeys(place_of(machine, choice) for choice, _ in step.values)
    choices = choices_by_place(machine)
    places, marks = [], []
    for place in touched:
        values = settled(choices[place], then.chosen, then.options)
        if place in machine.book.places and choices[place][0] in values:
            places.append((place, fitted(machine, values)))
        label = dict(step.values)
        said = [names.label(c, label[c]) for c in choices[place] if label.get(c)]
        marks.append((place, f"shown: {', '.join(said)}" if said else "shown: open again"))
    return Ghost(step, tuple(places), tuple(marks))


def filled_alone(bench: Bench, choice: str, value: int) -> Build:
    """Return a build with one place filled as a value fills it, and all else open."""
    machine, place = bench.machine, place_of(bench.machine, choice)
    main = choices_by_place(machine)[place][0]
    values: Mapping[str, int] = {choice: value}
    if choice != main:
        around = bench.least(bench.by_price, values) or values
        values = {name: around[name] for name in (main, choice) if name in around}
    about = machine.book.book
    return Build(
        book=str(about.id),
        name=Fact("", ""),
        places={place: fitted(machine, values)} if place in machine.book.places else {},
        settings={},
    )
