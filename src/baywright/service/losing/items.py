"""What subsystems add to a machine: things, named nodes, functions, numbers, open questions."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from baywright.service.losing.nodes import Ground, Node

RUNS, STARTS = "machine.runs", "machine.starts"
"""Keys of the two functions of the machine itself: it runs on, and it can start again."""


class Effect(Enum):
    """What it means that a function is gone, the gravest first."""

    STOPS = "stops"
    DATA = "data is lost"
    OUT = "out of reach"
    BARE = "without protection"


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that can be lost.

    Args:
        id: its id, such as ``R1b``, ``A.3`` or ``feed.B``.
        name: what it is, with its place.
        kind: kind of part, or a word of our own such as ``feed``.
        place: id of the place or position it is drawn at, or empty.
        part: id of the part, or empty.
    """

    id: str
    name: str
    kind: str
    place: str = ""
    part: str = ""


@dataclass(frozen=True, slots=True)
class Named:
    """A node under a name that other subsystems can use.

    Args:
        key: its name, such as ``works.P1``.
        node: the node.
    """

    key: str
    node: Node


@dataclass(frozen=True, slots=True)
class Function:
    """Something the machine does or has, and what it needs for it.

    Args:
        key: its id, such as ``array.R1b.sas-2400``.
        name: what it is, a few words.
        node: what it needs.
        effect: what its loss means.
        lost: what has happened when it is lost, one sentence.
        served: whether the machine has to run for it.
        covered: key of a function whose loss says more, so that this one need not be said.
    """

    key: str
    name: str
    node: Node
    effect: Effect
    lost: str
    served: bool = True
    covered: str = ""


@dataclass(frozen=True, slots=True)
class Measure:
    """A number that is the sum over what holds.

    Args:
        key: its id, such as ``memory``.
        name: what it is, a few words.
        unit: its unit, or empty.
        inputs: nodes with what each adds.
        because: what it is computed from.
        served: whether the machine has to run for it.
    """

    key: str
    name: str
    unit: str
    inputs: tuple[tuple[Node, float], ...]
    because: Ground
    served: bool = True


@dataclass(frozen=True, slots=True)
class Open:
    """Something that is not decided.

    Args:
        what: what it is, as the subject of a sentence.
        depends: paths of the facts it depends on, or words.
    """

    what: str
    depends: tuple[str, ...]


Item: TypeAlias = Thing | Named | Function | Measure | Open
