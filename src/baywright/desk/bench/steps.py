"""Steps: what was fitted or taken out, in the order in which it was done, as short texts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from baywright.laws.machine import Machine
from baywright.problems import problem, suggestion

NOTHING: Mapping[str, int] = {}
"""No choices."""

MOST_STEPS = 400
"""More steps than this are not followed; a build has far fewer places."""


@dataclass(frozen=True, slots=True)
class Step:
    """Values fitted in one go.

    Args:
        values: pairs of a choice and the label of its value; an empty label opens it again.
    """

    values: tuple[tuple[str, str], ...]

    def __str__(self) -> str:
        return ";".join(f"{choice}:{label}" for choice, label in self.values)


def read_step(machine: Machine, text: str) -> Step:
    """Read a step such as ``A:S8``, ``A:`` or ``P1:cpu-16;P2:cpu-16``.

    Raises:
        Problems: kinds ``not-a-step``, ``unknown-choice`` and ``not-a-value``.
    """
    return Step(tuple(_value(machine, each) for each in text.split(";")))


def read_steps(machine: Machine, texts: Iterable[str]) -> tuple[Step, ...]:
    """Read steps.

    Raises:
        Problems: as ``read_step``, and kind ``too-many-steps``.
    """
    steps = tuple(read_step(machine, text) for text in texts)
    if len(steps) > MOST_STEPS:
        message = f"{len(steps)} steps are too many to follow."
        raise problem("too-many-steps", message, None, f"Give at most {MOST_STEPS}.")
    return steps


def _value(machine: Machine, text: str) -> tuple[str, str]:
    choice, colon, label = text.partition(":")
    if not colon:
        message = f"{text!r} is not a step."
        raise problem("not-a-step", message, None, "Write a place and what goes there: A:S8.")
    fitting = machine.frame.fittings.get(choice)
    known = [name for name, each in machine.frame.fittings.items() if not each.derived]
    if fitting is None or fitting.derived:
        hint = suggestion(choice, known)
        raise problem("unknown-choice", f"There is no place {choice!r}.", None, hint)
    labels = [option.label for option in fitting.options]
    if label and label not in labels:
        hint = suggestion(label, labels)
        raise problem("not-a-value", f"{choice} cannot be {label!r}.", None, hint)
    return choice, label


def after(machine: Machine, chosen: Mapping[str, int], step: Step) -> dict[str, int]:
    """Return the choices made after a step; whether they fit together is another question."""
    made = dict(chosen)
    for choice, label in step.values:
        made.pop(choice, None)
        if label:
            labels = [option.label for option in machine.frame.options(choice)]
            made[choice] = labels.index(label)
    return made


def step_of_values(
    machine: Machine, values: Mapping[str, int], chosen: Mapping[str, int] = NOTHING
) -> Step:
    """Return the step that fits a complete build, but for the choices made already.

    Args:
        machine: the machine.
        values: value index by name of the choice.
        chosen: the choices made.
    """
    pairs = (
        (name, fitting.options[values[name]].label)
        for name, fitting in machine.frame.fittings.items()
        if not fitting.derived and name not in chosen
    )
    return Step(tuple(pairs))
