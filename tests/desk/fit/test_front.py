"""The front of random small needs against every legal build."""

from __future__ import annotations

import copy
import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from baywright.answers.inquiry import Inquiry
from baywright.desk.fit.candidates import Candidate, measures, unbeaten
from baywright.desk.fit.hosts import Explorer
from baywright.desk.opening import standard_panel
from baywright.engines.contract import Limit
from baywright.engines.diagram import Diagram
from baywright.facts.need import Need
from baywright.facts.need_checks import check_need
from baywright.files.books import need_from
from baywright.laws.linear import Linear
from tests.desk.fit.plain import Plain
from tests.laws.random_books import Sample, sample, samples

MOST_BUILDS = 600


@st.composite
def priced(draw: st.DrawFn) -> Sample:
    """A small book whose parts have prices, draws and sizes that pull apart."""
    features = draw(st.sampled_from((("processors", "memory"), ("storage", "supplies"), ())))
    found = draw(samples(most=MOST_BUILDS, first=("supplies", *features)))
    raw = copy.deepcopy(found.raw)
    for part in raw["parts"].values():
        part["price"] = f"{draw(st.sampled_from((20, 50, 90, 140, 300)))} FLO"
        if part["kind"] in ("memory", "drive", "accelerator", "controller"):
            part["power"] = f"{draw(st.sampled_from((4, 7, 12, 30)))} W"
    return sample(raw, found.machine.conditions, {})


@st.composite
def cases(draw: st.DrawFn) -> tuple[Sample, Need]:
    """A book and a need that some machines of it may meet, or not."""
    book = draw(priced())
    legal = book.legal()

    def some(name: str) -> int:
        """Return an amount near what a few of the largest machines have."""
        meaning = book.machine.names[name].meaning
        assert isinstance(meaning, Linear)
        most = max((meaning.value(build) for build in legal), default=Fraction(0))
        return math.floor(most * Fraction(draw(st.sampled_from((2, 6, 12, 21))), 6))

    raw = _drawn(draw, some)
    raw["book"] = str(book.machine.book.book.id)
    need = need_from(yaml.safe_dump(raw).encode(), "need.yaml")
    assert not check_need(need, book.machine.book)
    return book, need


def _drawn(draw: st.DrawFn, some: Callable[[str], int]) -> dict[str, Any]:
    demand = _divisible(draw, some)
    raw: dict[str, Any] = {"name": "need", "demand": demand, "survive": {}}
    how = draw(st.sampled_from(("none", "plain", "arrays", "copies")))
    data = some("raw_capacity")
    if data and how != "none":
        demand |= {"capacity": f"{data // 10**9 + 1} GB", **_kept(draw, how)}
    if (not data or how in ("none", "copies")) and draw(st.booleans()):
        raw["survive"]["hosts"] = 1
    if draw(st.integers(0, 3)) == 3:
        raw["survive"]["supplies"] = 1
    return raw | _bounds(draw)


def _divisible(draw: st.DrawFn, some: Callable[[str], int]) -> dict[str, Any]:
    demand: dict[str, Any] = {}
    if draw(st.booleans()) and (cores := some("cores")):
        demand["cores"] = cores
    if draw(st.booleans()):
        demand["memory"] = f"{max(1, some('memory'))} GB"
        if draw(st.booleans()):
            demand["memory_kept_back"] = "2 GB"
    if draw(st.integers(0, 2)) == 2 and some("memory"):
        of_each = draw(st.sampled_from(("0.5", "1.5", "3")))
        count = draw(st.integers(1, 12))
        demand["guests"] = {"count": count, "cores": of_each, "memory": "3 GB"}
    return demand


def _kept(draw: st.DrawFn, how: str) -> dict[str, Any]:
    if how == "arrays":
        return {"drive_failures": draw(st.sampled_from((1, 2)))}
    return {"copies": draw(st.sampled_from((2, 3))), "fill": "75 %"} if how == "copies" else {}


def _bounds(draw: st.DrawFn) -> dict[str, Any]:
    raw: dict[str, Any] = {}
    if draw(st.booleans()):
        raw["hosts"] = draw(st.integers(2, 3))
    if draw(st.integers(0, 3)) == 3:
        raw["budget"] = f"{draw(st.sampled_from((2500, 6000, 20000)))} FLO"
    if draw(st.booleans()):
        raw["prefer"] = [draw(st.sampled_from(("cores", "memory", "processors")))]
    return raw


def _costs(candidates: list[Candidate]) -> set[tuple[object, ...]]:
    return {each.costs for each in candidates}


def check(book: Sample, need: Need) -> None:
    """The front is that of all legal builds that meet the need, and no number is left out."""
    machine, panel = book.machine, standard_panel()
    compared = measures(machine, need)
    explorer = Explorer(
        machine, need, compared, lambda: Inquiry(machine, panel), Diagram(), Limit(60.0)
    )
    found = explorer.explore()
    assert not found.stopped
    plain = Plain(book, need, explorer)
    tried = [count.hosts for count in found.counts]
    every = [each for hosts in tried for each in plain.candidates(hosts)]
    assert _costs(list(found.front)) == _costs(unbeaten(every))
    if found.from_on is not None:
        for hosts in range(found.from_on, found.from_on + 3):
            for each in plain.candidates(hosts):
                assert any(
                    other.price <= each.price
                    and other.load <= each.load
                    and other.space <= each.space
                    for other in found.front
                )


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(cases())
def test_the_front_is_that_of_every_legal_build(case: tuple[Sample, Need]) -> None:
    check(*case)


@pytest.mark.slow
@pytest.mark.timeout(1800)
@settings(max_examples=800, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(cases())
def test_the_front_is_that_of_every_legal_build_at_length(case: tuple[Sample, Need]) -> None:
    check(*case)
