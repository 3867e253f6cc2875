"""Long lists of values, shortened for reading."""

from __future__ import annotations

import re
from collections.abc import Iterable

_SEVERAL = re.compile(r"(\d+) x ([^ +]+)")


def ranges(labels: Iterable[str]) -> tuple[str, ...]:
    """Return labels with numbers of the same part drawn together.

    >>> ranges(["empty", "1 x fan", "2 x fan", "3 x fan", "6 x fan"])
    ('empty', '1 to 3 or 6 x fan')
    """
    numbers: dict[str, list[int]] = {}
    for label in labels:
        several = _SEVERAL.fullmatch(label)
        key, number = (several[2], int(several[1])) if several else (label, 0)
        numbers.setdefault(key, []).append(number)
    return tuple(f"{_runs(found)} x {key}" if any(found) else key for key, found in numbers.items())


def _runs(numbers: list[int]) -> str:
    runs: list[tuple[int, int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][1] + 1:
            runs[-1] = (runs[-1][0], number)
        else:
            runs.append((number, number))
    said = [str(low) if low == high else f"{low} to {high}" for low, high in runs]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} or {said[-1]}"
