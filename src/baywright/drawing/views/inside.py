"""The inside from above, cover off."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.drawing import naming, outlines
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Scene
from baywright.drawing.subject import Subject, millimetres

VIEW = "inside"


def scene(subject: Subject) -> Scene:
    """Return the inside, with the front at the lower edge."""
    chassis = subject.book.chassis
    size = (millimetres(chassis.width), millimetres(chassis.depth))
    return Scene(
        VIEW,
        "Inside, from above",
        size,
        (Rect(0.0, 0.0, *size),),
        (
            *outlines.groups(subject, VIEW),
            *outlines.ports(subject, VIEW),
            *outlines.interlocks(subject, VIEW),
        ),
        remarks=(*_hidden(subject), *outlines.unstated(subject, VIEW)),
        facing="front at the lower edge",
    )


def _hidden(subject: Subject) -> Iterator[str]:
    """Yield a sentence about places that are drawn in other views only."""
    drawn = {name: {each.view for each in place.at} for name, place in subject.book.places.items()}
    hidden = [
        f"{naming.named_with_id(subject.book, name)}, {naming.says(subject.book, content)}"
        for name, content in subject.contents.items()
        if drawn[name] and VIEW not in drawn[name]
    ]
    if hidden:
        yield f"Not seen from above: {'; '.join(hidden)}."
