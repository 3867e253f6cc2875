"""Files and functions stay short; the five longest are shown at the end of the test run."""

from __future__ import annotations

from tests.style.sizes import Size, file_sizes, function_sizes, percentile

FILE_LIMIT = 500
FUNCTION_LIMIT = 50
FUNCTION_USUAL = 35

# A longer one stands here with the reason why it is not split: path, or path and function.
LONGER: dict[str, str] = {}


def _too_long(sizes: list[Size], limit: int) -> list[Size]:
    return [size for size in sizes if size.lines > limit and size.place not in LONGER]


def test_no_file_is_too_long() -> None:
    assert _too_long(file_sizes(), FILE_LIMIT) == []


def test_no_function_is_too_long() -> None:
    assert _too_long(function_sizes(), FUNCTION_LIMIT) == []


def test_few_functions_are_long() -> None:
    assert percentile(function_sizes("src/"), 0.95) < FUNCTION_USUAL


def test_every_exception_is_still_needed() -> None:
    long = {size.place for size in _all_over_a_limit()}
    assert set(LONGER) <= long


def _all_over_a_limit() -> list[Size]:
    files = [size for size in file_sizes() if size.lines > FILE_LIMIT]
    return files + [size for size in function_sizes() if size.lines > FUNCTION_LIMIT]
