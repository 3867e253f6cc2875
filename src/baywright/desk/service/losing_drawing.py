"""A drawing with a loss marked: what is lost, and what is out of reach with it."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.drawing import Wanted, draw
from baywright.desk.service.losing import Loss
from baywright.drawing.contents import contents
from baywright.drawing.marks import Said
from baywright.service.losing.standing import place_of

LOST, BEHIND = "lost", "out of reach"
"""Words of the two marks; each has a sign and a hatch of its own."""


def loss_marks(loss: Loss) -> tuple[str, ...]:
    """Return the marks of a loss, as a drawing takes them."""
    lost = _places(loss, loss.lost.things)
    behind = [at for at in _places(loss, _behind(loss)) if not {at, place_of(at)} & set(lost)]
    return (
        *(f"{at}={Said.CANNOT.value}: {LOST}" for at in lost),
        *(f"{at}={Said.IF.value}: {BEHIND}" for at in behind),
    )


def draw_loss(loss: Loss, view: str, width: float = 1100.0) -> str:
    """Return a view as an SVG document with the loss marked in words and hatches.

    Args:
        loss: the loss.
        view: one of the views there are.
        width: width of the sheet [px].
    """
    return draw(loss.opened, loss.build, view, Wanted(width, marks=loss_marks(loss)))


def _places(loss: Loss, things: tuple[str, ...]) -> tuple[str, ...]:
    """Return where things are drawn: at their position, or else at their place."""
    known = set(_drawn_ids(loss))
    found = []
    for thing in things:
        at = loss.graph.by_id[thing].place
        found.append(at if at in known else place_of(at))
    return tuple(dict.fromkeys(at for at in found if at in known))


def _drawn_ids(loss: Loss) -> Iterator[str]:
    for name, content in contents(loss.graph.standing.book, loss.build).items():
        yield name
        yield from (unit.id for unit in content.units)


def _behind(loss: Loss) -> tuple[str, ...]:
    """Return the things that stand, and are of no use any more without those that are lost."""
    scenarios = loss.graph.without((), loss.lost.things)
    found = []
    for thing, node in loss.graph.serving.items():
        before, after = scenarios.holds(node)
        if before and not after and thing not in loss.lost.things:
            found.append(thing)
    return tuple(found)
