"""The page of limits: what is nearest, what breaks first, what is not decided, and on what."""

from __future__ import annotations

import math
import shutil
from pathlib import Path

import pytest
from scipy.optimize import brentq

from baywright.desk.opening import Opened, open_book
from baywright.desk.request import Request
from baywright.desk.size.as_json import sized_json
from baywright.desk.size.plots import plots
from baywright.desk.size.request import SiteRequest, sized
from baywright.desk.size.sized import Sized, size
from baywright.desk.size.telling import size_sheet, why
from baywright.facts.build import Build
from baywright.files.books import bundled_books, read_build, site_from
from baywright.problems import Problems
from baywright.sizing.air.flow import heat_per_flow

N4 = bundled_books()["f2"] / "builds" / "n4.yaml"
N3 = bundled_books()["l4"] / "builds" / "n3.yaml"


@pytest.fixture(scope="module")
def n4() -> Sized:
    return sized("f2", N4, Request(), SiteRequest())[1]


@pytest.fixture(scope="module")
def n3() -> Sized:
    return sized("l4", N3, Request(), SiteRequest())[1]


def test_the_record_office_lacks_159_w_for_redundant_supplies(n4: Sized) -> None:
    """1,159 W against the 1,000 W that one 1300 W supply gives at 120 V."""
    nearest = n4.limits[0]
    assert nearest.figure.key == "power.redundancy"
    assert float(nearest.room[0]) == pytest.approx(-159.0)
    assert not nearest.legal


def test_limits_come_in_the_order_of_their_margin_and_the_undecided_last(n4: Sized) -> None:
    margins = [float(limit.margin.ravel()[0]) for limit in n4.limits]
    decided = [margin for margin in margins if not math.isnan(margin)]
    assert decided == sorted(decided)
    assert margins[: len(decided)] == decided


def test_the_fans_give_out_where_five_of_them_no_longer_carry_the_peak(n4: Sized) -> None:
    """Five fans of 32 CFM and a rise of 15 K carry 1,159 W up to the altitude found by SciPy."""
    crossings = {sweep.name: found for sweep, found in n4.breaks}
    first = crossings["altitude rises"][0]
    assert first.limit.figure.key == "air.heat_failed"
    expected = brentq(lambda h: float(heat_per_flow(h)) * 5 * 32 * 15 - 1159, 0, 11_000)
    assert first.at == pytest.approx(expected, abs=0.1)


def test_the_inlet_limit_breaks_at_35_degrees(n4: Sized) -> None:
    crossings = {sweep.name: found for sweep, found in n4.breaks}
    assert crossings["inlet temperature rises"][0].at == pytest.approx(35.0, abs=1e-3)


def test_between_the_lines_nothing_is_decided(n4: Sized) -> None:
    """The book has 100 to 127 V and 200 to 240 V, and nothing between."""
    crossings = {sweep.name: found for sweep, found in n4.breaks}
    rising = crossings["voltage rises"][0]
    assert not rising.known
    assert rising.at == pytest.approx(127.0, abs=1e-3)


def test_eight_large_cards_are_refused_by_the_air_of_the_quarry(n3: Sized) -> None:
    """30 degrees less (2,300 - 900) / 300 K are 25.33; the site has 27."""
    told = size_sheet(n3)
    assert told.verdict.startswith("It is not a legal build.")
    limits = {limit.figure.key: limit for limit in n3.limits}
    assert float(limits["air.inlet"].room[0]) == pytest.approx(25 + 1 / 3 - 27)


def test_a_site_that_is_not_given_leaves_limits_open_by_name() -> None:
    build = read_build(N4)
    found = size(open_book("f2"), build, site_from({}))
    limits = {limit.figure.key: limit for limit in found.limits}
    assert "site.voltage" in limits["power.redundancy"].figure.missing
    said = [entry.says for section in size_sheet(found).sections for entry in section.entries]
    assert any("depends on site.voltage" in each for each in said)


def test_what_is_said_by_hand_goes_before_the_file_and_the_build(tmp_path: Path) -> None:
    site = tmp_path / "site.yaml"
    site.write_text("voltage: 208 V\naltitude: 500 m\n")
    _, found = sized("f2", N4, Request(altitude="1000 m"), SiteRequest(site, "230 V"))
    there = found.case.site
    assert there.voltage is not None
    assert there.altitude is not None
    assert (there.voltage.text, there.altitude.text) == ("230 V", "1000 m")
    assert found.limits[0].figure.key != "power.redundancy"


def test_a_feed_given_by_hand_decides_the_limits_of_feeds() -> None:
    _, found = sized("f2", N4, Request(), SiteRequest(feeds=("A=16 A, 80 %", "B=16 A, 100 %")))
    limits = {limit.figure.key: limit for limit in found.limits}
    assert not limits["power.feed.all"].figure.missing


@pytest.mark.parametrize("text", ["A", "=16 A", "A="])
def test_a_feed_that_cannot_be_read_says_how_to_write_it(text: str) -> None:
    with pytest.raises(Problems, match="is not a feed"):
        sized("f2", N4, Request(), SiteRequest(feeds=(text,)))


def _with_unknown_rating(folder: Path) -> Opened:
    target = folder / "f2"
    shutil.copytree(bundled_books()["f2"], target)
    parts = target / "parts.yaml"
    text = parts.read_text()
    stated = "low: {value: 1000 W, source: power-sheet}"
    parts.write_text(text.replace(stated, "low: {could_be: [1000 W, 1200 W]}", 1))
    return open_book(target)


def test_an_unknown_fact_that_changes_a_limit_is_named_with_what_each_value_gives(
    tmp_path: Path,
) -> None:
    """At 1,200 W one supply would carry 1,159 W with 41 W left."""
    build: Build = read_build(N4)
    found = size(_with_unknown_rating(tmp_path), build, build.site)
    (dependence,) = found.depends
    assert dependence.path == "parts.ps-1300.ratings.low"
    outcomes = dict(dependence.outcomes)
    assert any("41 W left" in each for each in outcomes["1200 W"])
    assert outcomes["1000 W"] == ()


def test_why_shows_the_formula_the_inputs_and_the_source(n4: Sized) -> None:
    section = why(n4, "power.redundancy")
    assert section.table is not None
    rows = {row[0]: row[1] for row in section.table.rows}
    assert rows["formula"].startswith("P1 ")
    assert "parts.ps-1300.ratings.low" in rows["bound"]


def test_why_of_nothing_names_the_nearest_key(n4: Sized) -> None:
    with pytest.raises(Problems, match=r"power\.redundancy"):
        why(n4, "power.redundency")


def test_cautions_about_numbers_come_first_and_others_before_their_figures(n4: Sized) -> None:
    told = size_sheet(n4, ["storage"])
    assert any("Redundancy holds only" in each.hazard for each in told.cautions)
    (storage,) = [section for section in told.sections if section.title == "Storage"]
    assert any("rebuilds" in each.hazard for each in storage.cautions)
    assert told.aid.startswith("Planning aid.")


def test_a_subject_that_there_is_not_names_those_there_are(n4: Sized) -> None:
    with pytest.raises(Problems, match="Known here: air, all"):
        size_sheet(n4, ["colour"])


def test_json_has_every_limit_and_figure_with_null_for_what_is_not_decided(n4: Sized) -> None:
    found = sized_json(n4)
    limits = {each["key"]: each for each in found["limits"]}
    assert limits["power.redundancy"]["left"] == -159.0
    assert limits["rack.units"]["left"] is None


def test_charts_show_limits_efficiency_and_inlet(n4: Sized) -> None:
    drawn = {plot.name: plot.svg for plot in plots(n4)}
    assert set(drawn) == {"limits", "efficiency", "inlet"}
    assert "159 W over" in drawn["limits"]
    assert "at the peak: 94.02 %" in drawn["efficiency"]
