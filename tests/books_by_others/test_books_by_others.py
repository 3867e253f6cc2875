"""Two machines unlike those of the demo, written from the documentation alone.

Every expected answer was worked out by hand over the book; the reasoning stands beside it.
The books are invented.
"""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path

import pytest

from baywright.answers.verdicts import Bound, No, Verdict, Yes
from baywright.desk.asking import ask
from baywright.desk.judging import judge_build
from baywright.desk.opening import Opened, Setting, standard_panel
from baywright.desk.words import words
from baywright.files.books import read_book, read_build
from baywright.laws.wishes import read_wishes, with_wishes
from baywright.units import parse

BOOKS = Path(__file__).parent
LATER = datetime.date(2033, 7, 1)

# Facts nobody has stated yet, settled so that each book is compiled once.
SETTLED = {
    "t4": {"parts.fast-7680.power": "21 W", "parts.net-100.power": "22 W"},
    "r0": {},
}


@cache
def opened(
    book: str, inlet: str = "", altitude: str = "", day: datetime.date | None = None
) -> Opened:
    folder = BOOKS / book
    site = [parse(text) if text else None for text in (altitude, inlet)]
    found = read_book(folder, SETTLED[book])
    return Opened(folder, found, Setting(day, *site), standard_panel())


def judged(name: str, nearby: int = 4) -> Verdict:
    build = read_build(BOOKS / "t4/builds" / f"{name}.yaml")
    assert build.site.altitude
    assert build.site.inlet
    site = (str(build.site.inlet.known), str(build.site.altitude.known))
    return judge_build(opened("t4", *site), build, nearby).verdict


def legal(book: Opened, condition: str) -> bool:
    """Say whether a legal build has something, without asking for reasons."""
    inquiry = book.inquiry()
    wishes = read_wishes(inquiry.machine, condition)
    return inquiry.possible(with_wishes(inquiry.machine.space, wishes)) is not None


# What is asked of the Tarn T4, and whether a build has it.
TARN = [
    # Widths, lengths and heights of slots
    ('R1c == "H8"', True),  # low profile in a low-profile slot
    ('R1c == "H16"', False),  # full height does not fit there
    ('R2c == "acc-slim"', True),  # 230 mm in 240 mm
    ('R2b == "acc-slim"', False),  # 230 mm is longer than a half-length card
    ('R2c == "H8"', True),  # half length is less than 240 mm
    ('R1a == "acc-wide" and R1b == "H24" and R1c == "H8"', True),  # two widths of its own; 32 lanes
    ('R2a == "acc-wide" and R2b == "H16"', False),  # the card covers the neighbour R2b
    ('N == "net-100"', False),  # it always holds net-10
    # The row of six slots: 32 lanes, shared with zone E
    ('count("net-100", at=L) == 4', True),  # 4 x 8 lanes
    ('count("net-100", at=L) == 5', False),  # 40 lanes
    ('count("net-100", at=L) == 3 and E == "N4"', False),  # 24 + 4 bays x 4 lanes
    ('count("net-100", at=L) == 2 and count(drive, at=E) == 4', True),  # 16 + 16
    ('count("serial-8", at=L) == 6 and E == "N4"', True),  # 6 + 16
    ("count(network, at=L) == 1 and processors == 2", False),  # the row is processor 4's
    # Zones, cages, controllers
    ('A == "X24" and A == "N8"', False),
    ('count("sas-2400", at=A) == 10 and count("sata-8000", at=A) == 14', True),  # mixed
    ("count(drive, at=A) == 25", False),
    ('count(drive, at=A) == 9 and R1b == "H8"', False),  # either H8 drives 8; R1c takes no other
    ('count(drive, at=A) == 8 and R1c == "H8"', True),
    ('arrays(24, 16, interface="sas")', True),  # H24 on A, H16 on B and C
    ('B == "S8" and C == "S8" and count(controller) == 1 and R2b == "H8"', False),  # 4 connectors
    ('B == "S8" and C == "S8" and count(controller) == 1 and R2b == "H16"', True),
    ('D == "S8" and processors == 2', False),  # its controllers are in riser 3
    ("count(drive) == 40 and processors == 2", True),  # 24 + 8 + 8
    ("count(drive) == 41 and processors == 2", False),  # D and E need processors 3 and 4
    # Rules of the book
    ('RIS == "riser-narrow" and R3a == "acc-wide"', False),
    ('RIS == "riser-narrow" and R3c == "H16" and count(drive, at=D) == 8', True),
    ('R1a == "acc-wide" and R2a == "acc-wide" and R3a == "acc-wide"', True),
    ('count("acc-wide") == 2 and guard == "filter"', False),
    ('plan == "full" and BOOT == empty', False),
    # Power
    ('line == "bus" and count("ps-1100") > 0', False),  # no rating on that line
    ('count("ps-dc") == 4 and supplies_carry_redundant == 3200 W', True),  # two of four
    ("load > 4000 W and voltage == 120 V", False),  # four supplies of 1000 W there
    # Dates
    ("memory > 3 TB", False),  # 4 x 12 x 64 GB; the 256 GB module is not shipping
]


@pytest.mark.parametrize(("condition", "expected"), TARN)
def test_tarn_as_worked_out_by_hand(condition: str, expected: bool) -> None:
    assert legal(opened("t4"), condition) is expected


def test_tarn_takes_the_larger_module_once_it_ships() -> None:
    assert legal(opened("t4", day=LATER), "memory == 12 TB and memory_speed == 5200 MT/s")


@pytest.mark.parametrize(
    ("condition", "inlet", "altitude", "expected"),
    [
        ("count(accelerator) == 3 and processors == 4", "27 °C", "", True),
        ("count(accelerator) == 3 and processors == 4", "28 °C", "", False),
        ("count(accelerator) == 3 and processors == 2", "28 °C", "", True),  # the limit is 30 °C
        ('P1 == "cpu-56" and count(accelerator) == 0', "32 °C", "1000 m", True),
        ('P1 == "cpu-56" and count(accelerator) == 0', "32 °C", "1250 m", False),  # 1 K less
    ],
)
def test_tarn_inlet(condition: str, inlet: str, altitude: str, expected: bool) -> None:
    assert legal(opened("t4", inlet, altitude), condition) is expected


def test_tarn_least_price_by_hand() -> None:
    answer = ask(opened("t4"), "least(price)").verdict
    assert isinstance(answer, Bound)
    # Chassis, two processors, two modules each, net-10, two ps-1100, six fans.
    assert answer.figure.value == 9200 + 2 * 1900 + 4 * 150 + 180 + 2 * 260 + 6 * 35


def test_a_processor_is_no_reason_where_every_processor_would_be_refused() -> None:
    verdict = judged("low", nearby=0)
    assert isinstance(verdict, No)
    # At 1,500 m any accelerator limits the inlet to 28 °C or, with three, to 25 °C.
    assert [r.key for r in verdict.reasons if r.kind == "wish"] == ["wish:R1a"]


def test_tarn_big_build_by_hand() -> None:
    verdict = judged("big")
    assert isinstance(verdict, Yes)
    figures = {figure.name: figure.value for figure in verdict.witness.figures}
    cards = 21 + 17 + 300 + 9
    assert figures["load"] == 110 + 4 * 300 + 48 * 8 + 25 + 4 + 20 * 11 + 12 * 9 + cards + 12 * 24
    assert figures["price"] == 58050


def test_words_name_only_what_a_place_takes() -> None:
    (places,) = (found for found in words(opened("t4")) if found.key == "places")
    meaning = {word.name: word.meaning for word in places.words}
    assert meaning["E"] == "zone E: N4, fast-3840 or fast-7680"
    assert meaning["R3d"] == "slot R3d: net-10, net-100 or serial-8"


@pytest.mark.parametrize(
    ("condition", "expected"),
    [
        ("load == 21 W", True),  # 4 + 12 + 3 + 1 + 1
        ("load > 21 W", False),
        ("load < 19 W", False),  # 4 + 12 + 2 + 0 + 1
        ("supplies_redundant", False),  # there is one supply
        ("air_redundant", False),  # and one fan
        ("price == 305 MRK", True),  # 240 + 40 + 25
        ("price < 305 MRK", False),
        ('M1 == "dimm-8" and BOOT == empty', True),
        ("processors == 2", False),
    ],
)
def test_reed_as_worked_out_by_hand(condition: str, expected: bool) -> None:
    assert legal(opened("r0"), condition) is expected


@pytest.mark.parametrize(("inlet", "expected"), [("45 °C", True), ("46 °C", False)])
def test_reed_inlet_at_3000_m(inlet: str, expected: bool) -> None:
    assert legal(opened("r0", inlet, "3000 m"), "processors == 1") is expected  # 55 - 10 K
