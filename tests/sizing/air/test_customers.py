"""The other customers' builds, with the arithmetic written out.

At sea level the standard atmosphere has 1.2250 kg/m3, so that each CFM and K carries
1.2250 x 4.719474e-4 x 1,004.685 = 0.580845 W.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from baywright.sizing.air.listings import listings
from baywright.sizing.case import Case
from tests.sizing.air.figures import figures_of, in_room, limits_of, room, value
from tests.sizing.cases import case_of

EACH = 0.580845
"""W for each CFM and K at sea level."""


@pytest.fixture(scope="module")
def office() -> Case:
    """The record office: F2 with 1,159 W, six fans of 32 CFM, 15 K, no inlet stated."""
    return case_of("f2", "n4")


@pytest.fixture(scope="module")
def shop() -> Case:
    """The shop: P1 with three fans of 14 CFM, 15 K, at 35 °C."""
    return case_of("p1", "n1")


def test_fans_of_the_record_office(office: Case) -> None:
    """Six carry 192 x 15 x 0.580845 = 1,672.8 W, five 1,394.0 W: both more than 1,159 W."""
    limits = limits_of(office)
    assert np.ravel(limits["heat"].bound)[0] == pytest.approx(192 * 15 * EACH, abs=0.05)
    assert np.ravel(limits["heat_failed"].bound)[0] == pytest.approx(160 * 15 * EACH, abs=0.05)
    assert limits["heat_failed"].room[0] == pytest.approx(160 * 15 * EACH - 1159, abs=0.05)


def test_how_much_more_the_record_office_could_draw(office: Case) -> None:
    """235 W more is what five fans carry: the margin is gone there and nowhere before."""
    more = office.amid(replace(office.around, extra=np.array([0.0, 235.0, 235.1])))
    assert (room(more, "heat_failed") >= 0).tolist() == [True, True, False]
    assert (room(more, "heat") >= 0).all()


def test_f2_is_used_up_to_3050_m(office: Case) -> None:
    """With one fan failed it holds up to rho = 1,159 / (160 x 15 x 4.719474e-4 x 1,004.685) =
    1.01847 kg/m3, 1,882 m; with all it would up to 3,662 m, but it is used up to 3,050 m."""
    figures = figures_of(office)
    assert figures["altitude_failed"].value == pytest.approx(1882, abs=1)
    assert figures["altitude_fans"].value == pytest.approx(3662, abs=1)
    assert figures["altitude_most"].value == 3050
    high = office.amid(replace(office.around, altitude=np.array([3050.0, 3051.0])))
    assert (room(high, "altitude") >= 0).tolist() == [True, False]


def test_the_cover_may_be_off_for_90_seconds(office: Case) -> None:
    assert value(office, "cover_off") == 90


def test_without_an_inlet_its_limit_is_not_decided(office: Case) -> None:
    limit = limits_of(office)["inlet"]
    assert np.isnan(limit.room).all()
    assert limit.figure.missing == ("site.inlet",)
    assert np.ravel(limit.bound)[0] == 35


def test_velocity_through_the_intake(office: Case) -> None:
    """520 cm2 x 0.62 = 0.03224 m2, and 192 CFM are 0.0906139 m3/s: 2.811 m/s."""
    assert value(office, "intake_velocity") == pytest.approx(0.0906139 / 0.03224, rel=1e-5)
    assert value(office, "flow_lost") == 0


def test_labels_over_the_intake(office: Case) -> None:
    """Half of the opening blocked leaves 0.31 of the grille open. Idelchik's coefficient,
    ((1 - f) + 0.707 (1 - f)^0.375)^2 / f^2, rises from 1.977 at 0.62 to 17.726 at 0.31. That adds
    (17.726 - 1.977) x 1.2 / (2 x 0.052^2) = 3,494 Pa/(m3/s)^2 to the 150 / 0.0906139^2 = 18,268
    of the air path, 21,763 together. Six fans between 24 CFM (240 Pa) and 32 CFM (150 Pa) meet it
    where 150 + 11.25 (32 - q) = 21,763 (6 q x 4.719474e-4)^2, or
    0.174504 q^2 + 11.25 q - 510 = 0: q = 30.707 CFM each, 184.2 of 192 together."""
    blocked = in_room(office, grille_blocked="50 %")
    figures = figures_of(blocked)
    narrow, wide = (((1 - f) + 0.707 * (1 - f) ** 0.375) ** 2 / f**2 for f in (0.31, 0.62))
    total = 150 / 0.0906139**2 + (narrow - wide) * 1.2 / (2 * 0.052**2)
    square = total * (6 * 4.719474e-4) ** 2
    each = (-11.25 + np.sqrt(11.25**2 + 4 * square * 510)) / (2 * square)
    assert each == pytest.approx(30.707, abs=5e-4)
    assert figures["flow_blocked"].value == pytest.approx(6 * each, rel=1e-4)
    assert figures["intake_velocity"].value == pytest.approx(6 * each * 4.719474e-4 / 0.01612, 1e-4)
    assert limits_of(blocked)["heat_blocked"].room[0] == pytest.approx(
        6 * each * 15 * EACH - 1159, rel=1e-3
    )


def test_a_room_with_two_machines_and_a_fan_heater(office: Case) -> None:
    """63 dB(A) at 1 m twice is 66.01; at 2 m 59.99; with 58 there 62.12 dB(A), above 60."""
    loud = in_room(
        office,
        machines="2",
        noise_distance="2 m",
        noise_there="58 dB(A)",
        noise_most="60 dB(A)",
    )
    limit = limits_of(loud)["noise_room"]
    assert limit.figure.value == pytest.approx(62.12, abs=0.005)
    assert limit.room[0] == pytest.approx(-2.12, abs=0.005)
    assert limit.margin[0] == pytest.approx(-0.212, abs=0.0005)
    assert not limit.legal


def test_a_room_that_asks_for_nothing_has_no_limit_of_noise(office: Case) -> None:
    assert "noise_room" not in limits_of(office)
    assert "heat_blocked" not in limits_of(office)


def test_the_shop_has_air_to_spare(shop: Case) -> None:
    """Base 18, processor 65 / 0.9, two modules of 6, two drives of 9, network 18, three fans of
    6: 156.2 W, and the three fans carry 42 x 15 x 0.580845 = 365.9 W. 35 °C keep the limit of
    55 °C up to 900 + 20 x 175 = 4,400 m."""
    limits = limits_of(shop)
    assert limits["heat"].figure.value == pytest.approx(18 + 65 / 0.9 + 12 + 18 + 18 + 18)
    assert np.ravel(limits["heat"].bound)[0] == pytest.approx(365.93, abs=0.01)
    assert limits["inlet"].margin[0] == pytest.approx(2.0)
    assert value(shop, "altitude_inlet") == pytest.approx(4400)


def test_fans_of_the_shop_stay_at_idle_noise(shop: Case) -> None:
    """42.7 % of full speed would be 46 + 50 log10 0.427 = 27.5 dB(A): below the 31 of idle."""
    assert value(shop, "noise_needed") == 31


@pytest.mark.parametrize(("book", "build"), [("l4", "n3"), ("f2", "n4"), ("p1", "n1")])
def test_tables_say_the_same_as_the_figures(book: str, build: str) -> None:
    case = case_of(book, build)
    tables = {table.key: table for table in listings(case)}
    assert set(tables) == {
        "air.states",
        "air.operating",
        "air.inlet_limits",
        "air.classes",
        "air.altitudes",
        "air.noise_rooms",
    }
    for table in tables.values():
        assert {len(row) for row in table.rows} == {len(table.header)}
    full = tables["air.states"].rows[0]
    assert full[2] == f"{value(case, 'flow'):,.0f}"
    assert tables["air.operating"].rows[0][1] == f"{value(case, 'operating_flow'):,.0f}"


def test_the_line_of_the_inlet_limits_that_counts_is_marked() -> None:
    table = next(t for t in listings(case_of("l4", "n3")) if t.key == "air.inlet_limits")
    assert [row[-1] for row in table.rows] == ["yes", "", "", "", ""]
    assert table.rows[0][1:4] == ("30.0", "25.3", "1,800")


def test_a_class_is_borne_where_the_limit_of_the_build_is_as_high(office: Case) -> None:
    table = next(t for t in listings(office) if t.key == "air.classes")
    assert [row[-1] for row in table.rows] == ["yes", "yes", "no", "no"]
