"""The way of the air: in at the front, through the fans that are fitted, out at the rear."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from baywright.drawing.contents import State
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Form, Note, Scene, Shape, Stroke
from baywright.drawing.subject import Subject
from baywright.drawing.views import inside

MARGIN = 46.0
"""Room before and behind the machine for arrows [mm]."""


def scene(subject: Subject) -> Scene:
    """Return the inside with an arrow for each fan."""
    drawn = inside.scene(subject)
    width, depth = drawn.size
    fans = [s for group in drawn.groups for s in group.shapes if s.form is Form.FAN]
    running = [fan for fan in fans if fan.state is State.FITTED]
    undrawn = () if fans else ("Fans: no place on the drawing is stated.",)
    return replace(
        drawn,
        view="airflow",
        title="Air, from above",
        size=(width, depth + 2 * MARGIN),
        body=(Rect(0.0, MARGIN, width, depth),),
        groups=tuple(group.raised(MARGIN) for group in drawn.groups),
        strokes=tuple(_air(running, depth)),
        notes=(
            Note("air in", (_between(fans, width), MARGIN / 2), "middle", "on"),
            Note("air out", (_between(fans, width), depth + 1.5 * MARGIN), "middle", "on"),
        ),
        remarks=(*_said(subject, running, fans), *undrawn, *drawn.remarks),
    )


def _between(fans: list[Shape], width: float) -> float:
    """Return a place across the machine where no arrow runs: between two fans near the middle."""
    middles = sorted(fan.rect.middle[0] for fan in fans)
    gaps = [(one + other) / 2 for one, other in pairwise(middles)]
    return min(gaps, key=lambda x: abs(x - width / 2), default=width / 2)


def _air(running: list[Shape], depth: float) -> Iterator[Stroke]:
    """Yield the way of the air of each fan, seen before, between and behind the parts."""
    for fan in running:
        x, _ = fan.rect.middle
        fan_end = fan.rect.end + MARGIN
        words = f"air through fan {fan.label}"
        yield Stroke(f"air.{fan.id}", ((x, 12.0), (x, MARGIN - 4.0)), "air", words, arrow=True)
        yield Stroke("", ((x, MARGIN), (x, fan_end)), "centre")
        yield Stroke("", ((x, fan_end), (x, depth + MARGIN)), "centre")
        end = depth + 2 * MARGIN - 12.0
        yield Stroke("", ((x, depth + MARGIN + 4.0), (x, end)), "air", arrow=True)


def _said(subject: Subject, running: list[Shape], fans: list[Shape]) -> Iterator[str]:
    air = subject.book.air
    if fans and all(fan.state is not State.OPEN for fan in fans):
        yield f"Fans that run: {len(running)} of {len(fans)} positions."
    yield f"Allowed rise from inlet to outlet: {air.rise.text}."
