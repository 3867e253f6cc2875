"""Energy of the customers' builds, with the arithmetic written out."""

from __future__ import annotations

import numpy as np
import pytest

from baywright.facts.site import Site
from baywright.sizing.case import Case
from baywright.sizing.energy.sheet import listings, sheet
from tests.sizing.builds import changed, figures_in, limits_in
from tests.sizing.cases import case_of


def figure(case: Case, key: str) -> float:
    return figures_in(sheet(case))[f"energy.{key}"].value


def table(case: Case, key: str) -> dict[str, tuple[str, ...]]:
    (found,) = [each for each in listings(case) if each.key == f"energy.{key}"]
    return {row[0]: row[1:] for row in found.rows}


def test_battery_of_the_shops() -> None:
    """N1: peak DC 18 + 65/0.9 + 2 x 6 + 2 x 9 + 18 + 3 x 6 = 156.222 W, / 0.92 = 169.807 W taken
    in. Ten minutes are 28.301 Wh; 90 % of an aged battery at 80 % has to be that: / 0.72 = 39.307
    Wh when new. 48 Wh give 34.56 Wh, which last 34.56 / 169.807 h = 12.21 min."""
    case = case_of("p1", "n1")
    assert figure(case, "battery-needed") == pytest.approx(39.307, abs=0.0005)
    assert figure(case, "battery") == pytest.approx(34.56)
    assert figure(case, "ride-through") == pytest.approx(12.2115, abs=0.00005)
    limits = limits_in(sheet(case))
    assert limits["energy.ride-through"].room == pytest.approx(2.2115, abs=0.00005)
    assert limits["energy.ups-load"].room == pytest.approx(300 - 169.807, abs=0.0005)


def test_battery_of_the_shops_with_a_rate() -> None:
    """The same battery rated over 20 h with an exponent of 1.1: 34.56 / (169.807 x 20) = 0.010176;
    to the power of 1.1 and times 20 h it is 0.12865 h = 7.72 min, so the dip is not bridged."""
    ups = {
        "energy": "48 Wh",
        "to_load": "90 %",
        "aged": "80 %",
        "ride_through": "10 min",
        "peukert": "1.1",
        "rated_time": "20 h",
    }
    site = Site.model_validate({"voltage": "230 V", "ups": ups})
    case = case_of("p1", "n1", site=site)
    assert figure(case, "ride-through") == pytest.approx(7.719, abs=0.002)
    assert limits_in(sheet(case))["energy.ride-through"].room < 0
    needed = figure(case, "battery-needed")
    better = Site.model_validate({"voltage": "230 V", "ups": {**ups, "energy": f"{needed:.9f} Wh"}})
    assert figure(case_of("p1", "n1", site=better), "ride-through") == pytest.approx(10.0)


def test_year_of_the_shops() -> None:
    """N1 from idle, 45 W DC, to peak, 156.222 W: at 60 % 111.733 W DC, / 0.92 = 121.449 W taken
    in; at 10 % 56.122 W, 61.002 W. Half a day each: (121.449 + 61.002) x 12 x 365 / 1000 = 799.14
    kWh, at 0.30 FLO 239.74 FLO."""
    case = case_of("p1", "n1")
    assert figure(case, "year") == pytest.approx(799.14, abs=0.005)
    assert figure(case, "cost") == pytest.approx(239.74, abs=0.005)


def test_day_table_adds_up_to_the_year() -> None:
    case = case_of("f2", "n2")
    rows = table(case, "day").values()
    total = sum(float(row[-1].replace(",", "")) for row in rows)
    assert total == pytest.approx(figure(case, "year"), abs=0.1)


def test_better_supplies_pay_when_they_are_dearer() -> None:
    """N2 with 800 W supplies, 190 FLO each: larger ones never save anything at that load; and with
    the 1300 W ones fitted, 290 FLO, the smaller are cheaper and save, so they pay at once; but one
    of them does not carry the peak of 1,327.7 W alone."""
    small = table(changed(case_of("f2", "n2"), PS="2 x ps-800"), "supplies")
    assert small["2 x ps-800"][0] == "no"
    assert small["2 x ps-800"][3] == "fitted"
    assert small["2 x ps-1300"][3:5] == ("200.00", "never")
    middle = table(changed(case_of("f2", "n2"), PS="2 x ps-1300"), "supplies")
    assert middle["2 x ps-800"][3:5] == ("-200.00", "0.0")


def test_idle_limit_of_the_record_office() -> None:
    """N4: 38 + 7 x 2 x 26 + 10 for one supply + 5 x 24 drives + 0.18 x (1,024 - 4) + 4 x (16 - 8)
    channels + nothing for the two ports on board = 747.6 W."""
    case = case_of("f2", "n4")
    limit = limits_in(sheet(case))["energy.idle"]
    assert limit.bound == pytest.approx([747.6])
    assert table(case, "idle-limit")["limit"] == ("", "747.6")
    assert limit.figure.value < 747.6


def test_idle_limit_counts_ports_beyond_two() -> None:
    """N2 has O2 with two more ports of 25 Gb/s: 2 x 20 W."""
    assert table(case_of("f2", "n2"), "idle-limit")["ports beyond two"] == ("", "40")


def test_supplies_of_the_demo_beside_the_rows() -> None:
    """F2: .88 .92 .95 .92 reach Platinum (90/94/91 at 20/50/100 %); .90 .94 .96 .91 Titanium; and
    .87 .91 .945 .915 Platinum too, which has no point at 10 %."""
    for model, grade in (("2000", "Platinum"), ("1300", "Platinum"), ("800", "Titanium")):
        case = changed(case_of("f2", "n2"), PS=f"2 x ps-{model}")
        assert table(case, "grades")[f"{model} W supply"][-1] == grade


def test_only_the_800_w_supply_reaches_the_regulation() -> None:
    for model, holds in (("800", True), ("1300", False), ("2000", False)):
        case = changed(case_of("f2", "n2"), PS=f"2 x ps-{model}")
        limits = limits_in(sheet(case))
        rooms = [limits[f"energy.efficiency-{load}"].room for load in (10, 20, 50, 100)]
        assert bool(np.all(np.array(rooms) >= 0)) == holds


def test_supplies_on_direct_current_are_exempt() -> None:
    case = changed(case_of("p1", "n1", volts=48.0), PS="2 x ps-dc")
    found = limits_in(sheet(case))["energy.efficiency-50"].figure
    assert np.isnan(found.value)
    assert "exempts" in found.outside
    assert not found.missing
    assert "energy.grades" not in [each.key for each in listings(case)]


def test_a_day_that_is_not_whole_is_not_decided() -> None:
    site = Site.model_validate({"voltage": "230 V", "day": [{"load": "50 %", "hours": "20 h"}]})
    found = figures_in(sheet(case_of("p1", "n1", site=site)))["energy.year"]
    assert np.isnan(found.value)
    assert found.outside == "the hours of site.day do not add up to 24"


def test_grades_are_compared_on_the_line_they_are_for() -> None:
    row = table(case_of("f2", "n4"), "grades")["1300 W supply"]
    assert row[-1] == "not decided: the rows are for 200 to 240 V"
