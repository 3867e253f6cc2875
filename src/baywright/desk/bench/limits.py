"""Limits of what is on the bench: what is used, what is left, each against its bound."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from baywright.desk.bench.bench import Bench, total
from baywright.desk.bench.standing import Standing
from baywright.desk.drawing import as_build
from baywright.desk.judging import margins
from baywright.desk.size.sized import case_of
from baywright.desk.size.telling import first
from baywright.sizing.registry import SUBJECTS
from baywright.units import number

BOUND_AT = 82.0
"""Where every bound stands, in per cent of the width, so that the eye compares gaps."""


TITLES = (
    ("the supplies when", "Power, redundant", "supplies_redundant"),
    ("the supplies", "Power", "supplies_redundant"),
    ("one fan", "Air, one fan fewer", "air_redundant"),
    ("all fans", "Air", "air_redundant"),
)
"""How the words of a margin begin, what its limit is called, and the name that asks for it."""


@dataclass(frozen=True, slots=True)
class Gauge:
    """A limit as it is shown.

    Args:
        title: what is limited.
        used: what is used, with its unit.
        bound: what may be used, with its unit.
        left: what is left or over, in words.
        beside: what sets the bound.
        share: where the used amount ends, in per cent of the width.
        over: whether the bound is passed.
        binding: whether it leaves the smallest share of all that have to hold.
        must: whether a legal build has to keep it.
    """

    title: str
    used: str
    bound: str
    left: str
    beside: str
    share: float
    over: bool
    binding: bool
    must: bool

    @property
    def sentence(self) -> str:
        """The whole limit in one sentence."""
        binding = ", binding" if self.binding else ""
        return f"{self.title}{binding}: {self.used} of {self.bound}, {self.left}; {self.beside}."


@dataclass(frozen=True, slots=True)
class _Amount:
    title: str
    used: Fraction
    bound: Fraction
    unit: str
    beside: str
    must: bool


def gauges(bench: Bench, standing: Standing) -> tuple[Gauge, ...]:
    """Return the limits of the cheapest build with the choices made.

    Raises:
        StoppedError: at a limit.
        RecheckError: when the engine's build breaks a law.
    """
    amounts = [
        *_watts(bench, standing),
        *_lanes(bench, standing),
        *_memory(bench, standing),
        *_space(standing),
        *_price(bench, standing),
    ]
    must = [each for each in amounts if each.must and each.bound]
    binding = min(must, key=lambda each: (each.bound - each.used) / each.bound, default=None)
    return tuple(_gauge(each, binding=each is binding) for each in amounts)


def _gauge(each: _Amount, *, binding: bool) -> Gauge:
    room = each.bound - each.used
    said = f"{number(abs(room), 0)} {each.unit} {'left' if room >= 0 else 'over'}"
    share = float(each.used / each.bound) * BOUND_AT if each.bound else 0.0
    used, bound = (f"{number(n, 0)} {each.unit}" for n in (each.used, each.bound))
    return Gauge(
        each.title, used, bound, said, each.beside, min(share, 100.0), room < 0, binding, each.must
    )


def _watts(bench: Bench, standing: Standing) -> Iterator[_Amount]:
    asked = " ".join(wish.text for wish in bench.musts)
    for margin in margins(bench.machine, standing.shown):
        title, must = next(
            (
                (title, word in asked)
                for start, title, word in TITLES
                if margin.words.startswith(start)
            ),
            (margin.words, False),
        )
        beside = f"peak draw, DC, against {margin.words}"
        yield _Amount(title, margin.used, margin.given, "W", beside, margin.needed or must)


def _lanes(bench: Bench, standing: Standing) -> Iterator[_Amount]:
    build = as_build(bench.machine, standing.shown.values, "bench")
    subject = next((each for each in SUBJECTS if each.name == "slots"), None)
    if subject is None:
        return
    limits = [
        limit
        for limit in subject.sheet(case_of(bench.machine, build)).limits
        if limit.figure.key.startswith("slots.lanes.") and not math.isnan(first(limit.bound))
    ]
    if limits:
        tightest = min(limits, key=lambda limit: first(limit.bound) - limit.figure.value)
        used, bound = Fraction(round(tightest.figure.value)), Fraction(round(first(tightest.bound)))
        yield _Amount("Lanes", used, bound, "lanes", tightest.figure.name, must=True)


def _memory(bench: Bench, standing: Standing) -> Iterator[_Amount]:
    beside = "against the most that these choices leave"
    yield from _up_to_most(bench, standing, "Memory", "memory", "GB", beside)


def _up_to_most(
    bench: Bench, standing: Standing, title: str, name: str, unit: str, beside: str
) -> Iterator[_Amount]:
    most = bench.most(name, standing.chosen)
    if most is not None:
        used = total(bench.machine, name).value(standing.shown.values)
        yield _Amount(title, used, most, unit, beside, must=False)


def _space(standing: Standing) -> Iterator[_Amount]:
    physical = [place for place in standing.places if place.section != "Settings"]
    used = sum(1 for place in physical if place.state != "open")
    yield _Amount(
        "Places", Fraction(used), Fraction(len(physical)), "places",
        "fitted, closed or with one value left", must=False,
    )  # fmt: skip


def _price(bench: Bench, standing: Standing) -> Iterator[_Amount]:
    unit = str(bench.machine.book.book.currency)
    beside = "list price, least and most of the builds left"
    yield from _up_to_most(bench, standing, "Price", "price", unit, beside)
