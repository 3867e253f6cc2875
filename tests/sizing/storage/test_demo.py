"""Storage of the demo builds, with the arithmetic written out."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from baywright.facts.build import Build
from baywright.facts.site import Site
from baywright.sizing.case import Case, Surroundings
from tests.sizing.cases import build_of, case_of
from tests.sizing.storage.figures import figures_of, limits_of


def changed(build: Build, places: dict[str, Any], settings: dict[str, str] | None = None) -> Build:
    """Return a build with other things in some places."""
    raw = Build.model_validate({"book": build.book, "name": "changed", "places": places})
    return build.model_copy(
        update={
            "places": {**build.places, **raw.places},
            "settings": {**build.settings, **(settings or {})},
        }
    )


def amid(case: Case, **site: Any) -> Case:
    """Return a case with other things said of its site."""
    told = case.site.model_copy(update=vars(Site.model_validate(site)) if site else {})
    fields = {name: getattr(told, name) for name in site}
    return case.amid(
        Surroundings.of(case.site.model_copy(update=fields)),
    )


def test_n4_splits_24_drives_in_two_arrays() -> None:
    """An array never spans controllers: 16 behind R1b and 8 behind R3b.

    R6 keeps 16 - 2 = 14 and 8 - 2 = 6 drives of data: 20 x 2.4 TB = 48 TB, 48e12 / 2^40 =
    43.66 TiB, of 24 x 2.4 TB = 57.6 TB.
    """
    case = case_of("f2", "n4")
    found = figures_of(case)
    assert found["raw"].value == pytest.approx(57.6)
    assert found["raw_binary"].value == pytest.approx(57.6e12 / 2**40)
    assert found["usable"].value == pytest.approx(48.0)
    assert found["usable_binary"].value == pytest.approx(43.6557, abs=5e-5)
    assert limits_of(case)["usable"].room == pytest.approx([6.0])


def test_n4_rebuilds_a_drive() -> None:
    """2.4 TB at the 255 MB/s that the drive writes: 9,411.8 s = 2.614 h without other load."""
    found = figures_of(case_of("f2", "n4"))["rebuild"]
    assert found.value == pytest.approx(2.4e12 / 255e6 / 3600)
    assert found.value == pytest.approx(2.6144, abs=5e-5)


def test_n4_writes_through_without_packs() -> None:
    """Two C16 with a write cache, and neither has a pack."""
    assert figures_of(case_of("f2", "n4"))["write_through"].value == 2


def test_n4_paths() -> None:
    """Sixteen drives read 16 x 260 MB/s = 4.16 GB/s. The slot gives the x8 generation 4 card
    8 x 1.9692 = 15.754 GB/s: 0.264. The controller moves 11 GB/s: 0.378. Eight drives read
    2.08 GB/s over a connector of 8 lanes of 1.2 GB/s = 9.6 GB/s: 0.2167, as does each bay alone.
    """
    limits = limits_of(case_of("f2", "n4"))
    values = {key: limits[key].figure.value for key in ("uplink", "controller", "connector", "bay")}
    assert values["uplink"] == pytest.approx(16 * 260e6 / (8 * 16e9 * 128 / 130 / 8))
    assert values["controller"] == pytest.approx(4.16 / 11)
    assert values["connector"] == pytest.approx(2.08 / 9.6)
    assert values["bay"] == pytest.approx(0.26 / 1.2)


def test_n4_odds_of_loss() -> None:
    """R6 of n drives at f = -ln(0.992) / 8766 h, each repaired in 24 + 2.614 h, one at a time.

    T = h0 + h1 + h2, h0 = 1 / (n f), h1 = (1 + r h0) / ((n - 1) f), h2 = (1 + r h1) / ((n - 2) f);
    a year of either array is lost with 1 - exp(-8766 / T).
    """
    fails = -np.log(0.992) / 8766
    repairs = 1 / (24 + 2.4e12 / 255e6 / 3600)
    kept = 1.0
    for n in (16, 8):
        h0 = 1 / (n * fails)
        h1 = (1 + repairs * h0) / ((n - 1) * fails)
        h2 = (1 + repairs * h1) / ((n - 2) * fails)
        kept *= np.exp(-8766 / (h0 + h1 + h2))
    found = figures_of(case_of("f2", "n4"))
    assert found["loss"].value == pytest.approx(100 * (1 - kept), rel=1e-6)
    assert found["loss_unreadable"].value > found["loss"].value


def test_n2_pool_of_three_copies() -> None:
    """Four hosts of 8 x 7.68 TB = 61.44 TB; one may fail, so three carry all copies:
    3 x 61.44 x 0.75 / 3 = 46.08 TB, and 420 x 90 GB = 37.8 TB have to fit."""
    limit = limits_of(case_of("f2", "n2"))["pool"]
    assert limit.figure.value == pytest.approx(46.08)
    assert limit.bound == pytest.approx(420 * 0.090)
    assert limit.room == pytest.approx([8.28])


def test_n2_wear() -> None:
    """8 x 14,000 TBW against 3 TB a day x 1.3: 112,000 / 3.9 / 365.25 = 78.6 years. The boot cards
    take 320 TBW at 20 GB a day: 16,000 days = 43.8 years."""
    limits = limits_of(case_of("f2", "n2"))
    assert limits["wear"].figure.value == pytest.approx(112_000 / 3.9 / 365.25)
    assert limits["boot_wear"].figure.value == pytest.approx(16_000 / 365.25)


def test_n1_backup_over_the_fast_port() -> None:
    """5 Gb/s carry 500 MB/s, so the unit sets the pace: 600 GB / 160 MB/s = 3,750 s = 1.042 h."""
    limit = limits_of(case_of("p1", "n1"))["backup"]
    assert limit.figure.value == pytest.approx(3750 / 3600)
    assert limit.room > 0


def test_n1_backup_over_the_port_of_variant_e() -> None:
    """38 MB/s real: 600 GB take 15,789 s = 4.386 h. On the label 0.48 Gb/s are 60 MB/s."""
    case = case_of("p1", changed(build_of("p1", "n1"), {}, {"variant": "E"}))
    limit = limits_of(case)["backup"]
    assert limit.figure.value == pytest.approx(600e9 / 38e6 / 3600)
    assert limit.figure.value == pytest.approx(4.3860, abs=5e-5)


def test_n1_cartridges() -> None:
    """Three backups of 600 GB fit on 2 TB, so seven of them take three cartridges."""
    assert figures_of(case_of("p1", "n1"))["cartridges"].value == 3


def test_n1_mirrors_two_data_drives() -> None:
    """Two of 1.92 TB as copies: 1.92 TB, 1.746 TiB, for 1.2 TB of data."""
    case = case_of("p1", "n1")
    assert figures_of(case)["usable"].value == pytest.approx(1.92)
    assert limits_of(case)["usable"].room == pytest.approx([0.72])


def with_pack(inlet: str | None) -> Case:
    """N4 with a pack for the controller in riser 1."""
    build = changed(build_of("f2", "n4"), {"K1": "pack"})
    return amid(case_of("f2", build), inlet=inlet, upkeep={"years": "6 years"})


def test_a_pack_holds_up_for_the_flush() -> None:
    """18 F from 9.0 to 5.0 V: 18 x (81 - 25) / 2 = 504 J, 85 % usable = 428.4 J. Saving 8 GB at
    0.25 GB/s takes 32 s at 11 W = 352 J: 76.4 J to spare."""
    limit = limits_of(with_pack("26 °C"))["flush"]
    assert limit.figure.value == pytest.approx(352)
    assert limit.bound == pytest.approx(428.4)
    assert limit.room == pytest.approx([76.4])


def test_a_pack_lives_by_its_temperature() -> None:
    """26 °C at the inlet and 9 K to the mount: 35 °C, ten below 45 °C: 5 x 2 = 10 years. At 36 °C
    it is 45 °C and 5 years, less than the 6 wanted; below 16 °C it stays at 20 years."""
    lives = {inlet: limits_of(with_pack(f"{inlet} °C"))["pack_life"] for inlet in (26, 36, 10)}
    assert [lives[inlet].figure.value for inlet in (26, 36, 10)] == pytest.approx([10, 5, 20])
    assert lives[36].room == pytest.approx([-1])


def test_a_pack_serves_one_controller() -> None:
    assert figures_of(with_pack("26 °C"))["write_through"].value == 1


def test_zone_c_halves_the_lanes_of_fast_drives() -> None:
    """A fast drive reads 12 GB/s; four lanes of generation 5 carry 15.754 and two 7.877 GB/s:
    0.762 in zone A and 1.523 in zone C, past the limit."""
    wide = changed(build_of("f2", "n2"), {"O2": "empty"})
    half = changed(wide, {"C": {"cage": "N8h", "drives": "2 x fast-1920"}})
    found = limits_of(case_of("f2", wide, half))["bay"]
    assert found.figure.values == pytest.approx([12 / 15.753846, 12 / 7.876923], rel=1e-6)
    assert (found.room >= 0).tolist() == [True, False]


def test_external_drives_are_counted_apart() -> None:
    """2 chains x 2 enclosures x 24 drives = 96, none of them in the raw capacity; 48 lanes of
    drives over the 4 of a chain: 12; 2 chains x 4 lanes x 1.2 GB/s = 9.6 GB/s."""
    build = changed(build_of("f2", "n4"), {"R3a": "X8"})
    found = figures_of(case_of("f2", build))
    assert found["external_drives"].value == 96
    assert found["external_chain"].value == 12
    assert found["external_rate"].value == pytest.approx(9.6)
    assert found["raw"].value == pytest.approx(57.6)


def test_the_fixed_variant_hangs_on_the_board() -> None:
    """Four SATA drives, each on a lane of 0.6 GB/s of its own, read 0.54 GB/s: 0.9; the rate on
    the label, 6 Gb/s, is not 0.75 GB/s."""
    places = {
        "A": {"cage": "F4", "drives": "4 x sata-960"},
        "B": "blank",
        "C": "blank",
        "R1b": "empty",
        "R3b": "empty",
    }
    build = changed(build_of("f2", "n4"), places, {"variant": "fixed"})
    found = limits_of(case_of("f2", build))
    assert found["bay"].figure.value == pytest.approx(0.9)
    assert "uplink" not in found
