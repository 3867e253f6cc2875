"""Builds to size in tests that no file holds: changed ones, random ones, machines of others."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np

from baywright.files.books import read_book, read_build
from baywright.laws.builds import codes_of
from baywright.laws.conditions import Conditions
from baywright.laws.machine import Machine, compile_book
from baywright.sizing.case import Case, Surroundings
from baywright.sizing.figure import Figure, Limit, Sheet
from baywright.units import parse
from tests.sizing.cases import machine_of

OTHERS = Path(__file__).parents[1] / "books_by_others"
SETTLED = {"t4": {"parts.fast-7680.power": "21 W", "parts.net-100.power": "22 W"}, "r0": {}}
"""Facts that these books leave open, settled so that each is compiled once."""

EVERY = [
    *(("f2", "n2"), ("f2", "n4"), ("f1", "n5-owned"), ("f1", "n5-wanted")),
    *(("l4", "n3"), ("p1", "n1"), ("t4", "big"), ("t4", "low"), ("r0", "pump"), ("r0", "safe")),
]
"""Books and build files of the demo and of others."""


@cache
def machine_by_others(book: str) -> Machine:
    """Return a book that strangers wrote, compiled for sea level."""
    facts = read_book(OTHERS / book, SETTLED[book])
    heat = parse("1 W").canonical
    return compile_book(facts, Conditions(facts.book.edition.known, heat, parse("0 m")))


def case_by_others(book: str, build: str) -> Case:
    """Return a case of one of its builds."""
    machine = machine_by_others(book)
    found = read_build(OTHERS / book / "builds" / f"{build}.yaml")
    codes = {name: np.array([code]) for name, code in codes_of(machine, found).items()}
    return Case(machine.frame, codes, Surroundings.of(found.site))


def changed(case: Case, **labels: str) -> Case:
    """Return a case with other values of some choices, by label, in every build."""
    codes = dict(case.codes)
    for choice, label in labels.items():
        every = [option.label for option in case.frame.options(choice)]
        codes[choice] = np.full(case.size, every.index(label))
    return Case(case.frame, codes, case.around)


def random_case(book: str, builds: int, seed: int) -> Case:
    """Return builds of a bundled book drawn choice by choice, legal or not."""
    draw = np.random.default_rng(seed)
    fittings = machine_of(book).frame.fittings
    codes = {
        name: draw.integers(0, len(fitting.options), builds)
        for name, fitting in fittings.items()
        if not fitting.derived
    }
    return Case(machine_of(book).frame, codes, Surroundings())


def alone(case: Case, build: int) -> Case:
    """Return one build of a case as a case of its own."""
    codes = {name: column[build : build + 1] for name, column in case.codes.items()}
    return Case(case.frame, codes, case.around)


def figures_in(sheet: Sheet) -> dict[str, Figure]:
    """Return the figures of a sheet by key."""
    return {figure.key: figure for figure in sheet.figures}


def limits_in(sheet: Sheet) -> dict[str, Limit]:
    """Return the limits of a sheet by key."""
    return {limit.figure.key: limit for limit in sheet.limits}
