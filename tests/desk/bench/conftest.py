"""The books on the bench, opened once for all tests of it."""

from __future__ import annotations

import pytest

from baywright.desk.bench.bench import Bench, open_bench


@pytest.fixture(scope="session")
def bench() -> Bench:
    return open_bench("f2")
