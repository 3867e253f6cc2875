"""Cases to size in tests: builds of the bundled books in some surroundings."""

from __future__ import annotations

import datetime
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import Any

import numpy as np

from baywright.facts.build import Build
from baywright.files.books import find_book, read_book, read_build
from baywright.laws.builds import codes_of
from baywright.laws.conditions import Conditions
from baywright.laws.machine import Machine, compile_book
from baywright.sizing.air.flow import heat_per_flow
from baywright.sizing.case import Case, Surroundings
from baywright.units import Quantity


@cache
def machine_of(book: str) -> Machine:
    """Return a bundled book, compiled for sea level on the day of its edition."""
    facts = read_book(find_book(book))
    day: datetime.date = facts.book.edition.known
    return compile_book(facts, Conditions(day, heat_per_flow(0.0), Quantity(Fraction(0), "m")))


def build_of(book: str, name: str) -> Build:
    """Return a build file that lies beside a bundled book."""
    return read_build(find_book(book) / "builds" / f"{name}.yaml")


def case_of(book: str, *builds: Build | str, **around: Any) -> Case:
    """Return a case of some builds, in the surroundings of the first with some numbers changed.

    Args:
        book: id of a bundled book.
        builds: builds, or names of build files of the book.
        around: fields of ``Surroundings``.
    """
    machine = machine_of(book)
    read = [build_of(book, each) if isinstance(each, str) else each for each in builds]
    rows = [codes_of(machine, build) for build in read]
    codes = {name: np.array([row[name] for row in rows]) for name in rows[0]}
    return Case(machine.frame, codes, replace(Surroundings.of(read[0].site), **around))
