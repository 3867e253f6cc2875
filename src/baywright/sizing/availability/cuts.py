"""Tables of what stops one build: single parts, pairs, and the odds of the whole."""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping

import numpy as np

from baywright.sizing.amounts import conditions
from baywright.sizing.availability.blocks import tree_of
from baywright.sizing.availability.fault_tree import (
    CutSet,
    events_of,
    exact_odds,
    minimal_cut_sets,
    rare_event_odds,
)
from baywright.sizing.availability.functions import (
    absent,
    always_needed,
    data_decided,
    service,
    spare_of,
)
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Listing
from baywright.sizing.power.bays import bays_of

TITLES = {
    1: ("availability.single-points", "Parts whose failure alone ends the service"),
    2: ("availability.pairs", "Pairs of parts whose failures together end the service"),
}
"""Key and title of the table of cut sets, by their size."""

LEFT_OUT = (
    "Counted: board, processors, memory, boot media, fans, supplies and their feeds, drives, "
    "controllers, network. Not counted: cages, cables, energy packs, accelerators, software."
)


def listings(case: Case) -> Iterator[Listing]:
    """Yield the tables, or nothing while it is not decided how many parts may fail.

    Args:
        case: one build.
    """
    if absent(case) or not np.all(np.isfinite(spare_of(case, bays_of(case)))):
        return
    blocks = service(case, always_needed(case), data=data_decided(case))
    tree = tree_of(blocks, in_a_year)
    note = f"{conditions(case, 'At peak')}. {_scope(case)}"
    cut_sets, odds = minimal_cut_sets(tree, max(TITLES)), events_of(tree)
    for size, (key, title) in TITLES.items():
        rows = tuple(_rows(cut_sets, odds, size))
        header = ("parts", "ways", "odds in a year without repair")
        yield Listing(key, title, header, rows, note, minimal_cut_sets)
    yield Listing(
        "availability.odds",
        "Odds that the service ends within a year without repair",
        ("how", "odds"),
        (
            ("exact", shown(exact_odds(tree))),
            ("sum over single parts and pairs", shown(rare_event_odds(cut_sets, odds))),
        ),
        f"{note} The sum counts overlaps twice and leaves out larger sets.",
        exact_odds,
    )


def _scope(case: Case) -> str:
    """Say what was counted, and what had to be taken for granted."""
    words = [LEFT_OUT]
    if not data_decided(case):
        words.append("Drives are not counted: site.workload.failures is not stated.")
    if not case.site.feeds:
        words.append("The site names no feeds: feeds of the machine, or one for all supplies.")
    return " ".join(words)


def in_a_year(yearly: Floats) -> Floats:
    """Return the odds that a part fails within a year when nothing is repaired."""
    return yearly


def shown(odds: float) -> str:
    """Write odds, or that they are not decided.

    >>> shown(0.0123456), shown(math.nan)
    ('1.235 %', 'not decided')
    """
    return f"{odds * 100:.4g} %" if math.isfinite(odds) else "not decided"


def _rows(
    cut_sets: Iterable[CutSet], odds: Mapping[str, float], size: int
) -> Iterator[tuple[str, ...]]:
    grouped: dict[str, list[CutSet]] = defaultdict(list)
    for each in cut_sets:
        if len(each) == size:
            grouped[" + ".join(sorted(_kind(name) for name in each))].append(each)
    sums = {name: rare_event_odds(sets, odds) for name, sets in grouped.items()}
    for name in sorted(sums, key=lambda name: (-np.nan_to_num(sums[name], nan=np.inf), name)):
        yield name, str(len(grouped[name])), shown(sums[name])


def _kind(name: str) -> str:
    """Return what a part is, without its number among those alike."""
    return re.sub(r"( \d+)+$", "", name)
