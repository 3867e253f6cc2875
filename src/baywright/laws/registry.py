"""The subsystems. A new one is a file beside this one and a line here."""

from baywright.laws import (
    air,
    arrays,
    controllers,
    links,
    memory,
    models,
    packs,
    parts,
    ports,
    positions,
    power,
    processors,
    selection,
    slots,
    zones,
)
from baywright.laws.subsystem import Subsystem

SUBSYSTEMS: tuple[Subsystem, ...] = (
    processors.SUBSYSTEM,
    memory.SUBSYSTEM,
    zones.SUBSYSTEM,
    controllers.SUBSYSTEM,
    arrays.SUBSYSTEM,
    slots.SUBSYSTEM,
    links.SUBSYSTEM,
    packs.SUBSYSTEM,
    positions.SUBSYSTEM,
    power.SUBSYSTEM,
    air.SUBSYSTEM,
    parts.SUBSYSTEM,
    selection.SUBSYSTEM,
    ports.SUBSYSTEM,
    models.SUBSYSTEM,
)
