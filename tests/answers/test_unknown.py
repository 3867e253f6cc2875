"""Facts that nobody has stated: the answer in every world they could make."""

from __future__ import annotations

import copy
import itertools
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from baywright.answers.verdicts import No, Undecided, Yes
from baywright.desk.asking import ask
from baywright.desk.opening import Setting, open_book
from tests.answers.asked import can_be_built
from tests.laws.random_books import Sample, as_yaml, sample, samples
from tests.laws.random_terms import NAMED, Raw, Term, atoms

UNKNOWN: Mapping[tuple[str, ...], tuple[str, str]] = {
    ("power", "base"): ("20 W", "330 W"),
    ("parts", "cpu-a", "tdp"): ("60 W", "320 W"),
    ("parts", "fan-a", "flow"): ("9 CFM", "40 CFM"),
    ("parts", "ps-a", "ratings", "low"): ("70 W", "400 W"),
    ("chassis", "depth"): ("520 mm", "530 mm"),
}
"""Facts that every draft of a book has, with values that change what is possible, but for the
last, which no law and no question asks for."""


ANYTHING = Term("processors >= 1", lambda s: s.number("processor") >= 1)
"""Every legal build has this, so it asks whether there is one."""


@dataclass(frozen=True)
class Case:
    """A book with unknown facts, and a question.

    Args:
        sample: the book with all facts known.
        paths: the facts that are taken to be unknown.
        term: what is asked.
    """

    sample: Sample
    paths: tuple[tuple[str, ...], ...]
    term: Term

    def raw(self, values: Mapping[tuple[str, ...], Any]) -> Raw:
        """Return the book with values for some facts."""
        raw = copy.deepcopy(self.sample.raw)
        for path, value in values.items():
            holder = raw
            for key in path[:-1]:
                holder = holder[key]
            holder[path[-1]] = value
        return raw

    def outcomes(self) -> dict[tuple[str, ...], type]:
        """Return the answer in each world, from the list of its legal builds."""
        found: dict[tuple[str, ...], type] = {}
        for values in itertools.product(*(UNKNOWN[path] for path in self.paths)):
            raw = self.raw(dict(zip(self.paths, values, strict=True)))
            world = sample(raw, self.sample.machine.conditions, self.sample.given.meanings)
            builds = (world.subject(values) for values in world.legal())
            found[values] = Yes if any(map(self.term.says, builds)) else No
        return found


@st.composite
def cases(draw: st.DrawFn) -> Case:
    book = draw(samples(most=300, features=3, rules=False).filter(can_be_built))
    paths = draw(st.lists(st.sampled_from(sorted(UNKNOWN)), unique=True, min_size=1, max_size=3))
    term = draw(st.one_of(st.just(ANYTHING), atoms(book.raw), st.sampled_from(NAMED)))
    return Case(book, tuple(paths), term)


def deciding(outcomes: Mapping[tuple[str, ...], type]) -> set[int]:
    """Return the positions of facts whose change alone changes some answer."""
    pairs = itertools.combinations(outcomes, 2)
    apart = [
        ([i for i, (x, y) in enumerate(zip(a, b, strict=True)) if x != y], a, b) for a, b in pairs
    ]
    return {where[0] for where, a, b in apart if len(where) == 1 and outcomes[a] != outcomes[b]}


@settings(max_examples=50)
@given(cases())
def test_the_deciding_facts_are_those_that_change_the_answer(case: Case) -> None:
    outcomes = case.outcomes()
    matter = deciding(outcomes)
    verdict = answer(case)
    if not matter:
        assert isinstance(verdict, next(iter(outcomes.values())))
        return
    assert isinstance(verdict, Undecided)
    order = [fact.path for fact in verdict.facts]
    paths = {".".join(case.paths[i]): i for i in matter}
    assert sorted(order) == sorted(paths)
    expected = {tuple(values[paths[p]] for p in order): kind for values, kind in outcomes.items()}
    assert {values: type(each) for values, each in verdict.outcomes} == expected


def unsettled(path: tuple[str, ...], position: int) -> dict[str, list[Any]]:
    """Return a fact that nobody has stated, or, every other one, that sources dispute."""
    values = list(UNKNOWN[path])
    if position % 2 and len(values) > 1:
        return {"told": [{"value": value} for value in values]}
    return {"could_be": values}


def answer(case: Case) -> object:
    """Ask the book with its unknown facts, read from a folder."""
    raw = case.raw({path: unsettled(path, i) for i, path in enumerate(case.paths)})
    site = case.sample.machine.conditions
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "book.yaml").write_text(as_yaml(raw), encoding="utf-8")
        opened = open_book(Path(folder), Setting(site.as_of, site.altitude, site.inlet))
        return ask(opened, case.term.text).verdict
