"""Charts say the same to those who see them, to those who hear them, and in grey."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.drawing.charts.axis import Axis, round_step, spanned
from baywright.drawing.charts.curves import Chart, Curve, Mark, chart
from baywright.drawing.charts.margins import Row, margin_bars

SVG = "{http://www.w3.org/2000/svg}"


def _chart() -> str:
    curves = (
        Curve("1300 W supply", [(10.0, 87.0), (50.0, 94.5), (100.0, 91.5)]),
        Curve("2000 W supply", [(10.0, 88.0), (50.0, 95.0), (100.0, 91.6)]),
    )
    marks = (Mark("peak: 94.3 %", 44.6, 94.3), Mark("at least 90 %", y=90.0))
    return chart(Chart("Efficiency", "at 230 V", "load, %", "efficiency, %", curves, marks))


def _root(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314 - our own text


def _texts(svg: str) -> list[str]:
    return [element.text or "" for element in _root(svg).iter(f"{SVG}text")]


def test_a_chart_names_its_axes_with_units_and_each_curve() -> None:
    texts = _texts(_chart())
    assert {"load, %", "efficiency, %", "1300 W supply", "2000 W supply"} <= set(texts)


def test_a_chart_is_told_in_sentences_for_those_who_do_not_see_it() -> None:
    root = _root(_chart())
    assert root.get("role") == "img"
    assert root.findtext(f"{SVG}title") == "Efficiency: at 230 V"
    said = root.findtext(f"{SVG}desc") or ""
    assert "1300 W supply: from 87 at 10 to 91.5 at 100." in said
    assert "at least 90 %." in said


def test_curves_differ_by_their_dashes_and_not_by_colour() -> None:
    lines = list(_root(_chart()).iter(f"{SVG}polyline"))
    assert len({line.get("stroke-dasharray") for line in lines}) == len(lines)
    assert {line.get("class") for line in lines} == {"line"}


def test_names_at_the_end_of_curves_do_not_cover_each_other() -> None:
    heights = [
        float(element.get("y") or "")
        for element in _root(_chart()).iter(f"{SVG}text")
        if (element.text or "").endswith("supply")
    ]
    assert abs(heights[0] - heights[1]) >= 15


def test_every_bound_stands_at_the_same_place_and_what_is_over_is_hatched() -> None:
    svg = margin_bars(
        "Limits", "of one build", [Row("over", 1.1, "9 W over"), Row("under", 0.5, "50 W left")]
    )
    filled = [e for e in _root(svg).iter(f"{SVG}rect") if e.get("class") == "solid"]
    over, under = (float(each.get("width") or "") for each in filled)
    assert under == pytest.approx(0.5 * over, abs=0.02)
    assert 'fill="url(#over)"' in svg


def test_a_limit_that_is_not_decided_has_no_bar() -> None:
    svg = margin_bars(
        "Limits", "of one build", [Row("noise", None, "not decided: depends on site.room")]
    )
    assert "solid" not in re.sub(r"<style>.*?</style>", "", svg, flags=re.DOTALL)
    assert "not decided: depends on site.room" in _texts(svg)


@given(st.floats(1e-6, 1e9))
def test_a_round_step_is_the_next_round_number(step: float) -> None:
    found = round_step(step)
    assert step * 0.999 <= found <= step * 2.51


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=9))
def test_an_axis_holds_its_numbers_and_its_ticks(values: list[float]) -> None:
    low, high = spanned(values)
    slack = 1e-6 * (1 + max(map(abs, values)))
    assert low <= min(values) + slack
    assert high >= max(values) - slack
    axis = Axis("number", low, high + 1e-9 * (1 + abs(high)), 0.0, 100.0)
    assert all(-0.1 <= axis.at(tick) <= 100.1 for tick in axis.ticks())
