"""What every subject of sizing offers."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from baywright.sizing.case import Case
from baywright.sizing.figure import Listing, Sheet


def _no_listings(case: Case) -> Iterable[Listing]:
    return ()


@dataclass(frozen=True, slots=True)
class Subject:
    """One subject of sizing.

    Args:
        name: its id, the first word of the keys of its figures.
        title: its heading.
        sheet: figures and limits of any number of builds at once.
        listings: tables about one build.
    """

    name: str
    title: str
    sheet: Callable[[Case], Sheet]
    listings: Callable[[Case], Iterable[Listing]] = _no_listings
