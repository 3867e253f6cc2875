"""Front and rear: the body with its ears, places and ports."""

from __future__ import annotations

from baywright.drawing import outlines
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Scene
from baywright.drawing.subject import Subject, millimetres


def face(subject: Subject, view: str, title: str) -> Scene:
    """Return one of the two faces of a machine.

    Args:
        subject: the machine.
        view: ``front`` or ``rear``.
        title: title of the view.
    """
    chassis = subject.book.chassis
    width, height = millimetres(chassis.width), millimetres(chassis.height)
    over = chassis.width_over_ears
    whole = millimetres(over) if view == "front" and over is not None else width
    ear = (whole - width) / 2
    body = [Rect(ear, 0.0, width, height)]
    if ear > 0:
        body += [Rect(0.0, 0.0, ear, height), Rect(ear + width, 0.0, ear, height)]
    groups = (*outlines.groups(subject, view, ear), *outlines.ports(subject, view, ear))
    return Scene(
        view,
        title,
        (whole, height),
        tuple(body),
        groups,
        remarks=outlines.unstated(subject, view),
    )
