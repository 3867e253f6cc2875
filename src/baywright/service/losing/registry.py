"""The subsystems in the order they build on each other. A new one is a file and a line here."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TypeAlias

from baywright.service.losing.items import Item
from baywright.service.losing.nodes import Node
from baywright.service.losing.standing import Standing
from baywright.service.losing.subsystems import (
    air,
    arrays,
    board,
    boot,
    extras,
    machine,
    management,
    memory,
    network,
    packs,
    power,
    processors,
    slots,
    storage,
)

Subsystem: TypeAlias = Callable[[Standing, Mapping[str, Node]], Iterator[Item]]
"""Yields what a subsystem adds; the nodes are those of what was yielded so far."""

SUBSYSTEMS: tuple[Subsystem, ...] = (
    board.board,
    power.power,
    air.air,
    memory.modules,
    processors.processors,
    memory.capacity,
    slots.lanes,
    slots.cards,
    storage.storage,
    storage.external,
    arrays.arrays,
    packs.packs,
    boot.boot,
    network.network,
    management.management,
    extras.extras,
    machine.machine,
)
