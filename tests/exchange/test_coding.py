"""Columns of labels and of value indices, and everything that can be wrong with them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pyarrow as pa
import pytest

from baywright.exchange.coding import MOST_PROBLEMS, Coder, Integers, check_columns
from baywright.exchange.sources import Batch
from baywright.problems import Problem, Problems
from baywright.space import Choice, Space
from tests.exchange.tables import CART


def encoded(
    columns: dict[str, Any], integers: Integers | None = None, space: Space = CART
) -> list[list[int]]:
    """The value indices of the columns of a batch that begins with row 101."""
    batch = Batch(pa.RecordBatch.from_pydict(columns), Path("t.parquet"), 101)
    into = np.zeros((len(space.choices), batch.rows.num_rows), np.uint8)
    Coder(space, tuple(columns), integers).encode(batch, into)
    order = [choice.name for choice in space.choices]
    found: list[list[int]] = [into[order.index(name)].tolist() for name in columns]
    return found


def wrong(columns: dict[str, Any], integers: Integers | None = None) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as found:
        encoded(columns, integers)
    return found.value.problems


LABELS = ["large", "none", "large"]


@pytest.mark.parametrize(
    "column",
    [
        pa.array(LABELS),
        pa.array(LABELS, pa.large_string()),
        pa.array(LABELS, pa.string_view()),
        pa.array(LABELS).dictionary_encode(),
        pa.array([2, 0, 2], pa.int8()),
        pa.array([2, 0, 2], pa.uint64()),
        pa.array([2, 0, 2]).dictionary_encode(),
        pa.DictionaryArray.from_arrays(pa.array([1, 0, 1]), pa.array(["none", "large", "odd"])),
    ],
)
def test_columns_of_every_kind_are_read(column: pa.Array) -> None:
    assert encoded({"motor": column}) == [[2, 0, 2]]


def test_whole_numbers_that_could_be_either_are_refused_until_said() -> None:
    columns = {"wheels": pa.array([1, 0])}
    assert wrong(columns)[0].kind == "ambiguous-integers"
    assert encoded(columns, "index") == [[1, 0]]
    assert encoded({"wheels": pa.array([4, 2, 4])}, "label") == [[1, 0, 1]]
    assert "row 102" in wrong({"wheels": pa.array([4, 3])}, "label")[0].message


def test_whole_numbers_that_are_their_own_labels_need_no_word() -> None:
    space = Space((Choice("cards", ("0", "1", "2")),))
    assert encoded({"cards": pa.array([2, 0])}, space=space) == [[2, 0]]


def test_unknown_labels_are_named_with_row_column_and_nearest() -> None:
    found = wrong({"motor": pa.array(["none", "lagre", "none", "tiny", "lagre"])})
    assert [each.kind for each in found] == ["unknown-value"] * 2
    assert "row 102, column 'motor': 'lagre'" in found[0].message
    assert found[0].hint == "Did you mean 'large'?"
    assert "row 104" in found[1].message


def test_indices_that_do_not_exist_are_named() -> None:
    for index in (3, -1, 1 << 40):
        found = wrong({"motor": pa.array([0, index])})
        assert "row 102, column 'motor'" in found[0].message
        assert "0 to 2" in found[0].hint


def test_empty_values_are_named() -> None:
    for column in (pa.array(["none", None]), pa.array([0, None])):
        assert "row 102, column 'motor': There is no value" in wrong({"motor": column})[0].message


def test_columns_of_other_types_are_refused() -> None:
    for column in (pa.array([0.5]), pa.array([True]), pa.array([1.5]).dictionary_encode()):
        assert wrong({"motor": column})[0].kind == "column-type"


def test_problems_of_all_columns_are_shown_up_to_a_number() -> None:
    names = [f"odd {n}" for n in range(MOST_PROBLEMS + 5)]
    found = wrong({"motor": pa.array(names), "wheels": pa.array(["3"] * len(names))})
    assert len(found) == MOST_PROBLEMS + 1
    assert found[-1].message.startswith("6 more")


def test_unknown_columns_are_named_with_the_nearest_choice() -> None:
    with pytest.raises(Problems) as found:
        check_columns("t.parquet", ["moter", "wheels", "customer"], CART)
    assert [each.kind for each in found.value.problems] == ["unknown-column"] * 2
    assert found.value.problems[0].hint == "Did you mean 'motor'?"


def test_columns_are_kept_and_earlier_results_left_out() -> None:
    names = ["legal", "wheels", "broken", "customer", "motor"]
    assert check_columns("t", names, CART, ["customer"]) == ("wheels", "motor")
    with pytest.raises(Problems, match="no column 'order'"):
        check_columns("t", names[:3], CART, ["order"])


def test_a_choice_named_like_a_result_is_refused() -> None:
    with pytest.raises(Problems, match="'legal'"):
        check_columns("t", ["legal"], Space((Choice("legal", ("a",)),)))
