"""Many builds at once."""

from __future__ import annotations

import time

import numpy as np
import pytest

from baywright.sizing.sizes import margins, sizes
from tests.sizing.builds import alone
from tests.sizing.cases import case_of
from tests.sizing.rack.figures import mixed

HOST = case_of("f2", "n2")


def test_each_of_many_builds_is_sized_as_by_itself() -> None:
    many = mixed(HOST, 6, 11)
    columns, left = sizes(many), margins(many)
    for build in range(6):
        single, single_left = sizes(alone(many, build)), margins(alone(many, build))
        for key, column in single.items():
            assert columns[key][build] == pytest.approx(column[0], nan_ok=True), key
        for key, column in single_left.items():
            assert left[key][build] == pytest.approx(column[0], nan_ok=True), key


def test_columns_are_of_one_length() -> None:
    assert {column.shape for column in sizes(mixed(HOST, 7, 5)).values()} == {(7,)}


def test_a_sweep_gives_a_column_of_its_steps() -> None:
    swept = HOST.amid(HOST.around.changed("extra", np.linspace(0.0, 500.0, 5)))
    columns = sizes(swept)
    assert columns["rack.room_heat"].shape == columns["rack.mass"].shape == (5,)
    assert np.all(np.diff(columns["rack.room_heat"]) > 0)


def test_a_thousand_builds_are_sized_in_under_two_seconds() -> None:
    many = mixed(HOST, 1000, 3)
    start = time.process_time()
    sizes(many)
    assert time.process_time() - start < 2.0
