"""How the loops of engines are compiled to machine code, and how they name their types."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeAlias, TypeVar, cast

import numba
import numpy as np
from numpy.typing import NDArray

Loop = TypeVar("Loop", bound=Callable[..., Any])

Ids: TypeAlias = NDArray[np.int32]
"""Numbers of states, classes or values; below 0 where there is none."""

Longs: TypeAlias = NDArray[np.int64]
"""Weights, codes, offsets."""

Doubles: TypeAlias = NDArray[np.float64]
"""Logarithms of numbers that may be too large for floating point."""

Flags: TypeAlias = NDArray[np.uint8]
"""1 for true, 0 for false."""


def compiled(loop: Loop) -> Loop:
    """Compile a loop at its first call and keep the machine code for the next process.

    The code is kept beside the module, or in the user's cache folder when that place cannot be
    written; when neither can, the loop is compiled once in every process.
    """
    try:
        return cast(Loop, numba.njit(cache=True, nogil=True, error_model="numpy")(loop))
    except RuntimeError:  # there is no folder to keep it in
        return cast(Loop, numba.njit(nogil=True, error_model="numpy")(loop))
