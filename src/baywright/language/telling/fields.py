"""Fields of a book by the words and the units people use for them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.language.stated import Stated
from baywright.units import Quantity


@dataclass(frozen=True, slots=True)
class Field:
    """A field that statements are made about.

    Args:
        dimension: dimension of its amount; empty for plain numbers.
        path: where it stands in the book, or in a part.
        kinds: kinds of part it is a field of; those of the machine have none.
        usual: whether these parts are meant where none are named.
    """

    dimension: str
    path: str
    kinds: tuple[str, ...] = ()
    usual: bool = True


_CARDS = ("accelerator", "card", "controller", "network")
_ANY = ("processor", "memory", "drive", "cage", "supply", "fan", "network", "controller", "pack",
        "accelerator", "boot", "display", "media", "card")  # fmt: skip

FIELDS: Mapping[str, Field] = {
    "depth": Field("length", "chassis.depth"),
    "height": Field("length", "chassis.height"),
    "width": Field("length", "chassis.width"),
    "width_over_ears": Field("length", "chassis.width_over_ears"),
    "rails_from": Field("length", "chassis.rails_from"),
    "rails_to": Field("length", "chassis.rails_to"),
    "slide_travel": Field("length", "chassis.slide_travel"),
    "mass_empty": Field("mass", "chassis.mass_empty"),
    "mass_most": Field("mass", "chassis.mass_most"),
    "noise_idle": Field("sound", "air.noise_idle"),
    "noise_full": Field("sound", "air.noise_full"),
    "rise": Field("temperature_difference", "air.rise"),
    "cover_off": Field("time", "air.cover_off"),
    "grille": Field("area", "air.grille"),
    "grille_open": Field("ratio", "air.grille_open"),
    "base": Field("power", "power.base"),
    "side_by_side": Field("", "chassis.side_by_side"),
    "hold_up": Field("time", "hold_up", ("supply",)),
    "inrush": Field("current", "inrush", ("supply",)),
    "inrush_time": Field("time", "inrush_time", ("supply",)),
    "leakage": Field("current", "leakage", ("supply",)),
    "inlet_current": Field("current", "inlet_current", ("supply",)),
    "power_factor": Field("", "power_factor", ("supply",)),
    "rating": Field("power", "ratings", ("supply",)),
    "efficiency": Field("ratio", "efficiency", ("supply",)),
    "tdp": Field("power", "tdp", ("processor",)),
    "flow": Field("flow", "flow", ("fan",)),
    "life": Field("time", "life", ("pack",)),
    "capacitance": Field("capacitance", "capacitance", ("pack",)),
    "usable": Field("ratio", "usable", ("pack",)),
    "full": Field("voltage", "full", ("pack",)),
    "empty": Field("voltage", "empty", ("pack",)),
    "flush_size": Field("capacity", "flush.size", ("controller",)),
    "flush_rate": Field("data_rate", "flush.rate", ("controller",)),
    "flush_power": Field("power", "flush.power", ("controller",)),
    "rate_most": Field("data_rate", "rate_most", ("controller",), usual=False),
    "endurance": Field("endurance", "endurance", ("boot", "drive"), usual=False),
    "capacity": Field("capacity", "capacity", ("boot", "drive", "media"), usual=False),
    "price": Field("money", "price", _ANY, usual=False),
    "part_mass": Field("mass", "mass", _ANY, usual=False),
    "failure_rate": Field("ratio", "failure_rate", _ANY, usual=False),
    "power": Field("power", "power", _ANY, usual=False),
    "port_speed": Field("data_rate", "speed", ("network",), usual=False),
    "fan_speed": Field("rotation", "speed", ("fan",), usual=False),
    "media_rate": Field("data_rate", "rate", ("media",), usual=False),
    "read_rate": Field("data_rate", "read_rate", ("drive",), usual=False),
    "write_rate": Field("data_rate", "write_rate", ("drive",), usual=False),
    "surge": Field("power", "surge", ("accelerator",), usual=False),
    "surge_time": Field("time", "surge_time", ("accelerator",), usual=False),
    "slot_power": Field("power", "slot_power", _CARDS, usual=False),
    "drives_most": Field("", "drives_most", ("controller",), usual=False),
    "chips": Field("", "chips", ("network",), usual=False),
    "card_lanes": Field("", "lanes", _CARDS, usual=False),
    "media": Field("", "media", ("boot",), usual=False),
}
"""Fields by name."""

SAID: Mapping[str, tuple[str, ...]] = {
    "flush_rate": ("flush_rate", "flush_power"), "mass": ("part_mass",), "noise": (),
    "speed": ("port_speed", "fan_speed", "media_rate"), "lanes": ("card_lanes",),
    "inrush": ("inrush", "inrush_time"), "life": ("life",), "voltages": ("full", "empty"),
    "power": ("power",), "surge": ("surge", "surge_time"),
}  # fmt: skip
"""Fields that one word may mean; which of them, its owner and the unit tell."""

ALONE: Mapping[tuple[str, str], str] = {
    ("fan", "flow"): "flow", ("fan", "rotation"): "fan_speed", ("processor", "power"): "tdp",
    ("supply", "power"): "rating", ("supply", "current"): "inlet_current",
    ("pack", "capacitance"): "capacitance",
    ("pack", "time"): "life", ("pack", "voltage"): "full", ("network", "data_rate"): "port_speed",
    ("drive", "capacity"): "capacity",
    ("boot", "capacity"): "capacity", ("media", "capacity"): "capacity",
    ("boot", "endurance"): "endurance",
    ("drive", "endurance"): "endurance", ("media", "data_rate"): "media_rate",
    ("accelerator", "power"): "power", ("card", "power"): "power", ("drive", "power"): "power",
    ("controller", "power"): "power", ("network", "power"): "power", ("fan", "power"): "power",

}  # fmt: skip
"""The field of a kind of part that an amount without a word for it speaks of."""


def machine_field(book: Book, field: Field) -> list[Stated]:
    """Return what a book states of the machine."""
    return stated_fact(field.path, resolved(book, field.path), book.book.name)


def part_field(book: Book, field: Field, parts: Sequence[str]) -> list[Stated]:
    """Return what a book states of some parts."""
    found: list[Stated] = []
    for name in parts:
        part = book.parts[name]
        held = resolved(part, field.path)
        found += stated_fact(f"parts.{name}.{field.path}", held, part.name)
    return found


def stated_fact(path: str, held: object, owner: str) -> list[Stated]:
    """Return a fact as what is stated; nothing where there is none."""
    if isinstance(held, Fact):
        return [Stated(path, _plain(held.value), owner, (held,))] if held.value is not None else []
    return [Stated(path, str(held), owner)] if isinstance(held, str) and held else []


def _plain(value: object) -> Quantity | Fraction | str:
    """Return a value as it is compared: numbers as fractions, yes and no as words."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int):
        return Fraction(value)
    return value if isinstance(value, Quantity | Fraction) else str(value)


def resolved(held: object, path: str) -> object:
    """Return what stands at a path of fields, or ``None``."""
    for name in path.split("."):
        held = getattr(held, name, None)
    return held
