"""How the machine stands, and how each view is turned by it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from baywright.drawing.scene import Scene
from baywright.drawing.subject import Subject
from baywright.facts.book import Book
from baywright.facts.build import Build


@dataclass(frozen=True, slots=True)
class Stance:
    """A way the machine stands.

    Args:
        name: its name, or empty for the usual one of a book that states none.
        quarters: quarter turns clockwise, seen by one who looks at its front.
        needs: id of the kit it stands by, or empty.
    """

    name: str = ""
    quarters: int = 0
    needs: str = ""


def stances(book: Book) -> dict[str, Stance]:
    """Return the ways a machine can stand, by id, the usual one first."""
    return {
        name: Stance(str(each.name), int(each.turn.known.to("°")) // 90, str(each.needs or ""))
        for name, each in book.chassis.orientations.items()
        if each.turn.value is not None
    }


def stance_of(book: Book, build: Build | None) -> Stance:
    """Return how a build stands: as a setting of it says, or else the usual way."""
    known = stances(book)
    for value in build.settings.values() if build is not None else ():
        if value in known:
            return known[value]
    return next(iter(known.values()), Stance())


def standing(scene: Scene, stance: Stance, *, narrow: bool) -> Scene:
    """Return a view as it is seen when the machine stands so.

    Args:
        scene: the view of the machine as the book measures it.
        stance: how it stands.
        narrow: whether the column is too narrow for the long side of the machine.
    """
    quarters = stance.quarters % 4
    match scene.view:
        case "front":
            return scene.turned(quarters)
        case "rear":
            return scene.turned(-quarters)
        case "inside" | "airflow":
            return _inside(scene, quarters, narrow=narrow)
        case "side" if quarters:
            lies = {1: "left side up", 2: "upside down", 3: "right side up"}[quarters]
            return replace(scene, facing=f"{scene.facing}; it stands with its {lies}")
        case _:
            return scene


def _inside(scene: Scene, quarters: int, *, narrow: bool) -> Scene:
    """Return the inside: the front to the left, or below where there is little room.

    A machine on its side is looked into from the side, and there the front is left or right.
    """
    if quarters == 3:
        return scene.turned(3, "front at the right edge")
    if quarters == 1 or not narrow:
        return scene.turned(1, "front at the left edge")
    return scene


def needed(stance: Stance, subject: Subject) -> tuple[str, ...]:
    """Return a sentence when the kit that a stance needs is not in the build."""
    parts = {str(i.part) for content in subject.contents.values() for i in content.items}
    if not stance.needs or stance.needs in parts:
        return ()
    kit = subject.book.parts.get(stance.needs)
    return (f"Standing {stance.name} takes the {kit.name if kit else stance.needs}.",)
