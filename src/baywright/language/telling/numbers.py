"""Numbers and amounts of a sentence: lists and ranges of them, with what compares them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from baywright.language.glossary import Slot
from baywright.language.telling.terms import Amount, Term
from baywright.units.lookup import dimension_of

_ARTICLES = ("the", "a", "of")


@dataclass
class _Numbers:
    """Numbers as they are gathered.

    Args:
        op: how they compare.
        values: the numbers.
        unit: their unit, or empty.
        ends: whether they are the two ends of a range.
    """

    op: str = ""
    values: list[Fraction] = field(default_factory=list)
    unit: str = ""
    ends: bool = False

    def take(self, slots: Sequence[Slot], at: int) -> bool:
        """Take one number in; say whether there is one that belongs here."""
        slot = slots[at]
        if slot.has("amount") and self.unit in ("", slot.token.unit):
            self.unit = slot.token.unit
            self.values.append(slot.token.number)
        elif slot.has("number") and not (self.unit and not _ahead(slots, at, self.unit)):
            self.values.append(slot.token.number)
        elif slot.has("count") and not self.values:
            self.values.append(Fraction(slot.of("count")[0]))
        else:
            return False
        return True

    def take_unit(self, slots: Sequence[Slot], at: int) -> int:
        """Take a unit in that is written as a noun; return the position after it."""
        if at < len(slots) and not self.unit:
            for sort, unit in (("rack_unit", "U"), ("ratio", "%")):
                if slots[at].has(sort):
                    self.unit = unit
                    return at + 1
        return at

    def next(self, slots: Sequence[Slot], at: int) -> int | None:
        """Return the position of a further number of the list, or ``None`` where it ends."""
        step, spans = _separator(slots, at)
        if step is None or (self.ends and self.unit):
            return None  # a range is whole, and what follows is another
        further = slots[step]
        if further.has("amount"):
            follows = self.unit in ("", further.token.unit)
        else:
            follows = further.has("number") and (not self.unit or _ahead(slots, step, self.unit))
        self.ends = self.ends or (follows and spans)
        return step if follows else None

    def term(self, text: str) -> Term:
        """Return them as a term."""
        op = _reached(self.op, text)
        ends = (self.ends or self.op == "between") and len(self.values) == 2
        if not self.unit:
            return Term({"number": (tuple(self.values),), "op": (op,)}, text)
        amount = Amount(tuple(self.values), self.unit, op, ends)
        return Term({"amount": (amount,), "dimension": _dimensions(self.unit)}, text)


def amount_at(slots: Sequence[Slot], at: int) -> tuple[Term, int] | None:
    """Read a number or an amount, a list or a range of them, with what compares it."""
    held, here = _Numbers(), at
    if slots[here].has("op"):
        held.op, here = slots[here].of("op")[0], here + 1
        while here < len(slots) and slots[here].text.casefold() in _ARTICLES:
            here += 1
    step: int | None = here
    while step is not None:
        if step >= len(slots) or not held.take(slots, step):
            return None
        here = held.take_unit(slots, step + 1)
        step = held.next(slots, here)
    if here < len(slots) and not held.op and slots[here].has("op", "<=", ">="):
        held.op, here = slots[here].of("op")[0], here + 1
    return held.term(" ".join(slot.text for slot in slots[at:here])), here


def _dimensions(unit: str) -> tuple[str, ...]:
    """Return the dimensions an amount may be of; that of money has its currency left out."""
    dimension = (dimension_of(unit) or "").partition(":")[0] or "money"
    return ("capacity", "memory") if dimension in ("capacity", "memory") else (dimension,)


def _reached(op: str, text: str) -> str:
    """Return how an amount compares: what is not exceeded may be reached."""
    within = any(word in text.casefold() for word in ("exceed", "within"))
    return "" if op == "between" else "<=" if op == "<" and within else op


def _ahead(slots: Sequence[Slot], at: int, unit: str) -> bool:
    """Say whether a number belongs to a list whose last has the unit."""
    step, _ = _separator(slots, at + 1)
    return step is not None and slots[step].has("amount") and slots[step].token.unit == unit


def _separator(slots: Sequence[Slot], at: int) -> tuple[int | None, bool]:
    """Return the position after words between the numbers of a list, and whether they span."""
    here, spans = at, False
    while here < len(slots):
        slot = slots[here]
        if slot.has("to") or slot.has("dash"):
            spans = True
        elif not (slot.has("join", "and", "or", "comma") or slot.has("times")):
            break
        here += 1
    return (here, spans) if at < here < len(slots) else (None, False)
