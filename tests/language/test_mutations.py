"""Changed sentences: enough of each kind, and none of them true."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.language.corpus import BOOKS, Statement, all_statements, statements
from tests.language.mutations import is_true, mutations

KINDS = {"number", "unit", "quantifier", "scope", "part", "negation"}

FEW = tuple(each for book in BOOKS for each in statements(book)[:3])


def found(text: str) -> Statement:
    (statement,) = (each for each in all_statements() if each.text == text)
    return statement


def changed(text: str) -> set[tuple[str, str]]:
    """Return kind and wording of the changes of a sentence."""
    return {(each.kind, each.statement.text) for each in mutations(found(text))}


def test_up_to_24_is_true_of_fewer_and_not_of_more() -> None:
    numbers = {said for kind, said in changed("The F2 takes up to 24 fast drives.")}
    assert "The F2 takes up to 25 fast drives." in numbers
    assert "The F2 takes up to 48 fast drives." in numbers
    assert "The F2 takes up to 12 fast drives." not in numbers


def test_what_some_build_has_is_not_what_each_has_nor_what_none_has() -> None:
    made = changed("The F2 takes up to 24 fast drives.")
    assert ("quantifier", "The F2 always has 24 fast drives.") in made
    assert ("negation", "The F2 does not take up to 24 fast drives.") in made


def test_a_part_that_does_as_well_is_left_out() -> None:
    made = changed("The F2 takes up to 24 fast drives.")
    assert ("part", "The F2 takes up to 24 SAS drives.") not in made


def test_ports_of_one_side_are_not_those_of_another() -> None:
    made = changed("There are three USB ports at the rear.")
    assert ("scope", "There are three USB ports at the front.") in made
    assert ("part", "There are three video ports at the rear.") in made


def test_a_limit_that_nothing_reaches_is_left_out() -> None:
    numbers = {said for _, said in changed("No more than 24 drives fit in its three front zones.")}
    assert "No more than 23 drives fit in its three front zones." in numbers
    assert "No more than 25 drives fit in its three front zones." not in numbers


def test_a_number_of_the_site_is_changed_with_the_site() -> None:
    made = changed("Above 30 °C inlet the 48-core processor is not allowed.")
    assert all(kind != "number" for kind, _ in made), "31 °C is asked for, and 30 °C is said"
    made = changed("At 33 °C you may run 32-core processors.")
    assert ("number", "At 66 °C you may run 32-core processors.") in made


def test_a_sentence_without_an_expression_is_changed_with_its_grounds() -> None:
    made = changed("The F2 is a 2U machine, 760 mm deep.")
    assert ("number", "The F2 is a 2U machine, 761 mm deep.") in made
    assert ("unit", "The F2 is a 2U machine, 760 cm deep.") in made


@pytest.mark.parametrize("statement", FEW, ids=lambda each: f"{each.book}: {each.text}")
def test_no_change_is_true(statement: Statement) -> None:
    assert [each for each in mutations(statement) if is_true(each.statement)] == []


@pytest.mark.slow
@pytest.mark.timeout(900)
def test_there_are_many_changes_of_each_kind() -> None:
    true = [each for each in all_statements() if each.verdict == "true"]
    kinds = Counter(made.kind for statement in true for made in mutations(statement))
    assert set(kinds) == KINDS
    assert min(kinds.values()) >= 20, kinds
    assert kinds.total() >= 600, kinds
