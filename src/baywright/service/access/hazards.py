"""The cautions of an act: what follows from the act itself, then what the book adds.

A book can add a caution and never take one away.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from baywright.facts.parts import Drive
from baywright.service.access.circumstances import Doing
from baywright.service.access.interior import Entrance, Interior, yes
from baywright.service.access.tasks import Task

OF_KINDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "processor": ("hot-surface", "static"),
        "memory": ("static",),
        "controller": ("static",),
        "accelerator": ("hot-surface", "static"),
        "network": ("static", "keys-left"),
        "card": ("static",),
        "boot": ("static",),
        "pack": ("stored-energy", "write-cache"),
        "supply": ("stored-energy",),
        "fan": ("moving-fan",),
        "drive": ("rebuild",),
        "cage": ("moving-array", "static"),
        "display": ("static",),
    }
)
"""Cautions of work on a kind of part, whatever the book says."""

OF_BOARD = ("static", "stored-energy", "keys-left")
"""Cautions of fitting another of what is taken off on the way in: a board, a riser, a fan wall."""


def of_opening(interior: Interior, entrance: Entrance, *, running: bool) -> tuple[str, ...]:
    """Return the keys of the cautions before something is taken off."""
    access = entrance.access
    follows = {
        "forced-off": entrance.sort == "power",
        "several-cords": entrance.sort == "cords",
        "keys-left": entrance.sort == "lock",
        "interlock": any(True for _ in interior.acting(access)),
        "no-airflow": running and access is not None and yes(access.guides_air),
        "redundancy": running and access is not None and yes(access.carried),
        "overloaded-circuit": running and access is not None and yes(access.carried),
        "lifting": access is not None and (access.mass is not None or yes(access.whole)),
    }
    said = map(str, access.cautions) if access else ()
    return _once((*(key for key, holds in follows.items() if holds), *said))


def of_closing(entrance: Entrance) -> tuple[str, ...]:
    """Return the keys of the cautions before something is put back.

    What cords, stop and an interlock threaten is past by then; what pinches, weighs, turns or
    bears a static charge still does.
    """
    if entrance.sort == "lock":
        return ("keys-left",)
    access = entrance.access
    lifted = access is not None and (access.mass is not None or yes(access.whole))
    return _once((*(["lifting"] if lifted else []), *(access.cautions if access else ())))


def of_task(task: Task, doing: Doing, *, running: bool, air_astray: bool) -> tuple[str, ...]:
    """Return the keys of the cautions before some work.

    Args:
        task: the work.
        doing: what is done.
        running: whether the machine runs.
        air_astray: whether something that guides its air is off.
    """
    return _once((*_following(task, doing, running=running, air_astray=air_astray), *_said(task)))


def _following(task: Task, doing: Doing, *, running: bool, air_astray: bool) -> Iterator[str]:
    kind = task.part.kind if task.part else ""
    comes_out = doing != "add"
    if running and air_astray:
        yield "no-airflow"
    if running and kind == "supply":
        yield "redundancy"
    if comes_out and (kind in ("media",) or isinstance(task.part, Drive)):
        yield "removed-media"
    if comes_out and kind == "controller":
        yield "moving-array"
    if task.target.part == "cable":
        yield "moving-array"
    yield from OF_KINDS.get(kind, ())
    if not task.target.place:
        yield from OF_BOARD


def _said(task: Task) -> Iterable[str]:
    return map(str, task.work.cautions) if task.work else ()


def _once(keys: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(map(str, keys)))
