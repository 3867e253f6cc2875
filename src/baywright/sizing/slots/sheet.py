"""What sizing says of slots, lanes and the cards on them."""

from __future__ import annotations

from baywright.sizing.case import Case
from baywright.sizing.figure import Sheet
from baywright.sizing.slots.figures import figures
from baywright.sizing.slots.limits import limits
from baywright.sizing.slots.listings import listings
from baywright.sizing.slots.view import slots_of
from baywright.sizing.subject import Subject


def sheet(case: Case) -> Sheet:
    """Return the figures and limits of slots of some builds."""
    slots = slots_of(case)
    estimated = any(link.switched for link in slots.links.values())
    cautions = ("estimate",) if estimated else ()
    return Sheet(tuple(figures(slots)), tuple(limits(slots)), cautions)


SUBJECT = Subject("slots", "Slots, lanes and cards", sheet, listings)
