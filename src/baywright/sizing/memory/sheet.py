"""What sizing says of memory."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.facts.places import Bank
from baywright.sizing.case import Case
from baywright.sizing.figure import Figure, Limit, Sheet
from baywright.sizing.memory.figures import figures
from baywright.sizing.memory.listings import listings
from baywright.sizing.memory.view import Memory, memory_of
from baywright.sizing.subject import Subject


def sheet(case: Case) -> Sheet:
    """Return the figures and limits of memory of some builds."""
    if not case.book.places_of(Bank):
        return Sheet()
    memory = memory_of(case)
    return Sheet(tuple(figures(memory)), tuple(_limits(memory)), ("estimate",))


def _limits(memory: Memory) -> Iterator[Limit]:
    section = memory.case.book.memory
    most = section.ranks_per_channel if section else None
    if most is not None and most.value is not None:
        fullest = np.max([each.ranks.max(axis=-1) for each in memory.channels], axis=0)
        lacking = memory.case.lacking("memory", "ranks")
        yield Limit(
            Figure("memory.ranks", "ranks on the fullest channel", fullest, "", missing=lacking),
            float(most.known),
            "most",
            "A channel cannot drive more ranks.",
            facts=memory.case.cite(most),
        )


SUBJECT = Subject("memory", "Memory", sheet, listings)
