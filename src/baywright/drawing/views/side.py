"""The side: height and depth, and what reaches beyond them."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.drawing import outlines
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Note, Scene, Stroke
from baywright.drawing.subject import Subject, millimetres
from baywright.facts.fact import Fact
from baywright.units import Quantity

VIEW = "side"
STEP, NARROW_STEP = 0.032, 0.056
"""Distance of two measures below the machine, as a share of the longest of them."""


def scene(subject: Subject) -> Scene:
    """Return the side, with the front at the left edge and measures below."""
    chassis = subject.book.chassis
    depth, height = millimetres(chassis.depth), millimetres(chassis.height)
    measures = [each for each in _measures(subject) if each[1].value is not None]
    reach = max(millimetres(fact) for _, fact in measures)
    step = reach * (NARROW_STEP if subject.narrow else STEP)
    foot = step * (len(measures) + 0.2)
    strokes: list[Stroke] = []
    notes = [Note(f"height {chassis.height.text}", (depth / 2, foot + height / 2), "middle", "on")]
    for row, (words, fact) in enumerate(measures):
        y = foot - step * (row + 1)
        strokes += _measure(millimetres(fact), y, foot, step / 12)
        notes.append(Note(f"{words} {fact.text}", (step / 6, y + step / 12)))
    return Scene(
        VIEW,
        "Side, from the left",
        (max(depth, reach), height + foot),
        (Rect(0.0, foot, depth, height),),
        tuple(group.raised(foot) for group in outlines.groups(subject, VIEW)),
        tuple(strokes),
        tuple(notes),
        outlines.unstated(subject, VIEW),
        "front at the left edge",
    )


def _measures(subject: Subject) -> Iterator[tuple[str, Fact[Quantity]]]:
    chassis = subject.book.chassis
    yield "depth", chassis.depth
    for words, fact in (
        ("centre of mass, empty,", chassis.centre_depth),
        ("rails from", chassis.rails_from),
        ("rails to", chassis.rails_to),
    ):
        if fact is not None:
            yield words, fact


def _measure(length: float, y: float, top: float, over: float) -> Iterator[Stroke]:
    """Yield a measure from the front: a line between two extension lines."""
    yield Stroke("", ((0.0, y), (length, y)), "fine")
    for x in (0.0, length):
        yield Stroke("", ((x, y - over), (x, top - over)), "centre")
