"""Checking a book: what it holds, what nobody knows yet, and what can never be used."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from baywright.desk.opening import Opened
from baywright.facts.book import facts_of
from baywright.facts.citation import Citation
from baywright.laws.machine import Machine


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check of a book found.

    Args:
        book: id of the book.
        name: name of the machine.
        as_of: the day it was checked for, in ISO form.
        facts: how many facts it states.
        sources: how many sources it names.
        places: how many places it has.
        parts: how many parts it has.
        choices: choices of the compiled space that are not derived.
        laws: laws and rules of the compiled space.
        unknown: facts whose value nobody has stated yet.
        buildable: whether some legal build exists.
        never_fitted: parts that no legal build has on that day.
        never_filled: places that stay empty in every legal build.
        status: what the machine is on that day.
    """

    book: str
    name: str
    as_of: str
    facts: int
    sources: int
    places: int
    parts: int
    choices: int
    laws: int
    unknown: tuple[Citation, ...]
    buildable: bool
    never_fitted: tuple[str, ...]
    never_filled: tuple[str, ...]
    status: str


def check(opened: Opened) -> Checked:
    """Check an open book; reading and compiling it has already found its problems."""
    book, machine = opened.book, opened.machine
    inquiry = opened.inquiry()
    buildable = inquiry.possible(machine.space) is not None
    left = inquiry.options(machine.space) if buildable else {}
    return Checked(
        book.book.id,
        book.book.name,
        opened.as_of.isoformat(),
        sum(1 for _ in facts_of(book)),
        len(book.sources),
        len(book.places),
        len(book.parts),
        sum(1 for choice in machine.space.choices if not choice.derived),
        len(machine.space.origins),
        book.cite(*opened.unknown.values()),
        buildable,
        tuple(_never_fitted(machine, left)) if buildable else (),
        tuple(_never_filled(machine, left)) if buildable else (),
        opened.status.word,
    )


def _never_fitted(machine: Machine, left: Mapping[str, frozenset[int]]) -> Iterator[str]:
    fitted = {
        part
        for name, fitting in machine.frame.fittings.items()
        for index in left[name]
        for part, _, _ in machine.frame.parts_in(fitting.options[index])
    }
    for name, part in machine.book.parts.items():
        if part.kind != "kit" and name not in fitted:
            yield name


def _never_filled(machine: Machine, left: Mapping[str, frozenset[int]]) -> Iterator[str]:
    for place in machine.book.places:
        options = [
            machine.frame.options(name)[index]
            for name in machine.frame.at(place)
            for index in left[name]
        ]
        if not any(option.parts for option in options):
            yield place
