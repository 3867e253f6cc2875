"""Conditions in a sentence: with two processors, at 120 V, if the display is fitted, in a place."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.places import Bank
from baywright.language.glossary import Slot
from baywright.language.nouns import ANYTHING, Nouns
from baywright.language.things import Condition, Measure, written
from baywright.units import Quantity, UnitError

Read = tuple[Condition, int]


@dataclass(frozen=True, slots=True)
class Date:
    """A date of a sentence.

    Args:
        day: the day, or the first of the month.
        month_only: whether only a month is named.
        word: since, until, on, or empty where it stands alone.
    """

    day: datetime.date | None
    month_only: bool
    word: str


@dataclass(frozen=True)
class Conditions:
    """Reads conditions.

    Args:
        nouns: reads the noun phrases in them.
    """

    nouns: Nouns

    def read(self, slots: Sequence[Slot], at: int) -> Read | None:
        """Read a condition; ``None`` where there is none."""
        slot = slots[at]
        if slot.has("setting") and slot.text.casefold().startswith(("on ", "in ")):
            found_setting = self._simple_state(slot)
            if found_setting is not None:
                return self._covering(slots, at, (found_setting, at + 1))
        readers = (self._site, self._per, self._state, self._without, self._introduced)
        for reader in readers:
            found = reader(slots, at)
            if found is not None:
                return self._covering(slots, at, found)
        return None

    def date(self, slots: Sequence[Slot], at: int) -> tuple[Date, int] | None:
        """Read a date with the word before it: since, from, on, in, until."""
        slot, word, here = slots[at], "", at
        if slot.has("link", "since", "until", "at", "in", "with"):
            word = next((w for w in ("until", "since") if slot.has("link", w)), "on")
            here = at + 1
        if here >= len(slots) or not slots[here].has("date") or slots[here].token.date is None:
            return None
        token = slots[here].token
        return Date(token.date, token.month_only, word), here + 1

    def _covering(self, slots: Sequence[Slot], at: int, found: Read) -> Read:
        condition, after = found
        said = " ".join(each.text for each in slots[at:after])
        return replace(condition, said=condition.said or said), after

    def _site(self, slots: Sequence[Slot], at: int) -> Read | None:
        """At an amount: a voltage, an altitude, an inlet temperature, a line."""
        slot = slots[at]
        starts = slot.has("link", "at", "with", "in") or slot.has("only_if")
        here = skipped(slots, at + 1) if starts else at
        if here >= len(slots):
            return None
        if slots[here].has("site") and starts:
            return Condition(altitude=slots[here].of("site")[0]), here + 1
        if slots[here].has("line") and starts:
            return Condition(f'line == "{slots[here].of("line")[0]}"'), here + 1
        if not starts:
            return None
        low = slots[here].token.number if _is_range(slots, here) else None
        here += 2 if low is not None else 0
        if not slots[here].has("amount"):
            return None
        condition = _of_amount(low, slots[here].token.number, slots[here].token.unit)
        after = here + 1
        if condition is not None and condition.inlet and after < len(slots):
            after += slots[after].has("field", "inlet", "inlet_limit")
        return (condition, after) if condition is not None else None

    def _per(self, slots: Sequence[Slot], at: int) -> Read | None:
        """Per a processor, a channel or a zone."""
        if not slots[at].has("link", "per") or at + 1 >= len(slots):
            return None
        after = slots[at + 1]
        if after.has("machine", ""):
            return Condition(), at + 2
        features = ("channels", "zones", "boards", "risers")
        for sort, names in (("kind", ("processor",)), ("feature", features)):
            for name in names:
                if after.has(sort, name):
                    return Condition(per=name.removesuffix("s")), at + 2
        if after.has("feature", "processor_sockets"):
            return Condition(per="processor"), at + 2
        if after.has("kind"):
            return Condition(per=after.of("kind")[0]), at + 2
        return None

    def _state(self, slots: Sequence[Slot], at: int) -> Read | None:
        if slots[at].has("state"):
            return Condition(state=slots[at].of("state")[0]), at + 1
        return None

    def _without(self, slots: Sequence[Slot], at: int) -> Read | None:
        if not slots[at].has("link", "without"):
            return None
        found = self.nouns.measures(slots, at + 1)
        place = self.nouns.named_place(slots, skipped(slots, at + 1))
        if place is not None and len(place[0]) == 1:
            return Condition(f"{place[0][0]} == empty"), place[1]
        if found is None:
            return self._bare_condition(slots, at + 1, denied=True)
        measures, after = found
        if len(measures) != 1 or measures[0].values or measures[0].thing.sort != "parts":
            return None
        return Condition(measures[0].expression(Fraction(0), "==")), after

    def _bare_condition(self, slots: Sequence[Slot], at: int, *, denied: bool) -> Read | None:
        here = skipped(slots, at)
        if here < len(slots) and slots[here].has("condition"):
            said = slots[here].of("condition")[0]
            opposite = "processors == 1" if said == "processors == 2" else f"not {said}"
            return Condition(opposite if denied else said), here + 1
        return None

    def _introduced(self, slots: Sequence[Slot], at: int) -> Read | None:
        """With, if, when, in, on, behind: a number of parts, a setting, a place that is filled."""
        slot = slots[at]
        only = slot.has("link", "only_if")
        if not (only or slot.has("link", "with", "if", "unless", "in", "at")):
            return None
        here = skipped(slots, at + 1)
        if here >= len(slots):
            return None
        if slots[here].has("machine", "") and not slot.has("link", "if"):
            return Condition(), here + 1
        if slot.text.casefold() == "for":
            return self._for_parts(slots, here)
        found = self.state_of_build(slots, here, fitted=slot.has("link", "if", "with") or only)
        if found is None:
            return None
        condition, after = found
        if slot.has("link", "unless"):
            condition = replace(condition, expression=f"not ({condition.expression})")
        after = _past_fitted(slots, after) if slot.has("link", "if", "with") or only else after
        return replace(condition, only=only), after

    def _for_parts(self, slots: Sequence[Slot], at: int) -> Read | None:
        """Read for so many parts; without a number it is no condition."""
        found = self.nouns.measures(slots, at)
        if found is None or len(found[0]) != 1 or not found[0][0].values:
            return None
        expression = given_of(found[0][0])
        return (Condition(expression), found[1]) if expression else None

    def state_of_build(self, slots: Sequence[Slot], at: int, *, fitted: bool = True) -> Read | None:
        """Read what a build can be: both processors, the display, variant E, model F2-b.

        Args:
            slots: the phrases.
            at: where it starts.
            fitted: whether parts count; after ``in`` they do not.
        """
        slot = slots[at]
        found = self._simple_state(slot)
        if found is not None:
            return found, at + 1
        if not fitted:
            return None
        places = self.nouns.named_place(slots, at)
        if places is not None and len(places[0]) == 1 and places[1] == at + 1:
            return Condition(f"{places[0][0]} != empty"), places[1]
        found_measures = self.nouns.measures(slots, at)
        if found_measures is None:
            return None
        measures, after = found_measures
        said = self._all_filled(measures[0], slots, after) or self._bounded(
            measures[0], slots, after
        )
        if said is not None:
            return said
        per = self._per(slots, after) if after < len(slots) else None
        if per is not None and per[0].per == "channel" and len(measures) == 1:
            return self._per_channel(measures[0], per[1])
        expressions = [given_of(measure) for measure in measures]
        if any(not each for each in expressions):
            return None
        return Condition(" or ".join(expressions)), after

    def _all_filled(self, measure: Measure, slots: Sequence[Slot], at: int) -> Read | None:
        """Read all sockets or bays filled: that many modules."""
        banks = self.nouns.book.places_of(Bank).values()
        whole = sum(bank.channels.known * bank.per_channel.known for bank in banks)
        about_memory = any(s.has("kind", "memory") or s.has("figure", "memory") for s in slots)
        sockets = ("memory_sockets", "processor_sockets") if about_memory else ("memory_sockets",)
        if measure.thing.name not in sockets or measure.values not in ((), (whole,)):
            return None
        after = _past_fitted(slots, at)
        if after == at or (measure.quant != "every" and not measure.values):
            return None
        return Condition(f"count(memory) == {whole}"), after

    def _bounded(self, measure: Measure, slots: Sequence[Slot], at: int) -> Read | None:
        """Read a number that is at most or at least an amount: the peak draw is below 800 W."""
        thing = measure.thing
        if thing.sort != "number" or measure.values or at + 1 >= len(slots):
            return None
        if not slots[at].has("verb", "be"):
            return None
        found = self.nouns.measures(slots, at + 1)
        if found is None or found[0][0].thing is not ANYTHING or len(found[0][0].values) != 1:
            return None
        wanted = found[0][0]
        op = {"": "==", "up": "<="}.get(wanted.op, wanted.op)
        if op not in ("==", "<=", ">=", "<", ">"):
            return None
        return Condition(f"{thing.name} {op} {written(wanted.values[0], wanted.unit)}"), found[1]

    def _per_channel(self, measure: Measure, after: int) -> Read | None:
        """Read one or two modules per channel: the fullest channel has that many."""
        banks = list(self.nouns.book.places_of(Bank).items())
        if measure.thing.name != "memory" or measure.op or not banks:
            return None
        name, bank = banks[0]
        found = per_channel(measure, name, bank.channels.known)
        return (Condition(found), after) if found else None

    def _simple_state(self, slot: Slot) -> Condition | None:
        if slot.has("condition"):
            return Condition(slot.of("condition")[0])
        if slot.has("setting"):
            key, _, value = slot.of("setting")[0].partition("=")
            return Condition(f'{key} == "{value}"')
        if slot.has("model"):
            return Condition(f'from_model("{slot.of("model")[0]}")')
        return None


def per_channel(measure: Measure, bank: str, channels: int) -> str:
    """Return the expression for one or two modules per channel; empty for other numbers."""
    if measure.thing.name != "memory" or measure.op:
        return ""
    first = f"count(memory, at={bank})"
    expressions: dict[tuple[Fraction, ...], str] = {
        (Fraction(1),): f"{first} <= {channels}",
        (Fraction(2),): f"{first} > {channels}",
    }
    return expressions.get(measure.values, "")


def _is_range(slots: Sequence[Slot], at: int) -> bool:
    """Say whether a range such as 200 to 240 V starts here."""
    if at + 2 >= len(slots) or not slots[at].has("number") or not slots[at + 2].has("amount"):
        return False
    return slots[at + 1].has("dash") or slots[at + 1].text == "to"


def given_of(measure: Measure) -> str:
    """Return a measure as a condition; empty where it can be none."""
    thing = measure.thing
    if thing is ANYTHING:
        return _anything(measure)
    if thing.sort == "number" and thing.dimension and not measure.values:
        return ""
    if not thing.expression or thing.absent:
        return ""
    return " or ".join(measure.alternatives)


def _anything(measure: Measure) -> str:
    """Return an amount alone as a condition: 4 TB is memory, 120 V is the line."""
    if measure.unit in ("GB", "TB") and len(measure.values) == 1:
        op = {"up": "==", "": "=="}.get(measure.op, measure.op)
        return f"memory {op} {written(measure.values[0], measure.unit)}"
    if measure.unit == "MT/s" and len(measure.values) == 1:
        op = {"up": "==", "": "=="}.get(measure.op, measure.op)
        return f"memory_speed {op} {written(measure.values[0], measure.unit)}"
    return ""


def _of_amount(low: Fraction | None, high: Fraction, unit: str) -> Condition | None:
    try:
        amount = Quantity(high, unit)
    except UnitError:
        return None
    if amount.dimension == "voltage":
        if low is not None:
            return Condition(
                f"voltage >= {written(low, unit)} and voltage <= {written(high, unit)}"
            )
        return Condition(f"voltage == {written(high, unit)}")
    if low is not None:
        return None
    if amount.dimension == "length" and amount.to("m") >= 10:
        return Condition(altitude=str(amount))
    if amount.dimension == "temperature":
        return Condition(inlet=str(amount))
    if amount.dimension == "transfer_rate":
        return Condition(f"memory_speed == {written(high, unit)}")
    return None


def skipped(slots: Sequence[Slot], at: int) -> int:
    """Return the position after words that carry nothing."""
    here = at
    while here < len(slots) and slots[here].has("stop") and not _content(slots[here]):
        here += 1
    return here


def _content(slot: Slot) -> bool:
    return any(sort not in ("stop", "id") for sort in slot.senses)


def amount_condition(number: Fraction, unit: str) -> Condition | None:
    """Return what an amount says of line or site: a voltage, an altitude, an inlet temperature."""
    return _of_amount(None, number, unit)


_OF_ITS_OWN = frozenset(
    ["fit", "fits", "go", "goes", "sit", "sits", "work", "works", "run", "runs"]
)
"""What the subject does, and not what is done to the parts of a condition."""


def _past_fitted(slots: Sequence[Slot], at: int) -> int:
    """Pass over ``is fitted`` after what has to be."""
    here = at + 1 if at < len(slots) and slots[at].has("verb", "be") else at
    state = here > at or (here < len(slots) and slots[here].text.casefold() not in _OF_ITS_OWN)
    if state and here < len(slots) and slots[here].has("verb", "fit"):
        return here + 1
    return at
