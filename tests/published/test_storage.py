"""Storage against numbers in print.

How each was seen: R read in a stored copy of the source, R2 read in another text that quotes it,
L read in a file of a public package, C computed again here, M from memory.
"""

from __future__ import annotations

import numpy as np
import pint
import pytest

from baywright.sizing.storage.levels import (
    DOUBLE_CHECK,
    LEVELS,
    TIB,
    layouts,
    usable_mirrored,
    usable_with_checks,
)
from baywright.sizing.storage.links import drive_lane_rate, lane_rate, usb_rate
from baywright.sizing.storage.loss import (
    HOURS_A_YEAR,
    classic_time_to_loss,
    odds_of_unreadable,
    odds_within,
    time_to_double_failure,
    time_to_failure_and_unreadable,
    time_to_loss,
    time_to_loss_of_groups,
)
from baywright.sizing.storage.traffic import drive_time, odds_of_waiting
from baywright.sizing.storage.wear import flush_energy, full_writes_a_day, pack_energy

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("gigabits", "megabytes"),
    [(1.5, 150), (3, 300), (6, 600), (12, 1200), (22.5, 2400)],
)
def test_a_drive_lane(gigabits: float, megabytes: float) -> None:
    """SATA 150, 300, 600 and SAS 300, 600, 1200, 2400 MB/s: Serial ATA and T10 SAS, R2; the last,
    22.5 Gb/s x 128/150 / 8, C. Exact but for rounding, since a line code is a ratio of integers."""
    assert drive_lane_rate(gigabits * 1e9) / 1e6 == pytest.approx(megabytes, rel=1e-12)


def test_a_wide_port_of_four_lanes() -> None:
    """4.8 GB/s at 12 Gb/s: T10 SAS, R2. Exact."""
    assert 4 * drive_lane_rate(12e9) == pytest.approx(4.8e9, rel=1e-12)


@pytest.mark.parametrize(
    ("generation", "megabytes"),
    [(1, 250), (2, 500), (3, 984.615), (4, 1969.231), (5, 3938.462), (6, 7562.5)],
)
def test_a_processor_lane(generation: int, megabytes: float) -> None:
    """PCI Express Base, as in the Linux kernel's table of speeds: L; generation 6 with 242 of 256
    bytes of a flit, as hwloc has it: L. Printed to 1 kB/s, so half of that."""
    assert lane_rate(generation) / 1e6 == pytest.approx(megabytes, abs=0.0005)


@pytest.mark.parametrize(("lanes", "gigabytes"), [(16, 15.753846), (4, 3.938462)])
def test_lanes_of_real_machines(lanes: int, gigabytes: float) -> None:
    """Generation 3 links in the test topologies of hwloc: L. Printed to 1 kB/s, so half of it."""
    assert lane_rate(3, lanes) / 1e9 == pytest.approx(gigabytes, abs=5e-7)


@pytest.mark.parametrize(
    ("gigabits", "bytes_a_second", "within"),
    [
        (0.48, 53_248_000, 0),
        (5, 500e6, 0),
        (10, 1212e6, 0.5e6),
    ],
)
def test_a_usb_port(gigabits: float, bytes_a_second: float, within: float) -> None:
    """USB 2.0: 13 bulk packets of 512 B in each 125 us, 53,248,000 B/s; USB 3.2: 500 and 1212 MB/s
    after encoding. All R2, in texts that explain the standards; the last printed to 1 MB/s."""
    assert usb_rate(gigabits * 1e9) == pytest.approx(bytes_a_second, abs=within, rel=1e-12)


@pytest.mark.parametrize(
    ("groups", "checks", "drives_of_data"),
    [(1, 0, 12), (1, 1, 11), (1, 2, 10), (3, 1, 9), (3, 2, 6)],
)
def test_space_beside_checks(groups: int, checks: int, drives_of_data: int) -> None:
    """R0 n c, R5 (n - 1) c, R6 (n - 2) c, R50 (n - g) c, R60 (n - 2 g) c: SNIA disk data format,
    C, for 12 drives. Exact."""
    assert usable_with_checks(12, groups, checks, 3.0) == 3.0 * drives_of_data


def test_space_of_copies() -> None:
    """R1 c of two drives, R10 n / 2 c: SNIA disk data format, C. Exact."""
    assert usable_mirrored(np.array([2.0, 12.0]), 2, 3.0) == pytest.approx([3.0, 18.0])


def test_a_volume_of_a_published_description() -> None:
    """Three drives of 20,266,198,323,167,230 B in R5 are a volume of 40,532,396,646,334,460 B:
    DMTF DSP2043, mock-up public-tower, L. To the sixteen digits of a float."""
    assert usable_with_checks(3, 1, 1, 20266198323167230) == pytest.approx(
        40532396646334460, rel=1e-15
    )


def test_a_tebibyte() -> None:
    """1 TiB is 1.0995 TB: IEC 80000-13, as in pint, L. Exact."""
    assert UNITS.Quantity(1.0, "TiB").to("byte").magnitude == TIB


@pytest.mark.parametrize(
    ("group", "checks", "hours"),
    [(1, 1, 4_500_000), (10, 1, 818_182), (25, 5, 258_621)],
)
def test_the_classic_formula(group: int, checks: int, hours: float) -> None:
    """Patterson, Gibson, Katz 1988, sec. 6: 100 data drives of 30,000 h, repair 1 h. Level 1
    4,500,000 h, R2; level 5 printed as 820,000 h, R2, computed C. For level 2 with groups of 25
    103,500 h is remembered as printed (M), which the formula does not give; C is used. Half an
    hour for rounding."""
    assert classic_time_to_loss(100, group, checks, 30_000, 1) == pytest.approx(hours, abs=0.5)


DRIVES = 100 * 16 / 15
"""100 data drives in groups of 16, one in each for checks."""


def test_two_failures_in_company() -> None:
    """Chen et al. 1994, Table 6: 200,000 h, then 20,000 h, repair 1 h: 285 years and 3.4 % in ten,
    R2. Printed to a year and a tenth of a per cent, and years there have 8760 h: 0.2 %."""
    mean = time_to_double_failure(DRIVES, 16, 200_000, 20_000, 1)
    assert mean / 8760 == pytest.approx(285, abs=0.5)
    assert odds_within(10 * 8760, mean) == pytest.approx(0.034, abs=0.0005)


def test_a_failure_and_an_unreadable_sector() -> None:
    """Chen et al. 1994, Table 6: p = 0.9996: 36 years and 24.4 % in ten, R2. Printed to a year and
    a tenth of a per cent; its p is rounded, so 0.15 % more."""
    mean = time_to_failure_and_unreadable(DRIVES, 16, 200_000, 0.9996)
    assert mean / 8760 == pytest.approx(36, abs=0.5)
    assert odds_within(10 * 8760, mean) == pytest.approx(0.244, abs=0.002)


@pytest.mark.parametrize(
    ("survives", "parallel", "hours"),
    [(1, False, 7.443155e8), (2, False, 5.168734e12), (2, True, 1.033672e13)],
)
def test_the_chain(survives: int, *, parallel: bool, hours: float) -> None:
    """Eight drives of 1,000,000 h, repair 24 h, solved apart from this package: C. Seven
    digits, so half of the last."""
    found = time_to_loss(8, survives, 1e-6, 1 / 24, parallel=parallel)
    assert found == pytest.approx(hours, rel=5e-7)
    again = time_to_loss_of_groups(1, 8, survives, 1e-6, 1 / 24, parallel=parallel)
    assert again == pytest.approx(hours, rel=5e-7)


@pytest.mark.parametrize(("drives", "share"), [(2, 1.5), (5, 0.45)])
def test_without_repair(drives: int, share: float) -> None:
    """A lecture on disk arrays (CMU 18-746): without repair a mirrored pair lasts 1.5 and four
    drives with a check drive 0.45 times as long as one drive: R. Exact."""
    assert time_to_loss(drives, 1, 1e-6, 0.0) == pytest.approx(share * 1e6, rel=1e-12)


def test_one_failure_survived_in_closed_form() -> None:
    """((2 n - 1) f + r) / (n (n - 1) f^2): the model with three states that Greenan, Plank and
    Wylie (HotStorage 2010) call canonical: R2, garbled there and derived again: C. Exact."""
    n, fails, repairs = 11, 3e-6, 1 / 30
    closed = ((2 * n - 1) * fails + repairs) / (n * (n - 1) * fails**2)
    assert time_to_loss(n, 1, fails, repairs) == pytest.approx(closed, rel=1e-12)


def test_yearly_failures_of_a_specified_drive() -> None:
    """1,000,000 h are 0.88 % a year: Schroeder, Gibson, FAST 2007, R. Printed to 0.01 %."""
    assert 100 * odds_within(HOURS_A_YEAR, 1e6) == pytest.approx(0.88, abs=0.01)


@pytest.mark.parametrize(
    ("terabytes", "rate", "per_cent", "within"),
    [
        (12, 1e-14, 61.71, 0.005),
        (12, 1e-15, 9.154, 0.0005),
        (6, 1e-14, 38, 0.5),
        (6, 1e-15, 4.7, 0.05),
        (3, 1e-14, 21, 0.5),
        (3, 1e-15, 2.4, 0.05),
    ],
)
def test_an_unreadable_sector(
    terabytes: float, rate: float, per_cent: float, within: float
) -> None:
    """12 TB: C from 1 - exp(-bits rate). 6 and 3 TB: an answer on a public forum about rebuilds,
    R. Half of the last printed digit each."""
    found = 100 * odds_of_unreadable(terabytes * 1e12, rate)
    assert found == pytest.approx(per_cent, abs=within)


def test_the_write_penalty() -> None:
    """R0 1, R1 2, R5 4, R6 6, R10 2 I/O on drives for each write: common practice, in print in
    many texts, R."""
    penalties = {level.name: level.reads + level.writes for level in LEVELS}
    assert [penalties[name] for name in ("R0", "R1", "R5", "R6", "R10")] == [1, 2, 4, 6, 2]


def test_io_on_the_drives() -> None:
    """1000 IO/s with 40 % reads on R5 are 2800 IO/s on the drives: a public forum, R. Exact: with
    drives of one I/O each second, the drive time of one I/O is the I/O on drives."""
    assert 1000 * drive_time(0.4, 1, 1, 2, 2) == pytest.approx(2800, rel=1e-12)


def test_the_odds_of_waiting() -> None:
    """Ten servers and 6 erlang: about 0.10 read off a curve, R, so 0.005. Two servers: 2 u^2 /
    (1 + u), a textbook form from memory (M), which follows from the general one (C)."""
    assert odds_of_waiting(10, 0.6) == pytest.approx(0.10, abs=0.005)
    assert odds_of_waiting(2, 0.75) == pytest.approx(2 * 0.75**2 / 1.75, rel=1e-12)


@pytest.mark.parametrize(
    ("endurance", "capacity", "years", "times", "within"),
    [(1432, 1.8, 5, 0.43, 0.01), (365, 1, 4, 0.25, 1e-12), (3504, 1.92, 5, 1, 1e-12)],
)
def test_full_writes_a_day(
    endurance: float, capacity: float, years: float, times: float, within: float
) -> None:
    """Three texts that explain the measure: R. The first rounds 0.436 down to 0.43, so 0.01; the
    others are exact."""
    found = full_writes_a_day(endurance * 1e12, capacity * 1e12, years)
    assert found == pytest.approx(times, abs=within)


def test_energy_of_a_pack() -> None:
    """C U^2 / 2 and P t by pint, an independent keeper of units: L. Exact."""
    pack = UNITS.Quantity(18.0, "F") * UNITS.Quantity(9.0**2 - 5.0**2, "V^2") / 2 * 0.85
    flush = UNITS.Quantity(11.0, "W") * (UNITS.Quantity(8.0, "GB") / UNITS.Quantity(0.25, "GB/s"))
    assert pack_energy(18, 9, 5, 0.85) == pytest.approx(pack.to("J").magnitude, rel=1e-12)
    assert flush_energy(8e9, 0.25e9, 11) == pytest.approx(flush.to("J").magnitude, rel=1e-12)


def test_groups_of_the_format() -> None:
    """R60 over 16 drives: two groups of 8 or four of 4: SNIA disk data format, C."""
    shapes = {
        (layout.groups, layout.size)
        for layout in layouts(16, 0, DOUBLE_CHECK.survives)
        if layout.level.grouped
    }
    assert shapes == {(2, 8), (4, 4)}
