"""Offers: everything a place could hold, free to fit, if something else changes, or never."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from baywright.answers.refused import Refusal
from baywright.answers.wording import Names
from baywright.desk.bench.bench import NOTHING, Bench, total, without
from baywright.desk.bench.standing import Standing
from baywright.desk.bench.steps import Step
from baywright.units import number

OfferState: TypeAlias = Literal["now", "free", "if", "never"]

MANY = 12
"""A choice with more values than this shows them by part, and details of one value at a time."""

MOST_CHANGED = 2
"""So many choices are tried together before any number of them is."""

_SEVERAL = re.compile(r"(\d+) x (\S+)")


@dataclass(frozen=True, slots=True)
class Effect:
    """What a value does to a number of the cheapest build.

    Args:
        word: the number, such as ``draw``.
        change: by how much it changes, with its sign.
        result: what it comes to.
        unit: its unit.
    """

    word: str
    change: str
    result: str
    unit: str


@dataclass(frozen=True, slots=True)
class Change:
    """Something that has to change for a value to fit.

    Args:
        choice: name of the choice.
        words: what it is called.
        was: what was chosen.
        becomes: what it is in the cheapest build that has the value.
    """

    choice: str
    words: str
    was: str
    becomes: str


@dataclass(frozen=True, slots=True)
class Offer:
    """A value of a choice.

    Args:
        label: the value as it stands in a step.
        words: what it is called.
        part: the part where it is a number of one, or empty.
        count: how many of that part.
        state: whether it can be had.
        step: the step that fits it.
        effects: what it changes, for values that fit.
        changes: what has to change, for a value that does not fit as things are.
        reasons: why it is closed, where that has been found.
    """

    label: str
    words: str
    part: str
    count: int
    state: OfferState
    step: Step
    effects: tuple[Effect, ...] = ()
    changes: tuple[Change, ...] = ()
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Offers:
    """All values of one choice.

    Args:
        choice: name of the choice.
        words: what it is called.
        each: the values, in the order of the book.
        many: whether they are too many to be shown in full.
    """

    choice: str
    words: str
    each: tuple[Offer, ...]
    many: bool

    def having(self, *states: OfferState) -> tuple[Offer, ...]:
        """Return the offers in some states."""
        return tuple(offer for offer in self.each if offer.state in states)

    def grouped(self, state: OfferState) -> Iterator[tuple[str, tuple[Offer, ...]]]:
        """Yield the offers of a state by part, those without a part first."""
        for part, offers in itertools.groupby(self.having(state), key=lambda each: each.part):
            yield part, tuple(offers)


def offers(
    bench: Bench, standing: Standing, choice: str, shown: str = "", *, explain: bool = False
) -> Offers:
    """Return what a choice could be, as things stand.

    Args:
        bench: the bench.
        standing: where the steps have led.
        choice: the choice.
        shown: label of the value whose details are wanted although there are many.
        explain: whether to find the reasons of closed values that are not known yet.

    Raises:
        StoppedError: at a limit.
        RecheckError: when the engines do not agree.
    """
    names = Names(bench.machine.book)
    labels = [option.label for option in bench.machine.frame.options(choice)]
    held = without(standing.held, (choice,))
    others = {**without(standing.chosen, (choice,)), **held}
    left = bench.options(others)[choice]
    many = len(labels) > MANY
    maker = _Maker(bench, standing, choice, others, held, explain=explain)
    made = (
        maker.offer(value, label, left, detailed=not many or label == shown)
        for value, label in enumerate(labels)
    )
    return Offers(choice, names.choice(choice), tuple(made), many)


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes the offers of one choice."""

    bench: Bench
    standing: Standing
    choice: str
    others: Mapping[str, int]
    held: Mapping[str, int]
    explain: bool

    def offer(self, value: int, label: str, left: frozenset[int], *, detailed: bool) -> Offer:
        state = self._state(value, left)
        changes = self._changes(value) if detailed and state == "if" else ()
        opened = tuple((change.choice, "") for change in changes)
        part, count = _several(label)
        return Offer(
            label,
            Names(self.bench.machine.book).label(self.choice, label),
            Names(self.bench.machine.book).part(part) if part else "",
            count,
            state,
            Step((*opened, (self.choice, label))),
            tuple(self._effects(value)) if detailed and state == "free" else (),
            changes,
            self._reasons(value, state) if detailed else (),
        )

    def _state(self, value: int, left: frozenset[int]) -> OfferState:
        if self.standing.chosen.get(self.choice) == value:
            return "now"
        if value in left:
            return "free"
        if value not in self.bench.free[self.choice]:
            return "never"
        return "if" if not self.held or self._fits_pins(value) else "never"

    def _fits_pins(self, value: int) -> bool:
        return self.bench.possible({**self.held, self.choice: value})

    def _effects(self, value: int) -> Iterator[Effect]:
        found = self.bench.least(self.bench.by_price, {**self.others, self.choice: value})
        if found is None:
            return
        before = self.standing.shown.values
        money = str(self.bench.machine.book.book.currency)
        for word, name, unit in (("draw", "load", "W"), ("price", "price", money)):
            linear = total(self.bench.machine, name)
            now, then = linear.value(before), linear.value(found)
            yield Effect(word, signed(then - now), number(then, 0), unit)

    def _changes(self, value: int) -> tuple[Change, ...]:
        """Return the fewest choices, the latest ones first, whose opening lets the value fit."""
        names = [name for name in self.others if name not in self.held][::-1]
        for size in range(1, MOST_CHANGED + 1):
            for gone in itertools.combinations(names, size):
                if self.bench.possible({**without(self.others, gone), self.choice: value}):
                    return self._described(gone, value)
        return self._described(tuple(self._many_changes(value)), value)

    def _many_changes(self, value: int) -> Iterator[str]:
        """Yield a minimal set of choices to open, keeping earlier ones where possible."""
        kept: dict[str, int] = {self.choice: value, **self.held}
        for name, at in self.others.items():
            if self.bench.possible({**kept, name: at}):
                kept[name] = at
            else:
                yield name

    def _described(self, gone: Sequence[str], value: int) -> tuple[Change, ...]:
        machine, names = self.bench.machine, Names(self.bench.machine.book)
        given = {**without(self.others, gone), self.choice: value}
        found = self.bench.least(self.bench.by_price, given) or {}
        return tuple(
            Change(
                name,
                names.choice(name),
                names.label(name, machine.frame.options(name)[self.others[name]].label),
                names.label(name, machine.frame.options(name)[found[name]].label),
            )
            for name in gone
            if name in found
        )

    def _reasons(self, value: int, state: OfferState) -> tuple[str, ...]:
        """Return why a value is closed: of one that never fits, by laws and pins alone."""
        if state not in ("if", "never"):
            return ()
        given = self._given(value) if state == "never" else self.others
        found = self.bench.known_refusal(given, self.choice, value)
        if found is None and self.explain:
            found = self.bench.refusal(given, self.choice, value)
        return self._said(found) if found else ()

    def _given(self, value: int) -> Mapping[str, int]:
        return self.held if value in self.bench.free[self.choice] else NOTHING

    def _said(self, refusal: Refusal) -> tuple[str, ...]:
        machine, names = self.bench.machine, Names(self.bench.machine.book)
        chosen = (
            f"You {'pinned' if name in self.held else 'chose'} {names.choice(name)}: "
            f"{names.label(name, machine.frame.options(name)[self.others[name]].label)}."
            for name in refusal.choices
        )
        return (*chosen, *(origin.sentence for origin in refusal.origins))


def _several(label: str) -> tuple[str, int]:
    match = _SEVERAL.fullmatch(label)
    return (match[2], int(match[1])) if match else ("", 0)


def signed(amount: Fraction) -> str:
    """Return a whole number with its sign.

    >>> signed(Fraction(48)), signed(Fraction(-3)), signed(Fraction(0))
    ('+48', '-3', 'no change')
    """
    if round(amount) == 0:
        return "no change"
    said = number(abs(amount), 0)
    return f"+{said}" if amount > 0 else f"-{said}"
