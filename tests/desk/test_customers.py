"""The customers' builds, as the scenario tells them."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from baywright.answers.verdicts import No, Yes
from baywright.desk.judging import Judgement, judge
from baywright.files.books import BUNDLED
from baywright.space import broken
from tests.desk.demo import opened


@cache
def judged(name: str) -> Judgement:
    """Return a customer's build, judged."""
    (path,) = Path(BUNDLED).glob(f"*/builds/{name}.yaml")
    return judge(path)


def refused(name: str) -> No:
    verdict = judged(name).verdict
    assert isinstance(verdict, No)
    return verdict


@pytest.mark.parametrize("name", ["n1", "n2", "n5-owned"])
def test_it_can_be_built_as_asked(name: str) -> None:
    verdict = judged(name).verdict
    assert isinstance(verdict, Yes)
    assert all(margin.holds for margin in judged(name).margins)


@pytest.mark.parametrize("name", ["n3", "n4", "n5-wanted"])
def test_it_cannot_be_built_as_asked(name: str) -> None:
    refused(name)


def test_the_record_office_draws_1159_watts_over_a_rating_of_1000() -> None:
    tallies = [reason.tally for reason in refused("n4").reasons if reason.tally]
    assert (Fraction(1159), Fraction(1000), "power") in [
        (t.used, t.given, t.dimension) for t in tallies
    ]
    keys = {reason.key for reason in refused("n4").reasons}
    assert "supplies.rating/PS" in keys
    assert any("redundant" in reason.sentence for reason in refused("n4").reasons)
    margins = {m.words: (m.used, m.given, m.holds) for m in judged("n4").margins}
    assert margins["the supplies together"] == (Fraction(1159), Fraction(2000), True)
    assert margins["the supplies when redundant"] == (Fraction(1159), Fraction(1000), False)


def test_the_record_office_has_three_near_builds_and_each_is_redundant() -> None:
    machine = opened("f2").machine
    nearest = refused("n4").nearest
    assert len(nearest) >= 3
    assert len({near.changes for near in nearest}) == len(nearest)
    for near in nearest:
        assert near.changes
        assert not broken(machine.space, near.witness.values)
        figures = {figure.name: figure.value for figure in near.witness.figures}
        assert figures["load"] <= figures["supplies_carry_redundant"]


def test_the_quarry_is_told_of_fewer_cards() -> None:
    changed = {change.what for near in refused("n3").nearest for change in near.changes}
    assert {"X1", "X2"} <= changed


def test_the_college_is_told_of_larger_supplies_first() -> None:
    tallies = [reason.tally for reason in refused("n5-wanted").reasons if reason.tally]
    # 42 + 2 × 150 / 0.9 + 12 × 7 + 12 × 12 + 16 + 18 + 6 × 20 + 75, all of the scenario
    assert (Fraction(2497, 3), Fraction(750)) in [(t.used, t.given) for t in tallies]
    (first, *_) = refused("n5-wanted").nearest
    assert [(c.what, c.asked, c.instead) for c in first.changes] == [
        ("PS", "2 x ps-750", "2 x ps-1100")
    ]
