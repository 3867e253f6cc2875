"""The rear: what one sees standing behind the machine."""

from __future__ import annotations

from baywright.drawing.faces import face
from baywright.drawing.scene import Scene
from baywright.drawing.subject import Subject


def scene(subject: Subject) -> Scene:
    """Return the rear."""
    return face(subject, "rear", "Rear")
