"""The front: what one sees standing before the machine."""

from __future__ import annotations

from baywright.drawing.faces import face
from baywright.drawing.scene import Scene
from baywright.drawing.subject import Subject


def scene(subject: Subject) -> Scene:
    """Return the front, with the ears where the machine has them."""
    return face(subject, "front", "Front")
