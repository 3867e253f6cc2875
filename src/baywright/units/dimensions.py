"""The kinds of amount the package knows, and the spellings of their units."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit of one dimension.

    Args:
        spelling: how the package writes it.
        definition: its size, an expression over the names in ``definitions.txt``.
        aliases: other spellings that are accepted.
    """

    spelling: str
    definition: str
    aliases: tuple[str, ...] = ()

    @property
    def spellings(self) -> tuple[str, ...]:
        """Every accepted spelling, the package's own first."""
        return (self.spelling, *self.aliases)


@dataclass(frozen=True, slots=True)
class Dimension:
    """A kind of amount. Amounts are compared and converted within one dimension only.

    Args:
        name: identity, such as ``power``.
        phrase: what one such amount is called in a sentence, with its article.
        example: an amount of this kind, as a person writes it.
        units: its units; the first is the canonical one.
    """

    name: str
    phrase: str
    example: str
    units: tuple[Unit, ...]

    @property
    def canonical(self) -> str:
        """Spelling of the unit in which amounts of this kind are compared."""
        return self.units[0].spelling

    def unit(self, spelling: str) -> Unit | None:
        """Return the unit with that spelling or alias, or ``None``."""
        return next((unit for unit in self.units if spelling in unit.spellings), None)


def _plain(*spellings: str) -> tuple[Unit, ...]:
    """Units whose spelling is also their definition."""
    return tuple(Unit(spelling, spelling) for spelling in spellings)


_TABLE = (
    Dimension(
        "power",
        "a power",
        "1300 W",
        (*_plain("W", "kW", "mW"), Unit("BTU/h", "british_thermal_unit / hour")),
    ),
    Dimension(
        "apparent_power",
        "an apparent power",
        "1500 VA",
        (Unit("VA", "volt * ampere"), Unit("kVA", "kilovolt * ampere")),
    ),
    Dimension(
        "energy",
        "an energy",
        "600 J",
        (
            *_plain("J", "kJ", "MJ"),
            Unit("Wh", "watthour"),
            Unit("kWh", "kilowatthour"),
            Unit("MWh", "megawatthour"),
        ),
    ),
    Dimension("voltage", "a voltage", "230 V", _plain("V", "mV", "kV")),
    Dimension("current", "a current", "16 A", _plain("A", "mA")),
    Dimension(
        "resistance",
        "a resistance",
        "5 mΩ",
        (
            Unit("Ω", "ohm", ("ohm", "\N{OHM SIGN}")),
            Unit("mΩ", "milliohm", ("mohm",)),
        ),
    ),
    Dimension(
        "capacitance", "a capacitance", "18 F", (*_plain("F", "mF"), Unit("µF", "µF", ("uF",)))
    ),
    Dimension(
        "charge",
        "a charge",
        "7 Ah",
        (Unit("Ah", "ampere * hour"), Unit("mAh", "milliampere * hour")),
    ),
    Dimension(
        "length",
        "a length",
        "760 mm",
        (
            *_plain("mm", "cm", "m"),
            Unit("in", "inch"),
            Unit("ft", "foot"),
            Unit("U", "rack_unit"),
            Unit("µm", "µm", ("\N{GREEK SMALL LETTER MU}m", "um")),
        ),
    ),
    Dimension(
        "area",
        "an area",
        "520 cm²",
        (
            Unit("mm²", "millimeter ** 2", ("mm2",)),
            Unit("cm²", "centimeter ** 2", ("cm2",)),
            Unit("m²", "meter ** 2", ("m2",)),
        ),
    ),
    Dimension(
        "volume",
        "a volume",
        "2 m³",
        (Unit("m³", "meter ** 3", ("m3",)), Unit("L", "liter", ("l",))),
    ),
    Dimension("angle", "an angle", "90 °", (Unit("°", "degree", ("deg",)),)),
    Dimension("mass", "a mass", "31 kg", (*_plain("g", "kg"), Unit("lb", "pound"))),
    Dimension("force", "a force", "20 N", _plain("N")),
    Dimension("torque", "a torque", "1.2 N·m", (Unit("N·m", "newton * meter", ("Nm",)),)),
    Dimension(
        "density",
        "a density",
        "1.2 kg/m³",
        (Unit("kg/m³", "kilogram / meter ** 3", ("kg/m3",)),),
    ),
    Dimension(
        "time",
        "a time",
        "90 s",
        (
            *_plain("s", "ms"),
            Unit("µs", "µs", ("\N{GREEK SMALL LETTER MU}s", "us")),
            Unit("min", "minute", ("minute", "minutes")),
            Unit("h", "hour", ("hour", "hours")),
            Unit("d", "day", ("day", "days")),
            Unit("weeks", "week", ("week",)),
            Unit("years", "year", ("year",)),
        ),
    ),
    Dimension(
        "temperature",
        "a temperature",
        "35 °C",
        (
            Unit("°C", "degree_celsius", ("degC", "\N{DEGREE CELSIUS}")),
            Unit("°F", "degree_fahrenheit", ("degF", "\N{DEGREE FAHRENHEIT}")),
        ),
    ),
    Dimension("temperature_difference", "a temperature difference", "15 K", _plain("K")),
    Dimension(
        "flow",
        "a flow of air",
        "32 CFM",
        (
            Unit("CFM", "cubic_foot_per_minute", ("cfm",)),
            Unit("m³/h", "meter ** 3 / hour", ("m3/h",)),
            Unit("m³/s", "meter ** 3 / second", ("m3/s",)),
        ),
    ),
    Dimension("speed", "a speed", "2 m/s", (Unit("m/s", "meter / second"),)),
    Dimension(
        "pressure",
        "a pressure",
        "250 Pa",
        (*_plain("Pa", "kPa"), Unit("inH2O", "inch_of_water", ("inH₂O",))),
    ),
    # Drives are sold in decimal units, memory modules in binary ones under the same names.
    Dimension(
        "capacity",
        "a data capacity",
        "960 GB",
        _plain("B", "kB", "MB", "GB", "TB", "PB", "KiB", "MiB", "GiB", "TiB"),
    ),
    Dimension(
        "memory",
        "an amount of memory",
        "64 GB",
        (
            Unit("GB", "gibibyte"),
            Unit("TB", "tebibyte"),
            Unit("MB", "mebibyte"),
            *_plain("MiB", "GiB", "TiB"),
        ),
    ),
    Dimension(
        "endurance",
        "a write endurance",
        "320 TBW",
        (Unit("TBW", "terabyte"), Unit("PBW", "petabyte")),
    ),
    Dimension(
        "data_rate",
        "a data rate",
        "25 Gb/s",
        (
            Unit("b/s", "b / s", ("bit/s",)),
            Unit("kb/s", "kb / s", ("kbit/s",)),
            Unit("Mb/s", "Mb / s", ("Mbit/s",)),
            Unit("Gb/s", "Gb / s", ("Gbit/s",)),
            Unit("Tb/s", "Tb / s", ("Tbit/s",)),
            Unit("B/s", "B / s"),
            Unit("kB/s", "kB / s"),
            Unit("MB/s", "MB / s"),
            Unit("GB/s", "GB / s"),
            Unit("TB/s", "TB / s"),
        ),
    ),
    Dimension(
        "transfer_rate",
        "a transfer rate",
        "4800 MT/s",
        (Unit("MT/s", "megatransfer / second"), Unit("GT/s", "gigatransfer / second")),
    ),
    Dimension("io_rate", "a rate of I/O", "500 IO/s", (Unit("IO/s", "1 / second", ("IOPS",)),)),
    Dimension("frequency", "a frequency", "50 Hz", _plain("Hz", "kHz", "MHz", "GHz")),
    Dimension("rotation", "a speed of rotation", "9000 rpm", (Unit("rpm", "revolution / minute"),)),
    Dimension("sound", "a sound level", "48 dB(A)", (Unit("dB(A)", "decibel", ("dBA",)),)),
    Dimension("ratio", "a percentage", "90 %", (Unit("%", "percent"),)),
)

DIMENSIONS: Mapping[str, Dimension] = MappingProxyType({entry.name: entry for entry in _TABLE})
"""Every dimension but money by its name. Where units share a spelling, the earlier one wins."""
