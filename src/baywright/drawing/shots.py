"""Shots: a view with a few of its places marked and numbered, and no letters to read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from baywright.drawing import pen
from baywright.drawing.callouts import Callout, placed
from baywright.drawing.framing import Frame, framed
from baywright.drawing.marks import Said
from baywright.drawing.scene import Scene
from baywright.drawing.svg import Node, document

FOOT = 8.0
"""Room below the view [px]."""


@dataclass(frozen=True, slots=True)
class Shot:
    """A view with marked places.

    Args:
        svg: the drawing.
        numbers: the number of each marked place that is drawn, by its id.
    """

    svg: str
    numbers: Mapping[str, int]


def shot(scene: Scene, marked: Sequence[str], title: str, width: float) -> Shot:
    """Return a view with some of its places marked and numbered from 1.

    Args:
        scene: the view as the machine stands.
        marked: ids of the places, ports and interlocks to mark; others are drawn and not marked.
        title: what is shown.
        width: width of the drawing [px].
    """
    plain = replace(scene, notes=(), remarks=(), strokes=(), to_scale=False)
    drawn = {group.id: group.name for group in plain.groups}
    wanted = [name for name in marked if name in drawn]
    frame = framed(plain, width, 0.0, frozenset(wanted))
    callouts = placed(frame.anchors, frame.bounds, frame.region)
    said = ", ".join(f"{each.number} {drawn[each.name]}" for each in callouts)
    size = (width, frame.region.end + FOOT)
    nodes = _nodes(plain, frame, wanted, callouts)
    svg = document(size, title, f"{title}. {said}.", nodes, pen.CLASSES, fixed=True)
    return Shot(svg, {each.name: each.number for each in callouts})


def _nodes(
    scene: Scene, frame: Frame, wanted: Sequence[str], callouts: Sequence[Callout]
) -> list[Node]:
    nodes: list[Node] = [pen.patterns(scene.view)]
    nodes += [pen.box(frame.rect(rect), class_="body") for rect in scene.body]
    for group in scene.groups:
        nodes += [pen.shape(s, frame.rect(s.rect), scene.view, 0.0) for s in group.all_shapes]
    for name in wanted:
        for rect in scene.marked(name):
            nodes += pen.highlight(Said.PICKED, frame.rect(rect), scene.view)
    return [*nodes, *pen.leaders(callouts), *pen.circles(callouts)]
