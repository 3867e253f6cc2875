"""The layouts of the record office, with the arithmetic written out."""

from __future__ import annotations

import pytest

from baywright.sizing.storage.groups import groups_of
from baywright.sizing.storage.ranking import HEADER, Rated, ranked
from baywright.sizing.storage.sheet import listings
from tests.sizing.cases import case_of


def of_sixteen() -> dict[tuple[str, int, int], Rated]:
    case = case_of("f2", "n4")
    group = next(each for each in groups_of(case) if each.slot == "R1b")
    return {
        (each.layout.level.name, each.layout.groups, each.layout.spares): each
        for each in ranked(case, group, 2)
    }


def test_every_layout_that_survives_two_failures() -> None:
    """R6 of 16; with a spare R6 of 15; R60 of 2 x 8, of 4 x 4, and with a spare of 3 x 5."""
    space = {key: round(each.usable / 1e12, 1) for key, each in of_sixteen().items()}
    assert space == {
        ("R6", 1, 0): 33.6,
        ("R6", 1, 1): 31.2,
        ("R60", 2, 0): 28.8,
        ("R60", 3, 1): 21.6,
        ("R60", 4, 0): 19.2,
    }


def test_io_of_the_double_check() -> None:
    """One I/O of 75 % reads takes 0.75 / 180 + 0.25 (3 / 180 + 3 / 170) = 12.745 ms of drive
    time, so 16 drives take 1,255.4 IO/s. Two thirds of 900 IO/s keep them busy for 47.8 %, and a
    drive answers in (0.75 / 180 + 0.25 / 170) / (1 - 0.478) = 10.8 ms."""
    found = of_sixteen()["R6", 1, 0]
    mix = 16 / (0.75 / 180 + 0.25 * (3 / 180 + 3 / 170))
    busy = 600 / mix
    assert found.mix == pytest.approx(mix)
    assert found.reads == pytest.approx(16 * 180)
    assert found.writes == pytest.approx(16 / (3 / 180 + 3 / 170))
    assert found.busy == pytest.approx(busy)
    assert found.response == pytest.approx((0.75 / 180 + 0.25 / 170) / (1 - busy))


def test_rebuild_shares_the_drives_with_the_load() -> None:
    """2.614 h alone; the load leaves 52.2 % of the time: 5.01 h."""
    found = of_sixteen()["R6", 1, 0]
    assert found.rebuild == pytest.approx(2.4e12 / 255e6 / 3600 / (1 - found.busy))


def test_throughput_is_that_of_the_data_drives() -> None:
    """14 x 260 MB/s = 3.64 GB/s and 14 x 255 MB/s = 3.57 GB/s; slot and controller carry more."""
    found = of_sixteen()["R6", 1, 0]
    assert (found.reading / 1e9, found.writing / 1e9) == pytest.approx((3.64, 3.57))


def test_a_spare_shortens_the_danger() -> None:
    found = of_sixteen()
    assert found["R6", 1, 1].loss < found["R6", 1, 0].loss < found["R6", 1, 0].loss_unreadable


def test_the_listing_has_a_table_for_each_controller() -> None:
    tables = list(listings(case_of("f2", "n4")))
    assert [table.key for table in tables] == [
        "storage.layouts.R1b.sas-2400",
        "storage.layouts.R3b.sas-2400",
    ]
    assert all(len(row) == len(HEADER) for table in tables for row in table.rows)
    assert tables[0].rows[0][:3] == ("R6 of 16", "33.60", "30.56")


def test_without_what_is_asked_every_layout_is_listed() -> None:
    (table,) = listings(case_of("f2", "n2"))
    assert {row[0] for row in table.rows} >= {"R0 of 8", "R5 of 8", "R10 of 4 x 2", "R60 of 2 x 4"}
    assert "not decided" in table.rows[0]
