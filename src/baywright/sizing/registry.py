"""Every part of sizing, in the order of the page. A new one is a line here."""

from __future__ import annotations

from baywright.sizing.air.sheet import PART as AIR
from baywright.sizing.availability.sheet import PART as AVAILABILITY
from baywright.sizing.energy.sheet import PART as ENERGY
from baywright.sizing.memory.sheet import PART as MEMORY
from baywright.sizing.part import Part
from baywright.sizing.power.sheet import PART as POWER
from baywright.sizing.rack.sheet import PART as RACK
from baywright.sizing.slots.sheet import PART as SLOTS
from baywright.sizing.storage.sheet import PART as STORAGE

PARTS: tuple[Part, ...] = (POWER, ENERGY, AIR, MEMORY, STORAGE, SLOTS, AVAILABILITY, RACK)
