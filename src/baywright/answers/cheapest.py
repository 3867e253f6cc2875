"""The cheapest build, so that a witness holds nothing nobody asked for."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.answers.inquiry import Inquiry
from baywright.engines.contract import Objective
from baywright.laws.linear import Linear, whole
from baywright.space import Space


def cheapest(inquiry: Inquiry, space: Space) -> Mapping[str, int] | None:
    """Return a legal build of least list price, or ``None`` when nothing is legal.

    Where the least takes long to prove, it is the cheapest found by then.

    Raises:
        StoppedError: at the limit.
    """
    price = inquiry.machine.names["price"].meaning
    if not isinstance(price, Linear):
        raise TypeError("the price is a total")
    return inquiry.good(space, Objective(tuple(whole(price).items())))
