"""Figures and limits of a sheet by key, for the tests of air and noise."""

from __future__ import annotations

from typing import Any

import numpy as np

from baywright.facts.book import Book
from baywright.facts.build import Build
from baywright.facts.fact import Fact
from baywright.facts.site import Room, Site
from baywright.files.books import find_book, read_book
from baywright.laws.builds import codes_of
from baywright.laws.conditions import Conditions
from baywright.laws.machine import Machine, compile_book
from baywright.sizing.air.flow import heat_per_flow
from baywright.sizing.air.sheet import sheet
from baywright.sizing.case import Case, Surroundings
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Limit
from baywright.units import parse


def figures_of(case: Case) -> dict[str, Figure]:
    """Return every figure, those of limits included, without the name of the part."""
    found = sheet(case)
    every = (*found.figures, *(limit.figure for limit in found.limits))
    return {figure.key.removeprefix("air."): figure for figure in every}


def limits_of(case: Case) -> dict[str, Limit]:
    """Return every limit by the key of its figure, without the name of the part."""
    return {limit.figure.key.removeprefix("air."): limit for limit in sheet(case).limits}


def value(case: Case, key: str) -> float:
    """Return the number of the first build."""
    return figures_of(case)[key].value


def room(case: Case, key: str) -> Reals:
    """Return what is left of a limit, one number for each build or step of a sweep."""
    return np.ravel(limits_of(case)[key].room)


def without(book: Book, *fields: str) -> Book:
    """Return a book that does not state some facts of cooling."""
    empty: dict[str, Any] = {name: [] if name == "resistance" else None for name in fields}
    return book.model_copy(update={"air": book.air.model_copy(update=empty)})


def with_fan(book: Book, **facts: Fact[Any] | list[Any] | None) -> Book:
    """Return a book whose part ``fan`` has other facts."""
    fan = book.parts["fan"].model_copy(update=facts)
    return book.model_copy(update={"parts": {**book.parts, "fan": fan}})


def bundled(name: str) -> Book:
    """Return the facts of a bundled book."""
    return read_book(find_book(name))


def compiled(book: Book) -> Machine:
    """Return a book compiled for sea level on the day of its edition."""
    conditions = Conditions(book.book.edition.known, heat_per_flow(0.0), parse("0 m"))
    return compile_book(book, conditions)


def case_from(machine: Machine, build: Build) -> Case:
    """Return the case of one build at its site."""
    codes = {name: np.array([code]) for name, code in codes_of(machine, build).items()}
    return Case(machine.frame, codes, Surroundings.of(build.site))


def in_room(case: Case, **facts: str) -> Case:
    """Return the same builds in a room of which some facts are known, as written."""
    surroundings = case.around
    site = Site.model_validate({"room": facts})
    return case.amid(
        Surroundings(
            surroundings.volts,
            surroundings.altitude,
            surroundings.inlet,
            surroundings.extra,
            surroundings.site.model_copy(update={"room": site.room or Room()}),
        )
    )
