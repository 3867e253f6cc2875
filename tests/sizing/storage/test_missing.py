"""What a book or a site does not say is not decided, and it is named what it depends on."""

from __future__ import annotations

import time
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from baywright.files.books import read_book, read_build
from baywright.laws.builds import codes_of
from baywright.laws.conditions import Conditions
from baywright.laws.machine import Machine, compile_book
from baywright.sizing.case import Case, Surroundings
from baywright.sizing.storage.sheet import listings, sheet
from baywright.units import parse
from tests.sizing.cases import case_of, machine_of
from tests.sizing.storage.figures import figures_of, limits_of

OTHERS = Path(__file__).parents[2] / "books_by_others"
SETTLED = {"t4": {"parts.fast-7680.power": "21 W", "parts.net-100.power": "22 W"}, "r0": {}}
"""Facts that the books leave open, settled so that each is compiled once."""


@cache
def machine_by_others(book: str) -> Machine:
    facts = read_book(OTHERS / book, SETTLED[book])
    heat = parse("1 W").canonical
    return compile_book(facts, Conditions(facts.book.edition.known, heat, parse("0 m")))


def case_by_others(book: str, build: str) -> Case:
    machine = machine_by_others(book)
    found = read_build(OTHERS / book / "builds" / f"{build}.yaml")
    codes = {name: np.array([code]) for name, code in codes_of(machine, found).items()}
    return Case(machine.frame, codes, Surroundings.of(found.site))


def every_case() -> list[Case]:
    ours = [("f2", "n2"), ("f2", "n4"), ("f1", "n5-wanted"), ("f1", "n5-owned"), ("l4", "n3")]
    others = [("t4", "big"), ("t4", "low"), ("r0", "pump"), ("r0", "safe")]
    cases = [case_of(*pair) for pair in [*ours, ("p1", "n1")]]
    return cases + [case_by_others(*pair) for pair in others]


@pytest.mark.parametrize("bare", [False, True])
def test_what_is_not_decided_says_why(*, bare: bool) -> None:
    for case in every_case():
        asked = case.amid(Surroundings()) if bare else case
        for key, figure in figures_of(asked).items():
            if np.isnan(figure.values).any():
                assert figure.missing or figure.outside, key
            else:
                assert not figure.missing, key
        list(listings(asked))


def test_a_book_without_rates_says_which() -> None:
    found = limits_of(case_by_others("t4", "low"))["uplink"].figure
    assert found.missing == (
        "parts.sas-2400.read_rate",
        "parts.H8.generation",
        "places.R1c.generation",
    )


def test_a_machine_without_drives_has_no_figures_of_drives() -> None:
    assert set(figures_of(case_by_others("r0", "pump"))) == {"boot_wear"}


def test_many_builds_say_what_each_says_alone() -> None:
    together = case_of("f2", "n2", "n4").amid(case_of("f2", "n4").around)
    for position, name in enumerate(["n2", "n4"]):
        alone = figures_of(case_of("f2", name).amid(together.around))
        for key, figure in figures_of(together).items():
            if key in alone:
                assert np.ravel(figure.values)[position] == pytest.approx(
                    alone[key].value, nan_ok=True
                ), key


def random_case(size: int) -> Case:
    """Builds with anything anywhere, legal or not, at the site of the record office."""
    machine, rng = machine_of("f2"), np.random.default_rng(7)
    codes = {
        name: rng.integers(0, len(fitting.options), size)
        for name, fitting in machine.frame.fittings.items()
        if not fitting.derived
    }
    return Case(machine.frame, codes, case_of("f2", "n4").around)


def test_a_thousand_builds_take_a_moment() -> None:
    """The sheet is worked out on arrays: 0.03 s here, and ten times that is allowed."""
    sheet(random_case(10))
    case = random_case(1000)
    started = time.process_time()
    sheet(case)
    assert time.process_time() - started < 0.3
