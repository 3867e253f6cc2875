"""The customers' builds and the ready-made models name what their books have."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from baywright.facts.build import Build
from baywright.facts.parts import Part, Processor
from baywright.facts.references import check_build
from baywright.files.books import read_build

from .demo import BUILDS, book, build, parts_of

every_build = pytest.mark.parametrize("path", BUILDS, ids=lambda path: path.stem)


def draw_of(part: Part, conversion: Fraction) -> Fraction:
    if isinstance(part, Processor):
        return part.tdp.known.canonical / conversion
    return part.power.known.canonical if part.power else Fraction(0)


def draw(built: Build) -> Fraction:
    """Return the peak draw of a build in watts, added up by hand."""
    power = book(built.book).power
    assert power.processor_conversion
    conversion, parts = power.processor_conversion.known, book(built.book).parts
    drawn = (draw_of(parts[name], conversion) * n for name, n in parts_of(built).items())
    return power.base.known.canonical + sum(drawn)


def mass(built: Build) -> Fraction:
    """Return the mass of a build in grams."""
    held = book(built.book)
    masses = {name: part.mass.known.to("g") for name, part in held.parts.items() if part.mass}
    fitted = sum(masses[name] * count for name, count in parts_of(built).items())
    return held.chassis.mass_empty.known.to("g") + fitted


@every_build
def test_it_names_what_its_book_has(path: Path) -> None:
    built = read_build(path)
    assert check_build(built, book(built.book)) == []


@every_build
def test_it_says_what_is_in_every_place(path: Path) -> None:
    built = read_build(path)
    assert set(built.places) == set(book(built.book).places)
    assert set(built.settings) == set(book(built.book).settings)


@every_build
def test_it_is_no_heavier_than_its_machine_may_be(path: Path) -> None:
    built = read_build(path)
    assert mass(built) <= book(built.book).chassis.mass_most.known.to("g")


def test_the_record_office_asks_for_1159_watts() -> None:
    # The scenario fixes this number: two controllers, O1 only.
    assert draw(build("n4")) == 1159


def test_the_college_asks_for_more_than_one_of_its_supplies_carries() -> None:
    # 42 + 2 × 150 / 0.9 + 12 × 7 + 12 × 12 + 16 + 18 + 6 × 20 + 75, all of the scenario
    assert draw(build("n5-wanted")) == Fraction(2497, 3)


# What the scenario says the customers have or ask for.
ASKED = [
    ("n1", {"sata-1920": 2, "cartridge": 1}),
    ("n3", {"accel-350": 8}),
    ("n4", {"cpu-32": 2, "dimm-64": 16, "sas-2400": 24, "C16": 2, "ps-1300": 2}),
    (
        "n5-owned",
        {"cpu-16": 1, "dimm-16": 6, "sas-1200": 5, "S8i": 1, "ps-750": 2, "fan": 4},
    ),
    ("n5-wanted", {"cpu-16": 2, "sas-1200": 12, "accel-sw": 1, "ps-750": 2}),
]


@pytest.mark.parametrize(("name", "parts"), ASKED)
def test_a_build_has_what_was_asked_for(name: str, parts: dict[str, int]) -> None:
    fitted = parts_of(build(name))
    assert {part: fitted[part] for part in parts} == parts


# What the scenario says of each model, with the network module that is always there.
MODELS = {
    "F2-a": {"cpu-16": 1, "dimm-32": 2, "S8": 1, "C16": 1, "ps-800": 2, "fan": 4, "net-25": 1},
    "F2-b": {"cpu-24": 2, "dimm-32": 16, "N8": 2, "ps-1300": 2, "fan": 6, "net-25": 1},
    "F2-c": {
        "cpu-32": 2,
        "dimm-64": 16,
        "N8": 1,
        "display": 1,
        "ps-1300": 2,
        "fan": 6,
        "net-25": 1,
    },
}


@pytest.mark.parametrize("model", MODELS)
def test_a_ready_made_model_has_exactly_its_parts(model: str) -> None:
    assert parts_of(book("f2").models[model]) == MODELS[model]
