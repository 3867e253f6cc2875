"""Sizing, fitting, listing, comparing and upgrading the two machines, as a practitioner would.

Every expected number was worked out by hand over the book; the reasoning stands beside it.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from baywright.answers.inquiry import StoppedError
from baywright.answers.verdicts import Stopped
from baywright.answers.wording import Sheet
from baywright.desk.asking import Answer, ask
from baywright.desk.compare import books
from baywright.desk.compare.asking import Asked, compared
from baywright.desk.compare.books import compare_books
from baywright.desk.compare.telling import compared_sheet
from baywright.desk.fit.fit import fit
from baywright.desk.fit.request import fitted
from baywright.desk.fit.telling import fit_sheet
from baywright.desk.opening import Opened, open_book
from baywright.desk.order.checking import check_file
from baywright.desk.order.telling import order_sheet
from baywright.desk.parts_list import parts_list, parts_sheet, remarks
from baywright.desk.request import Request
from baywright.desk.size.request import SiteRequest, sized
from baywright.desk.size.telling import size_sheet
from baywright.desk.upgrade.telling import upgrade_sheet
from baywright.desk.upgrade.upgrading import upgraded
from baywright.files.books import read_need
from baywright.problems import Problems

BOOKS = Path(__file__).parent
R0, T4 = str(BOOKS / "r0"), str(BOOKS / "t4")

OWNED = """\
book: r0
name: as owned
places: {P1: cpu-4, M1: 1 x dimm-8, PS: 1 x ps-30, F: 1 x fan}
"""
NEED = "book: r0\nname: more memory\nhosts: 1\ndemand: {memory: 16 GB}\n"


def file(folder: Path, text: str, name: str = "asked.yaml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def fit_of(folder: Path, need: str) -> Sheet:
    return fit_sheet(*fitted(R0, file(folder, need), Request()))


def kinds(found: pytest.ExceptionInfo[Problems]) -> list[str]:
    return [problem.kind for problem in found.value.problems]


def test_a_size_says_what_is_taken_as_empty_where_the_verdict_stands(tmp_path: Path) -> None:
    build = file(tmp_path, "book: r0\nname: open\nplaces: {M1: 1 x dimm-8}\n")
    said = size_sheet(sized(R0, build, Request(), SiteRequest())[1]).verdict
    assert said.startswith("A legal build has all that is named.")
    assert "with nothing in P1, BOOT, PS and F" in said


@pytest.mark.parametrize("volts", ["0 V", "-230 V"])
def test_no_feed_is_without_voltage(volts: str, tmp_path: Path) -> None:
    with pytest.raises(Problems) as found:
        sized(R0, file(tmp_path, OWNED), Request(), SiteRequest(volts=volts))
    assert kinds(found) == ["not-positive"]


def test_no_feed_is_without_current(tmp_path: Path) -> None:
    with pytest.raises(Problems) as found:
        sized(R0, file(tmp_path, OWNED), Request(), SiteRequest(feeds=("A=0 A",)))
    assert kinds(found) == ["not-positive"]


def test_no_air_is_below_absolute_zero(tmp_path: Path) -> None:
    with pytest.raises(Problems) as found:
        sized(R0, file(tmp_path, OWNED), Request(inlet="-300 °C"), SiteRequest())
    assert kinds(found) == ["inlet"]


def test_a_budget_is_not_below_0_and_a_site_of_a_need_has_a_voltage(tmp_path: Path) -> None:
    with pytest.raises(Problems) as found:
        fit_of(tmp_path, f"{NEED}budget: -3 MRK\nsite: {{voltage: 0 V}}\n")
    assert kinds(found) == ["negative", "not-positive"]


def test_supplies_that_are_not_redundant_have_no_headroom(tmp_path: Path) -> None:
    # One converter of 30 W: when it fails nothing is left for the 20 W.
    sheet = fit_of(tmp_path, NEED)
    assert sheet.table is not None
    assert sheet.table.rows[0][sheet.table.heads.index("Headroom")] == "none"


def test_the_nearest_build_is_held_against_what_was_asked(tmp_path: Path) -> None:
    # 4 W base, 12 W processor, 3 W module, 1 W fan: 20 W on a converter of 30 W.
    sheet = fit_of(tmp_path, NEED.replace("16 GB", "17 GB"))
    assert "The peak draw is 20 W against 30 W: 10 W left." in sheet.nearest[0].summary


def test_the_time_for_all_numbers_of_machines_is_kept(tmp_path: Path) -> None:
    # One machine has 16 GB at most, so the second number would be looked at after the time.
    need = read_need(file(tmp_path, "book: r0\nname: more\ndemand: {memory: 48 GB}\n"))
    with pytest.raises(StoppedError, match="before 2 machines"):
        fit(open_book(R0), need, seconds=0)


def test_a_list_of_parts_tells_a_draw_that_nobody_stated_from_none() -> None:
    # 4 x 276 W / 0.92 = 300 W each; the boot cards and the cable kit have no stated draw.
    found = parts_list(T4, BOOKS / "t4/builds/big.yaml", Request())
    rows = {row[0]: row[3] for row in parts_sheet(found).table.rows}  # type: ignore[union-attr]
    assert (rows["cpu-32"], rows["ps-2000"]) == ("300 W", "0 W")
    assert (rows["boot-pair"], rows["cable-kit"]) == ("not stated", "not stated")
    said = " ".join(remarks(found))
    assert "Nobody has stated the peak draw of cable-kit and boot-pair" in said
    assert "net-100" not in said, "it is not in the list, so its unknown draw is no matter"


def test_what_holds_on_neither_side_is_not_told_as_if_it_held(tmp_path: Path) -> None:
    # One converter and one fan: nothing of them is redundant.
    pump = str(BOOKS / "r0/builds/pump.yaml")
    sheet = compared_sheet(compared(R0, Asked(pump, pump), Request()))
    (same,) = (group for group in sheet.notes if group.title == "The same on both sides")
    (holds,) = (row.says for row in same.rows if row.label == "What holds")
    assert holds == "the supplies are redundant: no, the fans are redundant: no"


def test_a_line_that_asks_for_none_is_not_dropped(tmp_path: Path) -> None:
    path = file(tmp_path, "part,count\ncpu-4,1\ndimm-8,1\ndimm-16,0\nps-30,1\nfan,1\n", "list.csv")
    checked = check_file(open_book(R0), path)
    assert [each.why for each in checked.order.not_read] == ["It asks for none."]
    assert "left out" not in order_sheet(checked).sentence


def test_one_cord_is_not_told_as_several(tmp_path: Path) -> None:
    start, need = file(tmp_path, OWNED, "owned.yaml"), file(tmp_path, NEED)
    sheet = upgrade_sheet(*upgraded(R0, start, need, Request()))
    (step,) = sheet.parts[0].steps
    assert all("more than one cord" not in caution.hazard for caution in step.cautions)
    assert step.details[-1].endswith("and its supplies are not redundant.")


def test_a_number_that_hangs_on_an_unknown_fact_is_not_told_as_gone(tmp_path: Path) -> None:
    # 240 MRK for the machine, 25 MRK for the converter, and a module of 40 or of 50 MRK.
    text = (BOOKS / "r0/book.yaml").read_text(encoding="utf-8")
    changed = text.replace("price: 40 MRK", "price: {could_be: [40 MRK, 50 MRK]}")
    file(tmp_path, changed, "book.yaml")
    found = compare_books(open_book(R0), open_book(tmp_path))
    (row,) = (row for row in found.rows if row.what == "least of the price")
    assert (row.word, row.first) == ("other", "305 MRK")
    assert row.second == "305 MRK or 315 MRK, not decided: depends on parts.dimm-8.price"


def test_a_number_that_was_not_found_in_time_is_not_told_as_gone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def late(opened: Opened, text: str) -> Answer:
        return replace(ask(opened, text), verdict=Stopped("time was up"))

    monkeypatch.setattr(books, "ask", late)
    with pytest.raises(StoppedError, match="time was up"):
        compare_books(open_book(R0), open_book(R0))
