"""Memory against numbers in print: bandwidth, names and widths of modules, interleaving, mirrors.

How each value was seen: R read in a stored copy of the source, R2 quoted in another text, L read
in a file of a public package, C recomputed from the formula, M from memory.
"""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from baywright.sizing.memory.interleave import regions
from baywright.sizing.memory.kept_back import mirrored
from baywright.sizing.memory.modules import (
    channel_bandwidth,
    module_name,
    total_width,
)
from baywright.units import Quantity

BANDWIDTHS = [
    (2133.333, 17.067, "JESD79-4 speed bins, C"),
    (2666.667, 21.333, "JESD79-4 speed bins, C"),
    (3200, 25.6, "JESD79-4 speed bins, C; in print, R2"),
    (4800, 38.4, "JESD79-5 speed bins, C"),
    (5600, 44.8, "JESD79-5 speed bins, C"),
    (6400, 51.2, "JESD79-5 speed bins, C; in print, R2"),
]


@pytest.mark.parametrize(("rate", "gigabytes", "source"), BANDWIDTHS)
def test_one_channel_of_64_bits(rate: float, gigabytes: float, source: str) -> None:
    """GB/s of one channel, to the digits printed."""
    assert channel_bandwidth(rate * 1e6) / 1e9 == pytest.approx(gigabytes, abs=5e-4), source


CYCLES = [(3200, 625), (4800, 416), (6400, 312), (7200, 277)]
"""MT/s and the clock cycle in ps, cut to whole picoseconds: timing presets of DDR5 in the source
of the memory simulator Ramulator 2 (R)."""


@pytest.mark.parametrize(("rate", "cycle"), CYCLES)
def test_two_transfers_of_eight_bytes_each_clock_cycle(rate: int, cycle: int) -> None:
    """A cut of less than 1 ps in 277 is less than 0.4 %."""
    assert channel_bandwidth(rate * 1e6) == pytest.approx(16 / (cycle * 1e-12), rel=4e-3)


NAMES = [
    ("DDR4", 2133, "PC4-17000", "i2c-tools decode-dimms, L; its output for a real module, R"),
    ("DDR4", 2133.333, "PC4-17000", "the same module at its exact rate, C"),
    ("DDR4", 2400, "PC4-19200", "output of decode-dimms for a real module, R"),
    ("DDR4", 2666.667, "PC4-21300", "i2c-tools decode-dimms, L"),
    ("DDR4", 2933.333, "PC4-23400", "i2c-tools decode-dimms, L"),
    ("DDR4", 3200, "PC4-25600", "output of decode-dimms for a real module, R"),
    ("DDR3", 1333, "PC3-10600", "output of decode-dimms for a real module, R"),
    ("DDR5", 4800, "PC5-38400", "names of modules on sale, R2"),
    ("DDR5", 5600, "PC5-44800", "names of modules on sale, R2"),
    ("DDR5", 6400, "PC5-51200", "names of modules on sale, R2"),
    ("DDR2", 667, "PC2-5300", "JEDEC, M"),
]


@pytest.mark.parametrize(("generation", "rate", "name", "source"), NAMES)
def test_a_module_is_named_by_its_rate(
    generation: str, rate: float, name: str, source: str
) -> None:
    """Exact: the rule rounds down to hundreds, as the source of decode-dimms says that JEDEC
    does for DDR2 to DDR5 (R)."""
    assert module_name(generation, rate * 1e6) == name, source


def test_the_first_generation_is_named_otherwise_and_gets_no_name() -> None:
    """333 MT/s are 2,667 MB/s and the module is PC2700, rounded and not cut (M; decode-dimms
    rounds to the nearest hundred there, R)."""
    assert module_name("DDR", 333.333e6) == ""


WIDTHS = [
    (8, 72, "DDR4 and DDR3 with error correction: SMBIOS type 17 of real machines, L, R"),
    (16, 80, "DDR5, 8 check bits on each half: SMBIOS type 17 of real machines, R"),
    (0, 64, "without error correction: Linux kernel documentation, R"),
    (8, 72, "DDR5, 4 check bits on each half: widths that decode-dimms reads, R"),
]


@pytest.mark.parametrize(("check_bits", "width", "source"), WIDTHS)
def test_total_width_of_a_module_with_64_bits_of_data(
    check_bits: int, width: int, source: str
) -> None:
    """Exact."""
    assert total_width(check_bits) == width, source


@pytest.mark.parametrize(("first", "second"), [(8.0, 4.0), (16.0, 8.0), (8.0, 8.0), (8.0, 0.0)])
def test_two_channels_make_one_zone_over_both_and_one_over_the_larger(
    first: float, second: float
) -> None:
    """A processor data sheet in print (R): with unequal channels the largest amount that both
    hold is one zone interleaved over both, the remainder of the larger a zone of one channel; with
    equal ones all of memory is one zone. Exact."""
    found = regions(np.array([first, second]))
    by_width = dict(zip(found.widths.tolist(), found.sizes.tolist(), strict=True))
    assert by_width == {2.0: 2 * min(first, second), 1.0: abs(first - second)}


def test_mirrored_memory_is_half() -> None:
    """Linux kernel, driver for error detection (R): in full mirroring memory is split into two
    identical mirrors, half of it reserved for redundancy. Exact."""
    assert mirrored(np.full(8, 64.0)) == 256.0


def test_a_binary_terabyte_is_a_tenth_more_than_a_decimal_one() -> None:
    """1 TiB = 1.0995 TB: IEC 80000-13 (C). Memory is counted in binary units, drives in decimal
    ones; 1 TB of memory is 1,024 GB of it."""
    memory = Quantity(Fraction(1024), "GB", "memory")
    assert memory == Quantity(Fraction(1), "TB", "memory")
    decimal = Quantity(Fraction(1), "TiB", "capacity").to("TB")
    assert float(decimal) == pytest.approx(1.0995, abs=5e-5)
