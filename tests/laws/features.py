"""What a random book can have beside a bare machine, one function for each feature.

A feature changes a draft in place and returns the conditions it wrote into it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from hypothesis import strategies as st

from tests.laws.random_terms import Raw, Term, atoms

DATES = ("2031-05-01", "2031-08-15")


def bare() -> Raw:
    """Return a machine of one processor, one supply and one fan."""
    return {
        "book": {
            "id": "q1",
            "name": "Quill Q1",
            "maker": "Brackenmoor Works",
            "purpose": "small host made up for a test",
            "edition": "2031-07-01",
            "source": "sheet",
            "currency": "FLO",
        },
        "sources": {"sheet": {"title": "data sheet", "date": "2031-04-01"}},
        "chassis": {
            "form": "rack",
            "height": "1 U",
            "width": "434 mm",
            "depth": "520 mm",
            "mass_empty": "7 kg",
            "mass_most": "12 kg",
            "price": "1000 FLO",
        },
        "power": {
            "base": "20 W",
            "lines": {"low": _line("low", 100, 127)},
        },
        "processors": {"counts": [1]},
        "air": {
            "rise": "15 K",
            "inlet_limits": [{"limit": "35 °C"}],
            "derating": {"above": "900 m", "by": "1 K", "per": "300 m"},
        },
        "places": {
            "P1": {"type": "socket", "name": "processor 1"},
            "PS": {
                "type": "supplies",
                "name": "supplies",
                "positions": 1,
                "fitted": [{"count": 1}],
            },
            "F": {"type": "fans", "name": "fans", "positions": 1, "fitted": [{"count": 1}]},
        },
        "parts": {
            "cpu-a": {"kind": "processor", "name": "cpu a", "cores": 8, "tdp": "60 W"},
            "ps-a": {"kind": "supply", "name": "supply a", "ratings": {"low": "400 W"}},
            "fan-a": {"kind": "fan", "name": "fan a", "flow": "40 CFM", "power": "5 W"},
        },
    }


def _line(name: str, lowest: int, highest: int) -> Raw:
    volts = {"volts_from": f"{lowest} V", "volts_to": f"{highest} V"}
    return {"name": name, **volts, "current": "AC"}


def _maybe(draw: st.DrawFn, target: Raw, **fields: tuple[Any, ...]) -> None:
    """Give each field one of its values, or leave it out where ``None`` is drawn."""
    for field, values in fields.items():
        value = draw(st.sampled_from(values))
        if value is not None:
            target[field] = value


def _some(draw: st.DrawFn, values: list[Any], most: int | None = None) -> list[Any]:
    """Draw some of the values, at least one, in their order."""
    chosen = draw(st.lists(st.sampled_from(values), unique=True, min_size=1, max_size=most))
    return [value for value in values if value in chosen]


def _any(draw: st.DrawFn, values: list[Any]) -> list[Any]:
    return draw(st.lists(st.sampled_from(values), unique=True)) if values else []


def _of_type(raw: Raw, *types: str) -> list[str]:
    return [name for name, place in raw["places"].items() if place["type"] in types]


def _of_kind(raw: Raw, *kinds: str) -> list[str]:
    return [name for name, part in raw["parts"].items() if part["kind"] in kinds]


YES_NO = (None, "yes", "no")


def processors(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """More sockets, another model, lanes."""
    sockets = draw(st.integers(1, 3))
    for number in range(2, sockets + 1):
        raw["places"][f"P{number}"] = {"type": "socket", "name": f"processor {number}"}
    if sockets < 3 and draw(st.booleans()):
        cpu = {"kind": "processor", "name": "cpu b", "cores": 16, "tdp": "100 W"}
        raw["parts"]["cpu-b"] = cpu
    for name in _of_kind(raw, "processor"):
        _maybe(draw, raw["parts"][name], lanes=(None, 8, 16), memory_speed=(None, "4800 MT/s"))
    raw["processors"] = {"counts": _some(draw, list(range(1, sockets + 1)))}
    _maybe(draw, raw["processors"], identical=YES_NO)
    _maybe(draw, raw["power"], processor_conversion=(None, "0.9"))
    return []


def memory(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """Banks for some of the sockets, in any order, and rules of mixing."""
    for name in _some(draw, ["dimm-a", "dimm-b"]):
        module: Raw = {"kind": "memory", "name": name}
        _maybe(
            draw,
            module,
            size=("8 GB", "16 GB"),
            type=("registered", "unbuffered"),
            generation=("DDR4", "DDR5"),
            ranks=(None, 1, 2),
            speed=(None, "4000 MT/s"),
            power=(None, "6 W"),
        )
        raw["parts"][name] = module
    sockets = draw(st.permutations(_of_type(raw, "socket")))
    owners = sockets[: draw(st.integers(1, len(sockets)))]
    twice = owners if draw(st.integers(0, 4)) == 4 else []
    for socket in [*owners, *twice]:
        channels, depth = draw(st.sampled_from(((1, 1), (1, 2), (2, 1), (3, 1), (2, 2))))
        second = "b" if f"M{socket[1:]}" in raw["places"] else ""
        raw["places"][f"M{socket[1:]}{second}"] = {
            "type": "bank",
            "name": f"memory of {socket}",
            "owner": socket,
            "channels": channels,
            "per_channel": depth,
            "counts": _some(draw, list(range(1, channels * depth + 1))),
        }
    section = {"speeds": _speeds(draw)}
    _maybe(draw, section, one_size=YES_NO, same_everywhere=YES_NO, ranks_per_channel=(None, 2))
    raw["memory"] = section
    return []


def _speeds(draw: st.DrawFn) -> list[Raw]:
    entries = []
    for _ in range(draw(st.integers(0, 2))):
        entry: Raw = {"speed": draw(st.sampled_from(("5600 MT/s", "4800 MT/s")))}
        _maybe(draw, entry, per_channel=(None, 1, 2), size=(None, "8 GB"), ranks=(None, None, 2))
        entries.append(entry)
    return entries


def _slot(draw: st.DrawFn, raw: Raw, name: str, takes: list[str]) -> Raw:
    slot: Raw = {"type": "slot", "name": f"slot {name}", "takes": takes}
    _maybe(draw, slot, owner=(None, *_of_type(raw, "socket")))
    raw["places"][name] = slot
    return slot


def slots(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """Slots with limits, cards of several sizes, a row, a neighbour, a card always there."""
    cards = [_card(draw, raw, name) for name in _some(draw, ["card-a", "card-b"])]
    names = ["S1", "S2", "S3"][: draw(st.integers(1, 3))]
    for name in names:
        takes = draw(st.sampled_from((["card"], [cards[0]], cards, ["card", "network"])))
        slot = _slot(draw, raw, name, takes)
        _maybe(
            draw,
            slot,
            lanes=(None, 4, 8),
            length=(None, "half", "full"),
            height=(None, "low", "200 mm"),
            power=(None, "25 W"),
            slots=(None, 1, 2),
        )
        always = draw(st.sampled_from((None, None, *(c for c in cards if c in takes))))
        if always is not None:
            slot["always"] = always
    if len(names) == 1:
        _maybe(draw, raw["places"]["S1"], positions=(None, 1, 2, 3))
    elif draw(st.booleans()):
        raw["places"]["S1"]["neighbour"] = "S2"
    return []


def _card(draw: st.DrawFn, raw: Raw, name: str) -> str:
    card = {"kind": draw(st.sampled_from(("card", "card", "network"))), "name": name}
    _maybe(
        draw,
        card,
        lanes=(None, 4, 8),
        length=(None, "half", "full"),
        height=(None, "low", "full"),
        power=(None, "20 W", "40 W"),
        slot_power=(None, None, "25 W"),
        slots=(None, 1, 2),
    )
    raw["parts"][name] = card
    return name


def storage(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """Zones with cages and drives, some behind controllers."""
    drives = _some(draw, ["fast-a", "fast-b", "sas-a"], 2)
    for name in drives:
        drive = {"kind": "drive", "name": name, "interface": name[:-2], "capacity": "2 TB"}
        _maybe(draw, drive, power=(None, "9 W"))
        raw["parts"][name] = drive
    behind = draw(st.booleans())
    cages = [_cage(draw, raw, name, behind) for name in _some(draw, ["cage-a", "cage-b"])]
    controllers = _controllers(draw, raw) if behind else []
    for name in ["A", "B"][: draw(st.integers(1, 2))]:
        takes = draw(st.sampled_from((["cage"], cages, cages[:1])))
        zone = {"type": "zone", "name": f"zone {name}", "takes": takes}
        _maybe(draw, zone, owner=(None, *_of_type(raw, "socket")))
        zone["controllers"] = _any(draw, controllers)
        always = draw(st.sampled_from((None, None, None, cages[0])))
        if always is not None:
            zone["always"] = always
        raw["places"][name] = zone
    return []


def _cage(draw: st.DrawFn, raw: Raw, name: str, behind: bool) -> str:
    holds = draw(st.sampled_from((["fast"], ["sas"], ["fast", "sas"])))
    cage = {"kind": "cage", "name": name, "bays": draw(st.integers(1, 2)), "holds": holds}
    _maybe(draw, cage, mixed=YES_NO, filled=YES_NO, lanes_per_bay=(None, 2, 4))
    if behind:
        _maybe(draw, cage, connectors=(None, 1, 1, 2))
    raw["parts"][name] = cage
    return name


def _controllers(draw: st.DrawFn, raw: Raw) -> list[str]:
    for name in _some(draw, ["ctl-a", "ctl-b"]):
        part = {"kind": "controller", "name": name}
        part["holds"] = draw(st.sampled_from((["sas"], ["fast"], ["fast", "sas"])))
        _maybe(draw, part, drives_most=(None, 1, 2, 3), connectors=(None, 1, 2), lanes=(None, 4, 8))
        if draw(st.booleans()):
            part["flush"] = {"size": "8 GB", "rate": "0.25 GB/s", "power": "11 W"}
        raw["parts"][name] = part
    names = ["C1", "C2"][: draw(st.integers(1, 2))]
    for name in names:
        _slot(draw, raw, name, ["controller"])
    return names


def links(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """Lanes that slots and zones share, some behind a switch."""
    places = _of_type(raw, "slot", "zone")
    raw["links"] = {}
    for name in ("link-a", "link-b")[: draw(st.integers(1, 2))]:
        link = {
            "owner": draw(st.sampled_from(_of_type(raw, "socket"))),
            "lanes": draw(st.sampled_from((4, 8, 12))),
            "feeds": _any(draw, places),
        }
        _maybe(draw, link, switched=(None, None, "yes"))
        raw["links"][name] = link
    return []


def packs(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """Mounts of energy packs for the controllers of some slots, which may overlap."""
    names = _of_type(raw, "slot")
    if not _of_kind(raw, "controller"):
        flush = {"size": "8 GB", "rate": "0.25 GB/s", "power": "11 W"}
        raw["parts"]["ctl-c"] = {"kind": "controller", "name": "ctl-c", "flush": flush}
        names = ["C3", "C4", "C5"][: draw(st.integers(1, 3))]
        for name in names:
            _slot(draw, raw, name, ["ctl-c"])
    raw["parts"]["pack-a"] = {"kind": "pack", "name": "pack"}
    for name in ("K1", "K2", "K3")[: draw(st.integers(1, 3))]:
        serves = _some(draw, names)
        raw["places"][name] = {"type": "mount", "name": f"mount {name}", "serves": serves}
    return []


def supplies(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """Two lines, several supplies and counts, mixtures where the book allows them."""
    raw["power"]["lines"]["high"] = _line("high", 200, 240)
    _maybe(draw, raw["power"], base=("20 W", "100 W", "250 W"))
    for name in _some(draw, ["ps-b"]) if draw(st.booleans()) else []:
        raw["parts"][name] = {"kind": "supply", "name": name}
    for name in _of_kind(raw, "supply"):
        ratings: Raw = {}
        watts = ("120 W", "200 W", "400 W", "500 W")
        _maybe(draw, ratings, low=(None, *watts), high=watts)
        raw["parts"][name]["ratings"] = ratings
    bays = draw(st.integers(1, 4))
    place = raw["places"]["PS"]
    place["positions"] = bays
    place["fitted"] = [_carrying(draw, n) for n in _some(draw, list(range(1, bays + 1)))]
    _maybe(draw, place, identical=YES_NO)
    return []


def _carrying(draw: st.DrawFn, count: int) -> Raw:
    entry: Raw = {"count": count}
    some = tuple(range(1, count + 1))
    _maybe(draw, entry, legal=(None, *some), redundant=(None, *some))
    return entry


def air(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """Fans by condition, fans of two kinds, inlet limits by condition, altitude."""
    said: list[Term] = []
    always = draw(st.booleans())
    if draw(st.booleans()):
        raw["parts"]["fan-b"] = {"kind": "fan", "name": "fan b", "flow": "14 CFM", "power": "4 W"}
    _maybe(draw, raw["parts"]["fan-a"], flow=("12 CFM", "20 CFM", "40 CFM"))
    place = raw["places"]["F"]
    place["positions"] = draw(st.integers(1, 3))
    counts = st.integers(1, place["positions"])
    place["fitted"] = [_when(draw, raw, "count", draw(counts), said) for _ in range(2)]
    if always:  # a book whose conditions leave a build without any number has none legal there
        place["fitted"].append({"count": draw(counts)})
    limits = ("30 °C", "33 °C")
    raw["air"]["inlet_limits"] = [
        *(_when(draw, raw, "limit", draw(st.sampled_from(limits)), said) for _ in range(2)),
        {"limit": "36 °C"},
    ][draw(st.integers(0, 2)) :]
    _maybe(draw, raw["air"]["derating"], up_to=(None, "3050 m"))
    return said


def _when(draw: st.DrawFn, raw: Raw, field: str, value: object, said: list[Term]) -> Raw:
    entry: Raw = {field: value}
    if draw(st.booleans()):
        condition = draw(atoms(raw))
        said.append(condition)
        entry["when"] = condition.text
    return entry


def positions(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """Settings, and a position for something that takes a place."""
    for name in ("mode", "site")[: draw(st.integers(0, 2))]:
        raw.setdefault("settings", {})[name] = {"name": name, "values": {"one": "a", "two": "b"}}
    raw["parts"]["boot-a"] = {"kind": "boot", "name": "boot a", "mirrored": "no"}
    raw["parts"]["kit-a"] = {"kind": "kit", "name": "kit a", "price": "40 FLO"}
    takes = draw(st.sampled_from((["boot"], ["kit-a"], ["boot", "kit"])))
    place = {"type": "position", "name": "position", "takes": takes}
    _maybe(draw, place, positions=(None, 1, 2))
    if draw(st.sampled_from((False, False, True))):
        place["always"] = "boot-a" if "boot" in takes else "kit-a"
    raw["places"]["BOOT"] = place
    return []


def orders(draw: st.DrawFn, raw: Raw) -> list[Term]:
    """Prices, dates, limits per machine and parts that bring others."""
    _maybe(draw, raw["book"], ships=(None, *DATES))
    raw["parts"]["cable"] = {"kind": "kit", "name": "cable"}
    for part in raw["parts"].values():
        _maybe(draw, part, price=(None, "50 FLO", "120 FLO"))
    # What every machine needs is seldom limited, or few books would have a legal build.
    own = [part for part in raw["parts"] if part not in ("cpu-a", "ps-a", "fan-a")]
    limited = own if draw(st.integers(0, 3)) else list(raw["parts"])
    for name in _some(draw, limited, 3):
        field = draw(st.sampled_from(("ships", "last_order", "at_most", "at_most", "brings")))
        if field == "at_most":
            raw["parts"][name][field] = draw(st.integers(0, 2))
        elif field == "brings" and name != "cable":
            raw["parts"][name][field] = {"cable": draw(st.integers(1, 2))}
        elif field != "brings":
            raw["parts"][name][field] = draw(st.sampled_from(DATES))
    return []


FEATURES: Mapping[str, Callable[[st.DrawFn, Raw], list[Term]]] = {
    feature.__name__: feature
    for feature in (
        processors,
        memory,
        slots,
        storage,
        links,
        packs,
        supplies,
        air,
        positions,
        orders,
    )
}
"""Every feature by its name."""
