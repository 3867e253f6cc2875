"""The arrays that sizing reads say what the laws of the book say."""

from __future__ import annotations

from baywright.laws.power import load
from tests.sizing.cases import case_of


def test_the_load_of_the_record_office_is_that_of_the_laws() -> None:
    case = case_of("f2", "n4")
    assert case.total(load(case.frame)) == [1159.0]


def test_parts_are_counted_by_kind_and_place() -> None:
    case = case_of("f2", "n4")
    assert case.counted("drive") == [24]
    assert case.counted("drive", places=["A"]) == [8]
    assert case.counted("fan", "supply") == [8]


def test_conditions_of_the_book_are_read() -> None:
    case = case_of("f2", "n4")
    assert case.holds("count(processor) == 2").tolist() == [True]
    assert case.first_that_holds(["count(processor) == 1", None]).tolist() == [1]


def test_a_fact_that_the_book_lacks_is_named_for_parts_that_are_fitted() -> None:
    case = case_of("f2", "n4")
    assert case.lacking("drive", "endurance") == ("parts.sas-2400.endurance",)
