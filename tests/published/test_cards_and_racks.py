"""Sizes and powers of cards and racks that the laws and the demo books use."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from baywright.facts.parts import OtherCard
from baywright.files.books import BUNDLED, read_book
from baywright.units import parse
from tests.laws.features import bare
from tests.laws.random_books import SEA_LEVEL, sample


@pytest.mark.parametrize(
    ("field", "word", "millimetres"),
    [
        ("length", "half", "167.65"),
        ("length", "full", "312"),
        ("height", "low", "68.9"),
        ("height", "full", "111.15"),
    ],
)
def test_a_card_size_by_name(field: str, word: str, millimetres: str) -> None:
    """PCI Express Card Electromechanical Specification: half length 167.65, full length 312.00,
    low profile 68.90, full height 111.15 mm; read in a text that quotes it. Exact."""
    card = OtherCard.model_validate({"kind": "card", "name": "card", field: word})
    assert getattr(card, field).known.to("mm") == Fraction(millimetres)


def fits(card: dict[str, Any], slot: dict[str, Any]) -> bool:
    """Whether a card is legal in a slot, every other thing the same."""
    raw = bare()
    raw["parts"]["card-a"] = {"kind": "card", "name": "card", **card}
    raw["places"]["S1"] = {"type": "slot", "name": "slot", "takes": ["card"], **slot}
    book = sample(raw, SEA_LEVEL, {})
    return any(book.subject(values).built.count("S1") for values in book.legal())


@pytest.mark.parametrize(
    ("card", "true"),
    [
        ({"power": "75 W"}, True),
        ({"power": "75.1 W"}, False),
        ({"power": "150 W", "slot_power": "75 W"}, True),
        ({"power": "150 W"}, False),
    ],
)
def test_a_slot_gives_75_watts_and_cables_give_the_rest(card: dict[str, str], true: bool) -> None:
    """The same specification: up to 75 W from an x16 slot, more over cables (6-pin 75 W, 8-pin
    150 W); read in a text that quotes it. Exact."""
    assert fits(card, {"power": "75 W"}) == true


@pytest.mark.parametrize(
    ("connector", "slot", "true"), [(1, 16, True), (8, 16, True), (16, 16, True), (16, 8, False)]
)
def test_a_card_goes_into_a_wider_connector_and_not_into_a_narrower(
    connector: int, slot: int, true: bool
) -> None:
    """The same specification lets a card plug into a connector of its width or wider; that is from
    memory. A closed connector takes no wider card: common practice, no source."""
    assert fits({"lanes": connector}, {"lanes": slot}) == true


@pytest.mark.parametrize("name", ["f1", "f2"])
def test_every_riser_slot_of_the_demo_has_the_power_of_the_specification(name: str) -> None:
    """75 W for an x16 slot, as above; the books state it for each slot of their risers."""
    places = read_book(BUNDLED / name).places
    powers = [
        place.power
        for slot, place in places.items()
        if slot.startswith("R") and place.type == "slot"
    ]
    assert powers
    assert all(power is not None and power.known == parse("75 W") for power in powers)


def test_a_rack_unit_and_the_width_of_a_panel() -> None:
    """EIA-310: 1 U is 44.45 mm, read in a file of a public package (the Redfish Chassis schema); a
    panel is 482.6 mm wide, read in a text that quotes it. Exact, both being inches."""
    assert parse("1 U").to("mm") == Fraction("44.45")
    width = read_book(BUNDLED / "f2").chassis.width_over_ears
    assert width is not None
    assert width.known.to("mm") == Fraction("482.6") == parse("19 in").to("mm")
