"""Rack and room of the demo, each number with its arithmetic."""

from __future__ import annotations

import math

import numpy as np
import pytest

from baywright.sizing.rack.sheet import listings
from tests.sizing.cases import case_of
from tests.sizing.rack.figures import at, changed, figures_of, limits_of, value

CLINICS = case_of("f2", "n2")


def test_mass_of_a_host_of_the_clinics() -> None:
    """15 empty, 2 processors of 0.55, 32 modules of 0.044, a cage of 0.6 with 8 drives of 0.15,
    2 network modules of 0.12, 2 supplies of 1.05, 6 fans of 0.11, a boot module of 0.06:
    15 + 1.1 + 1.408 + 1.8 + 0.24 + 2.1 + 0.66 + 0.06 = 22.368 kg, of at most 31."""
    assert value(CLINICS, "mass") == pytest.approx(22.368)
    assert float(limits_of(CLINICS)["mass"].room[0]) == pytest.approx(31 - 22.368)


def test_centre_of_mass_of_a_host_of_the_clinics() -> None:
    """Depths of the middles of the places, mm: empty 395, processors and modules 260 + 70 = 330,
    zone A 90, network modules at the rear 760, supplies 560 + 99 = 659, fans 200 + 20 = 220, boot
    module 470 + 15 = 485.

    15 x 395 + (1.1 + 1.408) x 330 + 1.8 x 90 + 0.24 x 760 + 2.1 x 659 + 0.66 x 220 + 0.06 x 485
    = 5925 + 827.64 + 162 + 182.4 + 1383.9 + 145.2 + 29.1 = 8655.24; over 22.368 it is 386.947."""
    assert value(CLINICS, "centre_depth") == pytest.approx(8655.24 / 22.368)


def test_a_host_of_the_clinics_pulled_out() -> None:
    """It tips with 22.368 x 9.80665 x (0.760 - 0.386947 - 0.100) = 59.895 N m; the rack rights
    with 140 x 9.80665 x 0.520 = 713.924 N m, 11.92 times as much; 1.5 times is asked."""
    lever = 0.760 - 8.65524 / 22.368 - 0.100
    tipping = limits_of(CLINICS)["tipping"]
    assert tipping.figure.value == pytest.approx(22.368 * 9.80665 * lever)
    assert tipping.figure.value == pytest.approx(59.895, abs=5e-4)
    assert float(np.ravel(tipping.bound)[0]) == pytest.approx(713.924 / 1.5, abs=1e-3)
    assert value(CLINICS, "tip_factor") == pytest.approx(11.92, abs=5e-3)


def test_the_rack_of_the_clinics_with_one_host() -> None:
    """Floor: (140 + 22.368) / (0.6 x 1.1) = 246.01 kg/m2. Centre: (140 x 1000 + 22.368 x
    (450 + 44.45)) / 162.368 = 930.355 mm up. It falls sideways at atan(300 / 930.355) = 17.872."""
    assert value(CLINICS, "floor_load") == pytest.approx(246.01, abs=5e-3)
    assert value(CLINICS, "centre_height") == pytest.approx(930.355, abs=5e-4)
    assert value(CLINICS, "tilt") == pytest.approx(17.872, abs=5e-4)


def test_hosts_of_the_clinics_in_a_rack() -> None:
    """Space: 40 U of 2 U, 20. Mass: 800 / 22.368 = 35.8, 35. Floor: (900 x 0.6 x 1.1 - 140) /
    22.368 = 20.3, 20.

    Feeds: the peak is 45 + 600 / 0.9 + 32 x 9 + 8 x 20 + 2 x 18 + 6 x 22 = 1327.667 W. With one
    feed lost one supply carries it at 66.38 %, so at 0.95 - 0.03 x 0.32767 = 0.94017: 1412.16 W,
    over 0.98 and 230 V 6.265 A. A feed of 32 A may carry 80 %, 25.6 A: 4.09, so 4.

    Heat: with both feeds each supply is at 33.19 % and 0.92 + 0.03 x 13.19 / 30 = 0.93319, so
    1422.7 W; of 9,000 W that is 6.3, so 6. The feeds bind."""
    amps = 1327.667 / 0.94017 / 0.98 / 230
    assert 25.6 / amps == pytest.approx(4.09, abs=5e-3)
    counts = {key: value(CLINICS, f"machines.{key}") for key in ("space", "mass", "floor")}
    assert counts == {"space": 20, "mass": 35, "floor": 20}
    assert (value(CLINICS, "machines.feeds"), value(CLINICS, "machines.heat")) == (4, 6)
    assert value(CLINICS, "machines") == 4


def test_the_table_names_the_resource_that_binds() -> None:
    capacity, lifting = listings(CLINICS)
    assert [row[0] for row in capacity.rows if row[3]] == ["feeds when one is lost"]
    assert [row[1] for row in lifting.rows if row[2]] == ["two people"]


def test_without_the_rule_of_continuous_load_a_feed_takes_one_more() -> None:
    """32 / 6.265 = 5.1."""
    feeds = {name: {"current": "32 A", "continuous": "100 %"} for name in ("A", "B")}
    assert value(at("f2", "n2", feeds=feeds), "machines.feeds") == 5


def test_lifting_a_host_of_the_clinics() -> None:
    """HM 25 / 40, VM 1 - 0.003 x 5, DM 0.82 + 4.5 / 30, fair grip at 80 cm 1:
    23 x 0.625 x 0.985 x 0.97 = 13.735 kg for one person; 22.368 kg are 1.63 times that."""
    assert value(CLINICS, "weight_limit") == pytest.approx(23 * 0.625 * 0.985 * 0.97)
    assert value(CLINICS, "lift_index") == pytest.approx(1.6286, abs=5e-5)
    assert value(CLINICS, "lift_band") == 2


def test_the_room_of_the_clinics() -> None:
    """Two hosts of 1422.72 W: 2845.4 W, 9,709 BTU/h at 3.412142 each."""
    assert value(CLINICS, "room_heat") == pytest.approx(2845.43, abs=0.02)
    assert value(CLINICS, "room_heat_by_hour") == pytest.approx(2845.43 * 3.412142, abs=0.1)


def test_air_of_a_room() -> None:
    """2845.43 W over 1.225 kg/m3, 3.5 x 287.05287 J/(kg K) and 8 K are 0.28900 m3/s, 1,040.4 m3/h;
    in 30 m3 the air changes 34.68 times an hour."""
    room = {"machines": "2", "rise": "8 K", "volume": "30 m³"}
    case = at("f2", "n2", room=room)
    assert value(case, "room_flow") == pytest.approx(1040.4, abs=0.1)
    assert value(case, "air_changes") == pytest.approx(34.68, abs=5e-3)


def test_two_boxes_side_by_side_in_each_tray() -> None:
    """P1: two in a tray of 1 U, so 3 U hold six, and runs of 1 U and 2 U as many."""
    assert value(at("p1", "n1", rack={"units": "3"}), "machines.space") == 6
    assert value(at("p1", "n1", rack={"units": "3", "runs": ["1", "2"]}), "machines") == 6
    assert "rails_to" not in limits_of(at("p1", "n1"))


def test_the_accelerator_box_does_not_fit_where_a_host_does() -> None:
    """L4: 4 U high, 880 mm deep, rails 700 to 920 mm, at most 66 kg; 56.036 kg with 8 cards."""
    rack = {"units": "10", "runs": ["3", "4", "3"], "rails": "680 mm", "depth_free": "850 mm"}
    limits = limits_of(at("l4", "n3", rack=rack))
    short = {key for key, limit in limits.items() if limit.room[0] < 0}
    assert short == {"rails_from", "depth"}
    assert limits["units"].room.tolist() == [0]
    assert value(at("l4", "n3", rack=rack), "machines.space") == 1
    assert limits["mass"].figure.value == pytest.approx(56.036)


def test_accelerators_make_it_heavier_by_what_they_weigh() -> None:
    """Eight cards of 1.9 kg: 15.2 kg less without them."""
    bare = case_of("l4", changed("l4", "n3", X1="empty", X2="empty"))
    assert value(case_of("l4", "n3"), "mass") - value(bare, "mass") == pytest.approx(15.2)


def test_no_limit_of_the_rack_makes_a_build_illegal() -> None:
    """No law of the books speaks of mass or of a rack: all of these are promises."""
    assert not any(limit.legal for limit in limits_of(CLINICS).values())


def test_every_figure_leads_to_what_it_was_computed_from() -> None:
    for figure in figures_of(CLINICS).values():
        assert not math.isnan(figure.value) or figure.missing, figure.key
        assert figure.inputs, figure.key
