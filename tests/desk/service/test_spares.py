"""Spares of fleets: the shops by hand and by another library, and laws of every stock."""

from __future__ import annotations

from pathlib import Path

import pyarrow as pa
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pyarrow import parquet
from scipy.stats import poisson

from baywright.desk.request import Request
from baywright.desk.service.fleet import Asked, interval, machines_of
from baywright.desk.service.spares import Depot, Line, Spares, spares_of
from baywright.desk.service.spares_json import spares_json
from baywright.desk.service.spares_telling import spares_sheet
from baywright.files.books import find_book
from baywright.problems import Problems

SHOP = find_book("p1") / "builds" / "n1.yaml"
HOST = find_book("f2") / "builds" / "n2.yaml"
OFFICE = find_book("f2") / "builds" / "n4.yaml"


def spares(build: Path = SHOP, book: str = "p1", **asked: str) -> Spares:
    wanted = Asked(**asked)  # type: ignore[arg-type]
    return spares_of(machines_of(book, build, Request(), wanted), interval(wanted))


def line(depot: Depot, part: str) -> Line:
    (found,) = [each for each in depot.lines if each.part == part]
    return found


# --- the shops -----------------------------------------------------------------------------

SHOPS = [
    ("board", 140, 0.006),
    ("16-core processor", 140, 0.001),
    ("32 GB module", 280, 0.002),
    ("1,920 GB data drive", 280, 0.008),
    ("pair of boot drives", 280, 0.008),
    ("network module with 2 ports of 10 Gb/s", 140, 0.004),
    ("removable-disk cartridge unit", 140, 0.02),
    ("240 W supply", 280, 0.012),
    ("fan", 420, 0.01),
]
"""Parts of 140 boxes: pieces in service and the share that fails in a year, of the book."""


@pytest.mark.parametrize(("part", "pieces", "yearly"), SHOPS)
def test_the_shops_by_another_library(part: str, pieces: int, yearly: float) -> None:
    """Demand in 14 days = pieces x yearly x 14 / 365; the stock is the 99 % point of the Poisson
    distribution, as SciPy computes it."""
    (depot,) = spares(machines="140", level="99 %", lead="14 d").depots
    found, demand = line(depot, part), pieces * yearly * 14 / 365
    assert found.count == pieces
    assert found.demand == pytest.approx(demand)
    assert found.stock == poisson.ppf(0.99, demand)
    assert found.suffices == pytest.approx(poisson.cdf(found.stock, demand))


def test_whole_boxes_take_three_weeks() -> None:
    """140 x 1 % x 21 / 365 = 0.0805: none covers exp(-0.0805) = 92.3 %, one covers 99.69 %."""
    (depot,) = spares(machines="140", level="99 %", lead="14 d").depots
    whole = line(depot, "whole machine")
    assert (whole.lead, whole.stock) == (21.0, 1.0)
    assert whole.demand == pytest.approx(140 * 0.01 * 21 / 365)
    assert poisson.ppf(0.99, whole.demand) == 1


def test_the_site_of_the_build_says_what_is_not_asked() -> None:
    assert spares() == spares(machines="140", level="99 %", lead="14 d", unit_lead="21 d")


def test_failures_and_visits_of_the_shops() -> None:
    """12.1 % of a box's parts fail in a year, 16.94 over 140. One visit a week to each finds
    something 140 x 365 / 7 x (1 - exp(-0.121 x 7 / 365)) = 16.92 times."""
    (depot,) = spares(visits="7 d").depots
    assert depot.failures == pytest.approx(140 * 0.121)
    assert depot.visits == pytest.approx(16.9203, abs=1e-3)
    assert spares().depots[0].visits == pytest.approx(depot.failures)


def test_a_kit_for_each_of_ten_sites() -> None:
    """14 boxes at each: 42 fans fail 0.0161 times in 14 days, so one lies there; the pieces with
    a demand of up to -ln 0.99 = 0.01005 do without."""
    (kit,) = spares(sites="10").kits
    assert kit.machines == 14
    kept = {each.part for each in kit.lines if each.stock}
    assert kept == {"240 W supply", "fan", "removable-disk cartridge unit"}
    assert all(each.stock == poisson.ppf(0.99, each.demand) for each in kit.lines)


# --- laws ----------------------------------------------------------------------------------

COUNTS, RATES = st.integers(1, 5000), st.floats(0.0001, 0.1)
LEVELS, LEADS = st.floats(0.5, 0.9999), st.floats(0.5, 120)


def stock(count: int, yearly: float, lead: float, level: float) -> float:
    return Line("m", "p", count, yearly, lead, level, 1.0, "FLO").stock


@given(COUNTS, RATES, LEADS, LEVELS)
def test_a_stock_is_that_of_another_library(
    count: int, yearly: float, lead: float, level: float
) -> None:
    demand = count * yearly * lead / 365
    expected = poisson.ppf(level, demand)
    # Where the odds come to the level on the last digits, either number is right.
    found = stock(count, yearly, lead, level)
    assert found == expected or poisson.cdf(found, demand) == pytest.approx(level, rel=1e-9)


@given(COUNTS, RATES, LEADS, LEVELS, st.integers(0, 500), st.floats(0, 30), st.floats(0, 1))
def test_a_stock_grows_with_fleet_lead_and_level(
    count: int, yearly: float, lead: float, level: float, more: int, longer: float, way: float
) -> None:
    base = stock(count, yearly, lead, level)
    assert stock(count + more, yearly, lead, level) >= base
    assert stock(count, yearly, lead + longer, level) >= base
    assert stock(count, yearly, lead, level + way * (0.99999 - level)) >= base


# --- fleets --------------------------------------------------------------------------------

ROWS: list[dict[str, object]] = [
    {"book": "p1", "build": str(SHOP), "count": 140, "depot": "North", "sites": 140},
    {"book": "f2", "build": str(HOST), "count": 4, "depot": "North", "sites": 2},
    {"book": "f2", "build": str(OFFICE), "count": 6, "depot": "South", "sites": 6},
]


def table(folder: Path, rows: list[dict[str, object]]) -> Path:
    path = folder / "fleet.csv"
    lines = [",".join(rows[0]), *(",".join(map(str, row.values())) for row in rows)]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def fleet(path: Path, **asked: str) -> Spares:
    wanted = Asked(level="99 %", lead="14 d", fleet=path, **asked)
    return spares_of(machines_of("", None, Request(), wanted), interval(wanted))


def test_a_fleet_from_a_text_table_and_from_parquet_is_the_same(tmp_path: Path) -> None:
    columns = tmp_path / "fleet.parquet"
    parquet.write_table(pa.Table.from_pylist(ROWS), columns)
    assert fleet(table(tmp_path, ROWS)) == fleet(columns)


def test_depots_add_up_their_machines(tmp_path: Path) -> None:
    """South: 6 x 24 drives, 6 x 6 fans; North: 140 boxes and 4 hosts, whose parts are not mixed."""
    north, south = fleet(table(tmp_path, ROWS)).depots
    assert (north.machines, north.sites, south.machines) == (144, 142, 6)
    assert line(south, "2.4 TB SAS drive").count == 144
    assert line(south, "fan").count == 36
    assert sorted(each.count for each in north.lines if each.part == "fan") == [24, 420]
    assert [kit.machines for kit in fleet(table(tmp_path, ROWS)).kits] == [1, 2, 1]


def test_rows_of_one_build_are_one_stock(tmp_path: Path) -> None:
    rows: list[dict[str, object]] = [
        {"book": "p1", "build": str(SHOP), "count": n} for n in (100, 40)
    ]
    (depot,) = fleet(table(tmp_path, rows)).depots
    assert depot.lines == spares(level="99 %", lead="14 d").depots[0].lines


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        ([{"count": "many"}], "fleet.csv:2:1: count: 'many' is not a number"),
        ([{"number": "3"}], "no column 'number'"),
        ([{"book": "p1"}], "column is missing: count"),
        ([{"count": "3", "sites": "4"}], "3 machines cannot stand at 4 sites"),
        ([{"count": "3"}], "says neither book nor build"),
        ([{"book": "p1", "build": "none.yaml", "count": "3"}], "none.yaml"),
    ],
)
def test_what_is_wrong_with_a_fleet_is_said_with_its_row(
    tmp_path: Path, rows: list[dict[str, object]], message: str
) -> None:
    with pytest.raises(Problems, match=message):
        fleet(table(tmp_path, rows))


def test_a_broken_parquet_file_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "fleet.parquet"
    path.write_bytes(b"PAR1 no more")
    with pytest.raises(Problems, match="cannot be read"):
        fleet(path)
    with pytest.raises(Problems, match="not known to be a fleet"):
        fleet(tmp_path / "fleet.txt")


# --- what is missing -----------------------------------------------------------------------


def test_a_build_that_says_nothing_asks_for_level_and_lead() -> None:
    with pytest.raises(Problems, match=r"--machines"):
        spares(OFFICE, "f2")
    with pytest.raises(Problems, match=r"--level '99 %'.*\n.*--lead '14 d'"):
        spares(OFFICE, "f2", machines="6")


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ({"machines": "some"}, "machines: 'some'"),
        ({"machines": "0"}, "one machine at least"),
        ({"level": "99 W"}, "level: '99 W'"),
        ({"lead": "14 W"}, "lead: '14 W' is a power"),
        ({"sites": "x"}, "not a number of sites"),
        ({"sites": "200"}, "140 machines cannot stand at 200 sites"),
        ({"visits": "7 kg"}, "visits"),
        ({"visits": "0 d"}, "no interval"),
    ],
)
def test_what_is_asked_amiss_is_a_problem(asked: dict[str, str], message: str) -> None:
    with pytest.raises(Problems, match=message):
        spares(SHOP, "p1", **asked)


def test_the_sheet_and_json_say_the_same() -> None:
    found = spares(sites="10", visits="7 d")
    data = spares_json(found)
    (depot,) = data["depots"]
    assert [each["spares"] for each in depot["stock"]] == [1, 0, 1, 1, 1, 1, 1, 1, 2, 1]
    told = spares_sheet(found)
    assert told.title == "Spares for 140 machines from 1 depot"
    assert [row[5] for row in told.stocks[0].table.rows] == list("1011111121")
    assert "In all 10 pieces" in told.stocks[0].sentences[0]
    assert told.stocks[0].sentences[1].startswith("List price 1,061.00 FLO")
    assert "Planning aid" in told.aid
