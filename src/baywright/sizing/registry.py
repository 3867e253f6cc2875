"""Every subject of sizing, in the order of the page. A new one is a line here."""

from __future__ import annotations

from baywright.sizing.air.sheet import SUBJECT as AIR
from baywright.sizing.availability.sheet import SUBJECT as AVAILABILITY
from baywright.sizing.energy.sheet import SUBJECT as ENERGY
from baywright.sizing.memory.sheet import SUBJECT as MEMORY
from baywright.sizing.power.sheet import SUBJECT as POWER
from baywright.sizing.rack.sheet import SUBJECT as RACK
from baywright.sizing.slots.sheet import SUBJECT as SLOTS
from baywright.sizing.storage.sheet import SUBJECT as STORAGE
from baywright.sizing.subject import Subject

SUBJECTS: tuple[Subject, ...] = (POWER, ENERGY, AIR, MEMORY, STORAGE, SLOTS, AVAILABILITY, RACK)
