"""Options: what each place can still be."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.desk.opening import Opened
from baywright.laws.wishes import read_wishes, with_wishes
from baywright.problems import Mark


@dataclass(frozen=True, slots=True)
class PlaceOptions:
    """What one choice can be and cannot be.

    Args:
        choice: name of the choice.
        place: id of its place or setting.
        name: name of the place.
        free: values that some legal build has.
        closed: values that no legal build has.
    """

    choice: str
    place: str
    name: str
    free: tuple[str, ...]
    closed: tuple[str, ...]


def options(opened: Opened, given: str = "") -> list[PlaceOptions]:
    """Return what each place can be in legal builds that have a condition.

    Args:
        opened: the book, with day and site.
        given: the condition, or empty for none.

    Raises:
        Problems: when the condition makes no sense.
        StoppedError: at the limit of the engine.
    """
    machine = opened.machine
    wishes = read_wishes(machine, given, Mark("given", 1, 1)) if given else []
    space = with_wishes(machine.space, wishes)
    left = opened.inquiry().options(space)
    found = []
    for name, fitting in machine.frame.fittings.items():
        if fitting.derived:
            continue
        labels = [option.label for option in fitting.options]
        place = machine.book.places.get(fitting.place)
        found.append(
            PlaceOptions(
                name,
                fitting.place,
                place.name if place else fitting.place,
                tuple(label for i, label in enumerate(labels) if i in left[name]),
                tuple(label for i, label in enumerate(labels) if i not in left[name]),
            )
        )
    return found
