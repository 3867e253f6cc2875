"""The customers' builds, with the arithmetic written out.

Facts are those of the bundled books; what they are computed to is worked out by hand here.
"""

from __future__ import annotations

import numpy as np
import pytest

from baywright.laws.power import load
from baywright.sizing.case import Case
from baywright.sizing.power.draw import draw
from baywright.sizing.power.listings import listings
from tests.sizing.cases import case_of
from tests.sizing.power.figures import figures_of, limits_of, value


@pytest.mark.parametrize(
    ("book", "build"),
    [
        ("f2", "n4"),
        ("f2", "n2"),
        ("f1", "n5-owned"),
        ("f1", "n5-wanted"),
        ("l4", "n3"),
        ("p1", "n1"),
    ],
)
def test_the_peak_is_that_of_the_laws(book: str, build: str) -> None:
    case = case_of(book, build)
    assert draw(case, "peak") == pytest.approx(case.total(load(case.frame)), abs=1e-9)


def test_the_record_office_draws_1159_watts_and_is_not_redundant_at_120_volts() -> None:
    """45 base + 2 × 225 / 0.9 + 16 × 9 + 24 × 12 + 2 × 16 + 18 + 6 × 22 = 1,159 W. At low line
    the 1300 W supply gives 1,000 W: two carry 2,000 W, one alone is 159 W short."""
    case = case_of("f2", "n4")
    assert value(case, "dc.peak") == 1159.0
    assert value(case, "rating") == 1000.0
    assert value(case, "left.all") == 841.0
    assert value(case, "shed.supply") == value(case, "shed.redundant") == 159.0
    assert value(case, "spare") == 0.0
    limits = limits_of(case)
    assert limits["carry"].legal
    assert limits["carry"].margin == pytest.approx([841 / 2000])
    assert not limits["redundancy"].legal
    assert limits["redundancy"].margin == pytest.approx([-0.159])


def test_what_the_record_office_takes_in() -> None:
    """Each supply has 579.5 W, 57.95 % of 1,000. Between 50 % (.945) and 100 % (.915):
    .945 - .030 × 7.95 / 50 = .94023. 1159 / .94023 = 1,232.68 W; / .98 = 1,257.83 VA; / 120 =
    10.482 A in both cords, 5.241 A in each; × 3.412142 = 4,206.07 BTU/h."""
    figures = figures_of(case_of("f2", "n4"))
    assert figures["efficiency.peak"].value == pytest.approx(94.023)
    assert figures["input.peak"].value == pytest.approx(1232.68, abs=0.005)
    assert figures["loss.peak"].value == pytest.approx(73.68, abs=0.005)
    assert figures["apparent.peak"].value == pytest.approx(1257.83, abs=0.005)
    assert figures["current.peak"].value == pytest.approx(10.482, abs=0.0005)
    assert figures["inlet.all"].value == pytest.approx(5.241, abs=0.0005)
    assert figures["heat_by_hour.peak"].value == pytest.approx(4206.07, abs=0.01)


def test_one_supply_of_the_record_office_alone_carries_no_more_than_its_rating() -> None:
    """1,000 W at .915 and .98 from 120 V: 9.293 A, of 16 A of its inlet."""
    limit = limits_of(case_of("f2", "n4"))["inlet.left"]
    assert limit.figure.value == pytest.approx(1000 / 0.915 / 0.98 / 120)
    assert limit.room == pytest.approx([16 - 9.2933], abs=5e-5)


def test_the_record_office_is_redundant_at_230_volts() -> None:
    """At high line one supply of 1,300 W carries 1,159 W and has 141 W to spare."""
    case = case_of("f2", "n4", volts=230.0)
    assert value(case, "shed.redundant") == 0.0
    assert value(case, "left.supply") == 141.0
    assert value(case, "spare") == 1.0


def test_the_college_has_82_watts_too_many_for_redundant_supplies() -> None:
    """42 + 2 × 150 / 0.9 + 12 × 7 + 12 × 12 + 16 + 18 + 6 × 20 + 75 = 832.33 W on 750 W.
    As owned: 42 + 166.67 + 6 × 7 + 5 × 12 + 16 + 18 + 4 × 20 = 424.67 W, 325.33 W to spare."""
    wanted, owned = case_of("f1", "n5-wanted"), case_of("f1", "n5-owned")
    assert value(wanted, "dc.peak") == pytest.approx(832 + 1 / 3)
    assert value(wanted, "shed.redundant") == pytest.approx(82 + 1 / 3)
    assert value(wanted, "left.all") == pytest.approx(667 + 2 / 3)
    assert value(owned, "left.supply") == pytest.approx(325 + 1 / 3)


def test_hosts_of_the_clinics_on_two_feeds_of_32_amperes() -> None:
    """45 + 2 × 300 / 0.9 + 32 × 9 + 8 × 20 + 2 × 18 + 6 × 22 = 1,327.67 W.
    Both feeds: 33.19 % of 2,000 W each, .92 + .03 × 13.19 / 30 = .93319; 711.36 W, 725.88 VA,
    3.156 A at 230 V. One feed: 66.38 %, .95 - .03 × 16.38 / 50 = .94017; 1,412.2 W, 6.265 A.
    The clinics load a feed to 80 %, 25.6 A: 8 hosts while both are up, 4 when one is lost;
    without that rule (IEC) 10 and 5."""
    case = case_of("f2", "n2")
    figures = figures_of(case)
    assert figures["feed.all"].value == pytest.approx(3.156, abs=0.0005)
    assert figures["feed.left"].value == pytest.approx(6.265, abs=0.0005)
    assert figures["hosts.all"].value == 8
    assert figures["hosts.left"].value == 4
    assert np.floor(32 / figures["feed.all"].value) == 10
    assert np.floor(32 / figures["feed.left"].value) == 5
    assert limits_of(case)["feed.left"].bound == pytest.approx([25.6])


def test_eight_accelerators_on_three_phases() -> None:
    """120 + 2 × 300 / 0.9 + 24 × 9 + 4 × 20 + 2 × 18 + 8 × 60 + 8 × 350 = 4,398.67 W. With feed B
    lost two supplies have 2,199.33 W each at .94 and .98: 2,387.5 VA, 10.380 A at 230 V, and
    20.761 A in feed A; of 25.6 A in each of three phases: 3 hosts. With both feeds 10.380 A in
    each, two hosts on a phase: 6."""
    figures = figures_of(case_of("l4", "n3"))
    assert figures["dc.peak"].value == pytest.approx(4398 + 2 / 3)
    assert figures["inlet.left"].value == pytest.approx(10.380, abs=0.0005)
    assert figures["feed.left"].value == pytest.approx(20.761, abs=0.0005)
    assert figures["hosts.left"].value == 3
    assert figures["hosts.all"].value == 6
    assert figures["spare"].value == 2


def test_a_surge_of_eight_accelerators_is_carried_by_what_the_supplies_hold() -> None:
    """8 × (560 - 350) = 1,680 W more: 6,078.67 W on 5,400 W that two supplies carry, for 10 ms:
    6.787 J. Two supplies hold 2 × 2,700 W × 12 ms = 64.8 J."""
    limit = limits_of(case_of("l4", "n3"))["surge"]
    assert limit.figure.value == pytest.approx(6.7867, abs=5e-5)
    assert limit.bound == pytest.approx([64.8])
    equation = limit.figure.equation
    assert equation
    assert equation.estimate


def test_inrush_and_leakage_of_four_supplies() -> None:
    """4 × 40 A and 4 × 1.5 mA together, half of it on each feed."""
    figures = figures_of(case_of("l4", "n3"))
    assert figures["inrush"].value == 160.0
    assert figures["inrush.feed"].value == 80.0
    assert figures["leakage"].value == pytest.approx(6.0)
    assert figures["leakage.feed"].value == pytest.approx(3.0)


def test_the_shop_idles_below_the_curve_of_its_supplies() -> None:
    """11 + 14 + 2 × 2 + 2 × 2 + 9 + 3 × 1 = 45 W: 9.4 % of 240 W each, below 10 % where the
    curve starts; 45 / .92 = 48.91 W, and the figure says that it is an estimate."""
    figures = figures_of(case_of("p1", "n1"))
    assert figures["share.idle"].value == pytest.approx(9.375)
    assert figures["input.idle"].value == pytest.approx(48.913, abs=0.0005)
    assert "estimate" in figures["input.idle"].condition
    equation = figures["efficiency.idle"].equation
    assert equation
    assert equation.estimate
    assert "estimate" not in figures["input.peak"].condition


def test_tables_of_one_build() -> None:
    tables = {table.key: table for table in listings(case_of("l4", "n3"))}
    assert set(tables) == {
        "power.draws",
        "power.losses",
        "power.feeds",
        "power.phases.A",
        "power.phases.B",
    }
    assert tables["power.draws"].rows[-1] == ("together", "", "738.0", "3,030.0", "4,398.7")
    assert [row[-1] for row in tables["power.losses"].rows] == [
        "runs",
        "runs",
        "runs",
        "goes off unless it sheds 1,699 W",
    ]
    assert tables["power.phases.A"].rows[3] == ("4", "41.52", "20.76", "20.76", "20.76", "no")


def test_many_builds_are_sized_as_one_by_one() -> None:
    names = ("n2", "n4")
    together = figures_of(case_of("f2", *names, volts=230.0, site=case_of("f2", "n2").site))
    for position, name in enumerate(names):
        alone = figures_of(case_of("f2", name, volts=230.0, site=case_of("f2", "n2").site))
        for key, figure in alone.items():
            found = np.broadcast_to(figure.values, 1)[0]
            assert np.broadcast_to(together[key].values, 2)[position] == pytest.approx(
                found, nan_ok=True
            ), key


def swept(case: Case, what: str, values: np.ndarray[tuple[int], np.dtype[np.float64]]) -> Case:
    return case.amid(case.around.changed(what, values))  # type: ignore[arg-type]


def test_a_swept_voltage_jumps_with_the_rating() -> None:
    case = swept(case_of("f2", "n4"), "volts", np.array([100.0, 127.0, 150.0, 200.0, 240.0]))
    assert figures_of(case)["rating"].values == pytest.approx(
        [1000, 1000, np.nan, 1300, 1300], nan_ok=True
    )
    assert "a line of the book" in figures_of(case)["rating"].missing[0]
