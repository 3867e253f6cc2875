"""Levels: how arrays lay data and checks over drives, and what is left to use."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from baywright.sizing.equation import Floats, equation, plain, within

TB, TIB = 1e12, float(2**40)
"""Bytes of a terabyte and of a tebibyte; 1 TiB is 1.0995 TB."""


@dataclass(frozen=True, slots=True)
class Level:
    """A level of the common disk data format.

    Args:
        name: its name.
        copies: copies of all data; 1 where checks protect it, or nothing.
        checks: drives' worth of checks in each group.
        survives: drive failures that are always survived, wherever they fall.
        least: least drives in a group.
        grouped: whether several groups stand side by side.
    """

    name: str
    copies: int
    checks: int
    survives: int
    least: int
    grouped: bool = False

    @property
    def reads(self) -> int:
        """Reads on drives for each small write, in the read-modify-write form."""
        return 1 + self.checks if self.checks else 0

    @property
    def writes(self) -> int:
        """Writes on drives for each small write."""
        return 1 + self.checks if self.checks else self.copies


STRIPED = Level("R0", 1, 0, 0, 1)
MIRRORED = Level("R1", 2, 0, 1, 2)
TRIPLED = Level("R1 with three copies", 3, 0, 2, 3)
SINGLE_CHECK = Level("R5", 1, 1, 1, 3)
DOUBLE_CHECK = Level("R6", 1, 2, 2, 4)
STRIPED_MIRRORS = Level("R10", 2, 0, 1, 2, grouped=True)
STRIPED_SINGLE = Level("R50", 1, 1, 1, 3, grouped=True)
STRIPED_DOUBLE = Level("R60", 1, 2, 2, 4, grouped=True)

LEVELS = (
    STRIPED,
    MIRRORED,
    TRIPLED,
    SINGLE_CHECK,
    DOUBLE_CHECK,
    STRIPED_MIRRORS,
    STRIPED_SINGLE,
    STRIPED_DOUBLE,
)
"""Every level, the simple ones first."""


@dataclass(frozen=True, slots=True)
class Layout:
    """One array over drives that are alike.

    Args:
        level: its level.
        groups: groups side by side.
        size: drives in a group.
        spares: drives beside the array that wait for a failure.
    """

    level: Level
    groups: int
    size: int
    spares: int = 0

    @property
    def drives(self) -> int:
        """Drives in the array, without spares."""
        return self.groups * self.size

    @property
    def data_drives(self) -> float:
        """Drives' worth of data."""
        if self.level.copies > 1:
            return self.drives / self.level.copies
        return self.drives - self.groups * self.level.checks


def layouts(drives: int, spares: int, survives: int) -> Iterator[Layout]:
    """Yield every layout of some drives that survives so many failures wherever they fall.

    A spare is of no use where nothing can be rebuilt.

    Args:
        drives: drives alike behind one controller, zero or more.
        spares: how many of them wait as spares.
        survives: drive failures to survive.
    """
    used = drives - spares
    for level in LEVELS:
        idle = spares > 0 and level.survives == 0
        if level.survives < survives or used < level.least or idle:
            continue
        if level.grouped:
            yield from _grouped(level, used, spares)
        elif level.copies in (1, used):
            yield Layout(level, 1, used, spares)


def _grouped(level: Level, drives: int, spares: int) -> Iterator[Layout]:
    sizes = [level.least] if level.copies > 1 else range(level.least, drives // 2 + 1)
    for size in sizes:
        if drives % size == 0 and drives > size:
            yield Layout(level, drives // size, size, spares)


@equation(
    "S5",
    "usable = (n - g k) c",
    source="SNIA common RAID disk data format: R0 (k = 0), R5 (1), R6 (2), R50 and R60 (g groups)",
    valid="n at least g k",
    outside="not decided",
)
def usable_with_checks(drives: Floats, groups: Floats, checks: Floats, capacity: Floats) -> Floats:
    """Return the space that striped drives leave beside their checks.

    Args:
        drives: drives n in the array, spares not counted.
        groups: groups g.
        checks: drives' worth of checks k in each group.
        capacity: capacity c of the smallest drive [B].

    Returns:
        Space [B].

    >>> usable_with_checks(16, 1, 2, 2.4e12) / TB
    33.6
    """
    left = np.subtract(drives, np.multiply(groups, checks))
    return within(np.multiply(left, capacity), left >= 0)


@equation(
    "S6",
    "usable = n / m c",
    source="SNIA common RAID disk data format: R1, R10",
    valid="n a multiple of m",
    outside="not decided",
)
def usable_mirrored(drives: Floats, copies: Floats, capacity: Floats) -> Floats:
    """Return the space of drives that all hold copies.

    Args:
        drives: drives n in the array, spares not counted.
        copies: copies m of all data.
        capacity: capacity c of the smallest drive [B].

    Returns:
        Space [B].
    """
    share = np.divide(drives, copies)
    return within(np.multiply(share, capacity), np.equal(np.mod(drives, copies), 0))


@equation(
    "S7",
    "usable = max over levels that survive f: n c (f = 0), c (n = f + 1), (n - f) c (f = 1, 2)",
    source="equations S5 and S6 over the levels of the common disk data format",
    valid="f of 0, 1 or 2",
    outside="zero: no level of the list survives more, or there are too few drives",
)
def usable_surviving(drives: Floats, failures: int, capacity: Floats) -> Floats:
    """Return the most space of one array that survives failures wherever they fall.

    Args:
        drives: drives n alike behind one controller.
        failures: failures f to survive.
        capacity: capacity c of one drive [B].

    Returns:
        Space [B].

    >>> usable_surviving(8, 2, 2.4e12) / TB
    14.4
    """
    left = np.subtract(drives, failures)
    able = (left >= 1) & (failures <= max(level.survives for level in LEVELS))
    return plain(np.where(able, np.multiply(left, capacity), 0.0))


@equation(
    "S8",
    "usable = (M - l) x raw x fill / copies",
    source="common practice, no source",
    valid="machines left at least as many as copies",
    outside="not decided: copies would share a machine",
)
def usable_pooled(raw: Floats, machines: float, lost: float, copies: float, fill: float) -> Floats:
    """Return the space of a store that software keeps in copies over machines alike.

    Args:
        raw: capacity of all drives in one machine [B].
        machines: machines M.
        lost: machines l that may fail while every copy still has room.
        copies: copies of all data, each on another machine.
        fill: share of the drives that may be filled, 0 to 1.

    Returns:
        Space [B], one copy counted.

    >>> usable_pooled(61.44e12, 4, 0, 3, 0.75) / TB
    61.44
    """
    left = machines - lost
    return within(np.multiply(raw, left * fill / copies), left >= copies)
