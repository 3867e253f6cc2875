"""Blanks that follow from a build of the demo."""

from __future__ import annotations

import itertools

import pytest

from baywright.desk.opening import open_book
from baywright.files.books import bundled_books, read_build
from baywright.laws.blanks import blank_parts, blank_totals, blanks
from baywright.laws.builds import codes_of

# From the demo scenario: empty bays and unused zones need blanks. N2 has one cage with eight
# drives and two unused zones; N5's F1 has five drives in eight bays and one unused zone; N3 has
# eight accelerators in eight places; the P1 of N1 has two drives in two bays.
BUILDS = [
    ("f2", "n2", {"blank-zone": 2}),
    ("f2", "n4", {}),
    ("f1", "n5-owned", {"blank-bay": 3, "blank-zone": 1}),
    ("f1", "n5-wanted", {"blank-bay": 4}),
]


@pytest.mark.parametrize(("book", "build", "expected"), BUILDS)
def test_blanks_follow_from_what_is_empty(book: str, build: str, expected: dict[str, int]) -> None:
    machine = open_book(book).machine
    codes = codes_of(machine, read_build(bundled_books()[book] / "builds" / f"{build}.yaml"))
    assert blanks(machine, codes) == expected


def test_empty_accelerator_places_need_one_blank_each() -> None:
    machine = open_book("l4").machine
    codes = codes_of(machine, read_build(bundled_books()["l4"] / "builds" / "n3.yaml"))
    free = sum(codes[place] == 0 for place in ("X1", "X2"))
    assert free == 0
    assert blanks(machine, codes | {"X1": 0})["blank-place"] == 4


def test_what_closes_something_is_known() -> None:
    assert blank_parts(open_book("p1").book) == {"blank-bay", "blank-media"}
    assert blank_parts(open_book("f2").book) == {"blank-bay", "blank-zone"}


@pytest.mark.parametrize("book", ["f1", "f2", "p1", "l4"])
def test_totals_are_what_builds_need(book: str) -> None:
    machine, panel = open_book(book).machine, open_book(book).panel
    totals = blank_totals(machine)
    rows = panel.prover.each(machine.space, tuple(c.name for c in machine.space.choices))
    for row in itertools.islice(rows, 50):
        values = {c.name: at for c, at in zip(machine.space.choices, row, strict=True)}
        found = {name: int(total.value(values)) for name, total in totals.items()}
        assert {name: number for name, number in found.items() if number} == blanks(machine, values)
