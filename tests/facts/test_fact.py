from __future__ import annotations

import datetime

import pytest
from pydantic import ValidationError

from baywright.facts.fact import Fact, Power, Scalar, UnknownFactError, Whole
from baywright.facts.model import Model
from baywright.problems import Mark


class Subject(Model):
    power: Power
    count: Whole | None = None


def _kinds(content: object) -> list[tuple[str, str]]:
    with pytest.raises(ValidationError) as caught:
        Subject.model_validate({"power": content})
    return [(found["type"], found["ctx"]["at"]) for found in caught.value.errors()]


def test_a_bare_value() -> None:
    mark = Mark("f", 1, 8)
    fact = Subject.model_validate({"power": Scalar("12 W", mark, "power")}).power
    assert (str(fact.known), fact.text, fact.path, fact.mark) == ("12 W", "12 W", "power", mark)
    assert (fact.status, fact.source, fact.could_be) == ("stated", "", ())


def test_a_value_with_provenance() -> None:
    written = {
        "value": Scalar("12 W", Mark("f", 1, 8), "power.value"),
        "source": "sheet",
        "date": "2031-07-01",
        "status": "derived",
        "note": "at full speed",
    }
    fact = Subject.model_validate({"power": written}).power
    assert (fact.path, fact.source, fact.status) == ("power", "sheet", "derived")
    assert (fact.date, fact.note) == (datetime.date(2031, 7, 1), "at full speed")


def test_an_unknown_value_cannot_be_used() -> None:
    fact = Subject.model_validate({"power": {"could_be": ["12 W", "14 W"]}}).power
    assert (fact.value, fact.text, fact.could_be) == (None, "unknown", ("12 W", "14 W"))
    with pytest.raises(UnknownFactError):
        _ = fact.known


def test_a_value_that_two_sources_tell_alike_is_known() -> None:
    told = [{"value": "12 W", "source": "sheet"}, {"value": "0.012 kW", "source": "report"}]
    fact = Subject.model_validate({"power": {"told": told}}).power
    assert (fact.text, fact.source, fact.disputed) == ("12 W", "sheet", False)
    assert [(each.text, each.source) for each in fact.told] == [
        ("12 W", "sheet"),
        ("0.012 kW", "report"),
    ]


def test_a_value_that_sources_dispute_could_be_what_any_of_them_tells() -> None:
    told = [
        {"value": "12 W", "source": "sheet"},
        {"value": "14 W", "source": "report", "date": "2031-07-01"},
        {"value": "12 W", "source": "label"},
    ]
    fact = Subject.model_validate({"power": {"told": told}}).power
    assert (fact.value, fact.text, fact.could_be) == (None, "disputed", ("12 W", "14 W"))
    assert fact.disputed
    assert fact.told[1].date == datetime.date(2031, 7, 1)


def test_a_fact_stays_one() -> None:
    fact = Subject.model_validate({"power": "12 W"}).power
    assert Subject.model_validate({"power": fact}).power is fact
    assert isinstance(fact, Fact)


@pytest.mark.parametrize(
    ("content", "kind", "at"),
    [
        ("12 kg", "wrong-dimension", ""),
        (["12 W"], "not-a-value", ""),
        ({"value": "12 kg"}, "wrong-dimension", "value"),
        ({"value": {"value": "12 W"}}, "not-a-value", "value"),
        ({"valu": "12 W"}, "unknown-key", "valu"),
        ({"could_be": ["12 W", "12 kg"]}, "wrong-dimension", "could_be.1"),
        ({"could_be": "12 W"}, "fact-without-value", ""),
        ({"could_be": []}, "fact-without-value", ""),
        ({"value": "12 W", "could_be": ["12 W"]}, "fact-without-value", ""),
        ({}, "fact-without-value", ""),
        ({"told": [{"value": "12 W", "source": "sheet"}]}, "told", "told"),
        ({"told": ["12 W", "14 W"]}, "told", "told.0"),
        ({"told": [{"value": "12 W"}, {"value": "12 kg"}]}, "wrong-dimension", "told.1.value"),
        ({"told": [{"value": "12 W"}, {"value": "1 W", "by": "me"}]}, "unknown-key", "told.1.by"),
        ({"value": "12 W", "told": [{"value": "12 W"}] * 2}, "fact-without-value", ""),
        ({"value": "12 W", "status": "maybe"}, "unknown-status", "status"),
        ({"value": "12 W", "date": "today"}, "not-a-date", "date"),
        ({"value": "12 W", "date": {}}, "not-a-value", "date"),
        ({"value": "12 W", "source": ["a"]}, "not-a-value", "source"),
    ],
)
def test_what_is_no_fact_and_where(content: object, kind: str, at: str) -> None:
    assert _kinds(content) == [(kind, at)]
