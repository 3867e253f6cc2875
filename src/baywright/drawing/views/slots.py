"""The slot map: each slot to the length of its longest card, by the processor that drives it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from baywright.drawing import naming, outlines
from baywright.drawing.contents import Content
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Group, Scene, Stroke
from baywright.drawing.schematic import BOX_HEIGHT, STEP, fanned, place_box
from baywright.drawing.subject import Subject, millimetres
from baywright.facts.places import Slot

RIM = 4.0
"""How far the frame of interchangeable slots stands out [mm]."""

LEFT, GAP = 90.0, 80.0
"""Width of a processor, and the room for lanes between it and its slots [mm]."""

OTHER_LENGTH = 120.0
"""Length drawn for a slot whose card length the book does not state [mm]."""


def scene(subject: Subject) -> Scene:
    """Return the slots to the right of their processors."""
    slots = subject.book.places_of(Slot)
    owners = list(dict.fromkeys(str(slot.owner or "") for slot in slots.values()))
    rows = [name for owner in owners for name in slots if str(slots[name].owner or "") == owner]
    positions = {name: max(1, len(subject.contents[name].units)) for name in rows}
    height = sum(positions.values()) * STEP + 12.0
    longest = max((_length(slot) for slot in slots.values()), default=OTHER_LENGTH)
    boxes = dict(_boxes(subject, slots, positions, height))
    groups = [_slot(subject, name, slots[name], boxes[name]) for name in rows]
    processors = dict(_processors(subject, owners, slots, boxes))
    groups += [place_box(subject, owner, rect) for owner, rect in processors.items()]
    every = {**{name: rects[0] for name, rects in boxes.items()}, **processors}
    every |= {name: _around(boxes[name]) for name in boxes}
    return Scene(
        "slots",
        "Slots",
        (LEFT + GAP + longest, height),
        groups=tuple(groups),
        strokes=tuple(_lanes(slots, every)),
        remarks=(
            "Slots are drawn to the length of the longest card they take, all else to no scale.",
        ),
        to_scale=False,
    )


def _length(slot: Slot) -> float:
    known = slot.length is not None and slot.length.value is not None
    return millimetres(slot.length) if known and slot.length is not None else OTHER_LENGTH


def _boxes(
    subject: Subject, slots: dict[str, Slot], positions: dict[str, int], height: float
) -> Iterator[tuple[str, list[Rect]]]:
    y = height - 6.0
    for name, number in positions.items():
        rects = []
        for _ in range(number):
            y -= BOX_HEIGHT
            rects.append(Rect(LEFT + GAP, y, _length(slots[name]), BOX_HEIGHT))
            y -= STEP - BOX_HEIGHT
        yield name, rects


def _around(rects: list[Rect]) -> Rect:
    return Rect(rects[0].x, rects[-1].y, rects[0].width, rects[0].end - rects[-1].y)


def _slot(subject: Subject, name: str, slot: Slot, rects: list[Rect]) -> Group:
    content: Content = subject.contents[name]
    more = ", ".join(_properties(slot))
    if len(rects) == 1:
        return place_box(subject, name, rects[0], more)
    drawn = outlines.group(subject, name, tuple(rects))
    says = f"{naming.says(subject.book, content)}; {more}"
    around = _around(rects)
    wide = Rect(around.x - RIM, around.y - RIM, around.width + 2 * RIM, around.height + 2 * RIM)
    frame = replace(drawn.frame, rect=wide) if drawn.frame else None
    return Group(name, drawn.name, says, (wide,), drawn.shapes, frame)


def _properties(slot: Slot) -> Iterator[str]:
    if slot.lanes is not None:
        generation = f" {slot.generation}" if slot.generation else ""
        yield f"x{slot.lanes.text}{generation}"
    if slot.length is not None:
        yield f"{slot.length.text} length"
    if slot.height is not None:
        yield f"{slot.height.text} height"
    if slot.power is not None:
        yield slot.power.text


def _processors(
    subject: Subject, owners: list[str], slots: dict[str, Slot], boxes: dict[str, list[Rect]]
) -> Iterator[tuple[str, Rect]]:
    for owner in owners:
        if owner in subject.book.places:
            own = [rect for name in boxes if slots[name].owner == owner for rect in boxes[name]]
            low, high = min(r.y for r in own), max(r.end for r in own)
            tall = min(high - low, 2 * BOX_HEIGHT)
            yield owner, Rect(0.0, (low + high - tall) / 2, LEFT, tall)


def _lanes(slots: dict[str, Slot], boxes: dict[str, Rect]) -> list[Stroke]:
    lines = [
        (f"lanes.{name}", str(slot.owner), name, "lanes", f"lanes from {slot.owner} to {name}")
        for name, slot in slots.items()
        if slot.owner is not None
    ]
    return fanned(lines, boxes)
