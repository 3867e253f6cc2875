"""Completing what is on the bench, and how many builds each step left."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.placing import place_of
from baywright.desk.bench.standing import Standing
from baywright.desk.bench.steps import Step, after, step_of_values


def completion(bench: Bench, standing: Standing, values: Mapping[str, int]) -> Step:
    """Return the step that fits what is open as a complete build has it, but for pinned places.

    Args:
        bench: the bench.
        standing: where the steps have led.
        values: the complete build.
    """
    kept = {**standing.chosen, **_left_open(bench, standing)}
    return step_of_values(bench.machine, values, kept)


def around_pins(bench: Bench, standing: Standing, values: Mapping[str, int]) -> Step:
    """Return the step to a complete build, whatever was chosen, but for places pinned open."""
    return step_of_values(bench.machine, values, _left_open(bench, standing))


def _left_open(bench: Bench, standing: Standing) -> dict[str, int]:
    """Return the choices of pinned places that are open, and stay so."""
    choices = (name for name in bench.machine.frame.fittings if name not in standing.held)
    return {name: 0 for name in choices if place_of(bench.machine, name) in standing.pins}


def numbers_left(bench: Bench, standing: Standing) -> Iterator[int | None]:
    """Yield how many legal builds there are before the first step and after each.

    Yields:
        The number, or ``None`` where it is not counted in the time of a step.
    """
    chosen: dict[str, int] = {}
    yield bench.count(chosen)
    for taken in standing.steps:
        chosen = after(bench.machine, chosen, taken.step)
        yield bench.count(chosen)
