"""Tables about the power of one build."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.sizing.case import Case
from baywright.sizing.figure import Listing


def listings(case: Case) -> Iterator[Listing]:
    """Yield the tables of one build."""
    yield from ()
