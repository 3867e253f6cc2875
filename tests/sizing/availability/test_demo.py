"""Availability and spares of the customers' builds, with the arithmetic written out."""

from __future__ import annotations

import numpy as np
import pytest

from baywright.facts.site import Site
from baywright.sizing.availability.sheet import listings, sheet
from baywright.sizing.case import Case
from tests.sizing.builds import changed, figures_in, limits_in
from tests.sizing.cases import case_of

SHOP = "p1", "n1"


def figure(case: Case, key: str) -> float:
    return figures_in(sheet(case))[f"availability.{key}"].value


def table(case: Case, key: str) -> dict[str, tuple[str, ...]]:
    (found,) = [each for each in listings(case) if each.key == f"availability.{key}"]
    return {row[0]: row[1:] for row in found.rows}


@pytest.mark.parametrize(
    ("part", "pieces", "yearly", "demand", "spares"),
    [
        ("board", 140, "0.60 %", "0.0322", "1"),
        ("16-core processor", 140, "0.10 %", "0.0054", "0"),
        ("32 GB module", 280, "0.20 %", "0.0215", "1"),
        ("1,920 GB data drive", 280, "0.80 %", "0.0859", "1"),
        ("pair of boot drives", 280, "0.80 %", "0.0859", "1"),
        ("network module with 2 ports of 10 Gb/s", 140, "0.40 %", "0.0215", "1"),
        ("removable-disk cartridge unit", 140, "2.00 %", "0.1074", "1"),
        ("240 W supply", 280, "1.20 %", "0.1289", "1"),
        ("fan", 420, "1.00 %", "0.1611", "2"),
    ],
)
def test_spares_of_the_shops(part: str, pieces: int, yearly: str, demand: str, spares: str) -> None:
    """N1, 140 shops, 14 days, 99 %: demand = pieces x yearly x 14 / 365. No spare covers 99 % up to
    a demand of -ln 0.99 = 0.01005, one up to 0.1486 (1.1486 x exp(-0.1486) = 0.99), two up to
    0.4360; so the fans, 420 x 1 % x 14 / 365 = 0.1611, are the only ones to need two."""
    row = table(case_of(*SHOP), "spares")[part]
    assert row[:5] == (str(pieces), yearly, "14", demand, spares)


def test_whole_machines_of_the_shops() -> None:
    """140 x 1 % x 21 / 365 = 0.0805: exp(-0.0805) = 92.26 % without, 1.0805 times that, 99.69 %,
    with one."""
    row = table(case_of(*SHOP), "spares")["whole machine"]
    assert row == ("140", "1.00 %", "21", "0.0805", "1", "99.693 %", "92.261 %")


def test_the_whole_stock_of_the_shops() -> None:
    """1 + 0 + 1 + 1 + 1 + 1 + 1 + 1 + 2 + 1 = 10 pieces. Parts without board and machine: 160 + 250
    + 160 / 2 + 140 + 310 + 85 + 2 x 18 = 1,061 FLO."""
    case = case_of(*SHOP)
    assert figure(case, "spares") == 10
    assert figure(case, "spares-price") == 1061


def test_down_time_of_the_shops() -> None:
    """Repair takes a week, so a part is down for lambda R / (1 + lambda R) of the time. Alone stop
    the box: the board, 0.006 x 168 / 8760 = 1.1507e-4; the processor, 0.1918e-4; two modules,
    0.7672e-4 in all. Of fans, 1.9175e-4 each, two of three may not fail: 3 q^2 = 1.10e-7; of two
    supplies, 2.301e-4 each, 5.3e-8; both boot drives, 1.534e-4 each, 2.4e-8. Together 2.1112e-4,
    x 8,760 h = 1.849 h a year."""
    assert figure(case_of(*SHOP), "down-time") == pytest.approx(1.849, abs=0.0008)


def test_supplies_of_the_shops() -> None:
    """lambda = 0.012 / 8760 h, mu = 1 / 168 h: (3 lambda + mu) / (2 lambda^2) = 1.587e9 h, that is
    181,177 years; one supply carries 240 W, and the peak is 156 W."""
    assert figure(case_of(*SHOP), "supplies") == pytest.approx(181_177, rel=1e-5)


def test_failures_of_one_shop() -> None:
    """0.6 board + 0.1 processor + 2 x 0.2 modules + 2 x 0.8 data and 2 x 0.8 boot drives + 0.4
    network + 2.0 cartridge unit + 2 x 1.2 supplies + 3 x 1.0 fans = 12.1 % a year."""
    assert figure(case_of(*SHOP), "failures") == pytest.approx(0.121)


def test_what_stops_a_shop_alone_and_in_pairs() -> None:
    """One feed, as the site names none. Data is mirrored, boot is a pair, one fan may fail."""
    assert {name: row[0] for name, row in table(case_of(*SHOP), "single-points").items()} == {
        "feed": "1",
        "board": "1",
        "32 GB module": "2",
        "network chip": "1",
        "16-core processor": "1",
    }
    pairs = {name: row[0] for name, row in table(case_of(*SHOP), "pairs").items()}
    assert pairs == {
        "connection + connection": "1",
        "fan + fan": "3",
        "supply + supply": "1",
        "drive without controller + drive without controller": "1",
        "medium of pair of boot drives + medium of pair of boot drives": "1",
    }


def test_the_record_office_is_not_redundant_at_120_volts() -> None:
    """N4: 1,159 W on two supplies of 1,000 W: each of them is a single point. With 16 modules, two
    processors, the board, that is 21; at 230 V one of them carries the load, and 19 are left."""
    assert figure(case_of("f2", "n4"), "single-points") == 21
    assert figure(case_of("f2", "n4", volts=230.0), "single-points") == 19
    singles = table(case_of("f2", "n4"), "single-points")
    assert singles["supply"][:2] == ("2", "2.4 %")
    assert singles["controller in R1b"][0] == singles["controller in R3b"][0] == "1"
    assert singles["feed"] == ("1", "not decided")


def test_feeds_are_common_causes_of_the_clinics() -> None:
    """N2: two feeds, one supply on each, either carries 1,328 W of 2,000: both feeds, a feed with
    the other supply, or both supplies. O2 has a chip of its own, so both chips have to fail."""
    pairs = table(case_of("f2", "n2"), "pairs")
    for pair in ("feed A + feed B", "feed A + supply", "feed B + supply", "supply + supply"):
        assert pairs[pair][0] == "1"
    assert pairs["network chip + network chip"][0] == "1"
    alone = table(changed(case_of("f2", "n2"), O2="empty"), "single-points")
    assert alone["network chip"][0] == "1"


def test_feeds_beyond_the_supplies_do_not_matter() -> None:
    feeds = {f"F{i}": {"current": "16 A"} for i in range(12)}
    site = Site.model_validate({"voltage": "230 V", "feeds": feeds})
    pairs = table(case_of("f2", "n2", site=site), "pairs")
    assert [name for name in pairs if "feed" in name] == [
        "feed F0 + feed F1",
        "feed F0 + supply",
        "feed F1 + supply",
    ]


def test_a_boot_stick_is_a_single_point() -> None:
    stick = changed(case_of("f2", "n2"), BOOT="usb-stick")
    without = changed(case_of("f2", "n2"), BOOT="empty")
    assert figure(stick, "single-points") == figure(without, "single-points") + 1


def test_fans_of_the_quarry_are_single_points() -> None:
    """N3: 8 x 350 + 120 + 666.7 + 24 x 9 + 4 x 20 + 36 + 480 = 4,398.7 W at 2,300 m, where seven
    fans carry 4,366 W; so all eight have to run, and "keeping fan redundancy" fails."""
    assert table(case_of("l4", "n3"), "single-points")["fan"][0] == "8"
    assert "fan" not in table(case_of("l4", "n3", altitude=0.0), "single-points")


def test_supplies_of_the_quarry_survive_a_feed() -> None:
    """L4: any two of four carry 4,399 W of 5,400, feed A has two: one feed is not fatal, one feed
    and one supply on the other are."""
    pairs = table(case_of("l4", "n3"), "pairs")
    assert pairs["feed A + feed B"][0] == "1"
    assert pairs["feed A + supply"][0] == pairs["feed B + supply"][0] == "2"


def test_most_down_time_is_a_limit_where_it_is_asked_for() -> None:
    upkeep = {
        "repair": "4 h",
        "feed_failure_rate": "5 %",
        "network_failure_rate": "5 %",
        "down_time_most": "1 h",
    }
    raw = {"voltage": "230 V", "workload": {"failures": "1"}, "upkeep": upkeep}
    case = case_of(*SHOP, site=Site.model_validate(raw))
    limit = limits_in(sheet(case))["availability.service-down-time"]
    assert limit.side == "most"
    assert limit.room == pytest.approx([1 - limit.figure.value])
    assert limit.room > 0
    assert not limits_in(sheet(case_of("f2", "n4")))


def test_odds_of_the_table_are_those_of_the_tree() -> None:
    """N1 in a year without repair: the sum over cut sets lies above the exact odds, and both above
    the 10 % of the feed alone."""
    odds = {name: float(row[0].split()[0]) for name, row in table(case_of(*SHOP), "odds").items()}
    assert 10 < odds["exact"] < odds["sum over single parts and pairs"] < 16
    assert np.isclose(odds["exact"], 14.94, atol=0.01)
