"""Small random books, written as YAML and read like any other.

A book grows from a bare machine by a few features in any order; one that would make it too large
to enumerate is left out.
"""

from __future__ import annotations

import copy
import datetime
import itertools
import math
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import yaml
from hypothesis import strategies as st
from hypothesis.vendor.pretty import RepresentationPrinter

from baywright.engines.brute import Brute
from baywright.files.books import book_from
from baywright.laws.conditions import Conditions
from baywright.laws.controllers import cable_of, cabled_zones
from baywright.laws.machine import Machine, compile_book
from baywright.laws.power import LINE
from baywright.laws.registry import SUBSYSTEMS
from baywright.sizing.air.flow import heat_per_flow
from baywright.units import parse
from tests.laws.features import FEATURES, bare
from tests.laws.plain import Built, Given, Predicate, Subject
from tests.laws.random_terms import Raw, Term, terms

MOST_BUILDS = 6_000
"""A book has at most this many combinations of what its places could hold."""

Row = tuple[int, ...]
"""A value index for each choice of a machine that is not derived."""


@dataclass(frozen=True)
class Sample:
    """A random book, compiled.

    Args:
        text: the book as YAML.
        raw: the same, before it was written.
        machine: the compiled book.
        given: what plain builds are judged by.
    """

    text: str
    raw: Raw
    machine: Machine
    given: Given

    def __str__(self) -> str:
        site = self.machine.conditions
        return f"{self.text}# as of {site.as_of}, at {site.altitude}, inlet {site.inlet}\n"

    def _repr_pretty_(self, printer: RepresentationPrinter, _cycle: bool) -> None:
        """Show a counterexample as the book it is."""
        printer.text(str(self))

    @property
    def own(self) -> tuple[str, ...]:
        """Names of the choices that are not derived."""
        return tuple(n for n, f in self.machine.frame.fittings.items() if not f.derived)

    def rows(self) -> Iterator[Row]:
        """Yield every combination of what the places could hold, legal or not."""
        return itertools.product(*(range(self.machine.sizes[name]) for name in self.own))

    def subject(self, values: Mapping[str, int]) -> Subject:
        """Return an assignment as parts in places."""
        return Subject(self.given, _built(self.machine, values))

    def legal(self) -> list[Mapping[str, int]]:
        """Return every legal assignment, as the brute engine finds them."""
        names = tuple(choice.name for choice in self.machine.space.choices)
        rows = Brute().each(self.machine.space, names)
        return [dict(zip(names, row, strict=True)) for row in rows]


def _built(machine: Machine, values: Mapping[str, int]) -> Built:
    fittings = machine.frame.fittings
    cables = {cable_of(zone): zone for zone in cabled_zones(machine.book)}
    built = Built({place: Counter() for place in machine.book.places}, {}, {}, "")
    parts, cabled, settings, line = dict(built.parts), {}, {}, ""
    for name, index in values.items():
        if name not in fittings or fittings[name].derived:
            continue
        option = fittings[name].options[index]
        if name in cables:
            cabled[cables[name]] = None if option.value is None else str(option.value)
        elif name == LINE:
            line = str(option.value)
        elif name in machine.book.settings:
            settings[name] = str(option.value)
        else:
            parts[fittings[name].place] += Counter(dict(option.parts))
    return Built(parts, cabled, settings, line)


@st.composite
def sites(draw: st.DrawFn) -> Conditions:
    """A day and the air of a site."""
    day = draw(st.sampled_from(("2031-07-01", "2031-03-01", "2031-10-01")))
    metres = draw(st.sampled_from((0, 0, 0, 1500, 3200)))
    inlet = draw(st.sampled_from((None, None, None, "28 °C", "34 °C")))
    return Conditions(
        datetime.date.fromisoformat(day),
        heat_per_flow(float(metres)),
        parse(f"{metres} m"),
        parse(inlet) if inlet else None,
    )


@st.composite
def samples(
    draw: st.DrawFn,
    most: int = MOST_BUILDS,
    features: int = 5,
    rules: bool = True,
    first: tuple[str, ...] = (),
) -> Sample:
    """A small random book with its site; the features named first are in it if they fit."""
    raw, said = bare(), list[Term]()
    names = draw(
        st.lists(st.sampled_from(sorted(FEATURES)), unique=True, min_size=2, max_size=features)
    )
    for name in dict.fromkeys((*first, *names)):
        raw = _grown(draw, raw, FEATURES[name], said, most)
    if rules:
        raw["rules"] = {}
        for number in range(draw(st.sampled_from((0, 0, 1, 2)))):
            rule = draw(terms(raw))
            raw["rules"][f"rule-{number}"] = {"says": f"rule {number}", "holds": rule.text}
            said.append(rule)
    return sample(raw, draw(sites()), {term.text: term.says for term in said})


def _grown(
    draw: st.DrawFn,
    raw: Raw,
    feature: Callable[[st.DrawFn, Raw], list[Term]],
    said: list[Term],
    most: int,
) -> Raw:
    larger = copy.deepcopy(raw)
    found = feature(draw, larger)
    if _size(larger) > most:
        return raw
    said.extend(found)
    return larger


def _size(raw: Raw) -> int:
    book = book_from({"book.yaml": as_yaml(raw).encode()})
    fittings = (fitting for subsystem in SUBSYSTEMS for fitting in subsystem.choices(book))
    return math.prod(len(fitting.options) for fitting in fittings if not fitting.derived)


def sample(raw: Raw, site: Conditions, meanings: Mapping[str, Predicate]) -> Sample:
    """Write a book, read it and compile it."""
    text = as_yaml(raw)
    book = book_from({"book.yaml": text.encode()})
    machine = compile_book(book, site)
    return Sample(text, raw, machine, Given(book, site, meanings))


def as_yaml(raw: Raw) -> str:
    """Write a draft as a book; a book takes no anchors, so what stands twice is written twice."""
    return str(yaml.dump(raw, Dumper=_Plain, sort_keys=False, allow_unicode=True))


class _Plain(yaml.SafeDumper):
    def ignore_aliases(self, _data: Any) -> bool:
        return True


SEA_LEVEL = Conditions(datetime.date(2031, 7, 1), Fraction(heat_per_flow(0.0)), parse("0 m"), None)
"""The day of the edition, at sea level."""
