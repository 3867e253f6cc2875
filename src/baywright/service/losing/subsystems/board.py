"""The room and the board: what everything else stands on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.service.losing.items import Item, Named, Thing
from baywright.service.losing.nodes import Ground, Node, every
from baywright.service.losing.standing import Standing

IN_THE_ROOM = Ground("losing.room", "Nothing in a room runs without the room.")
ON_THE_BOARD = Ground(
    "losing.board", "Every part of the machine works through its board. Common practice, no source."
)


def board(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield the room, the board, and the board in its room."""
    yield Thing("room", "the room", "room")
    yield Thing("board", "the board", "board")
    yield Named(
        "board works",
        every(every(nodes["room"], because=IN_THE_ROOM), nodes["board"], because=ON_THE_BOARD),
    )
