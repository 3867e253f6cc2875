"""Random conditions about a machine, each with what it says of a plain build."""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from baywright.facts.parts import MemoryModule, Processor
from tests.laws.plain import Predicate, Subject

Raw = dict[str, Any]
"""A book as it is written, before it is read."""

COMPARISONS: Mapping[str, Callable[[Any, Any], bool]] = {
    "==": operator.eq,
    "!=": operator.ne,
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
}


@dataclass(frozen=True)
class Term:
    """An expression and its meaning.

    Args:
        text: the expression.
        says: whether it holds in a build.
    """

    text: str
    says: Predicate


@dataclass(frozen=True)
class Number:
    """An expression with a value, and its value in a build.

    Args:
        text: the expression.
        value: its value in a build, in the unit in which it is compared.
        unit: that unit, or nothing for plain numbers.
        near: numbers it is often near.
    """

    text: str
    value: Callable[[Subject], Fraction | int]
    unit: str
    near: tuple[int, ...]


def _count(wanted: str, place: str = "") -> Number:
    quoted = f'"{wanted}"' if "-" in wanted else wanted
    text = f"count({quoted}, at={place})" if place else f"count({quoted})"
    places = (place,) if place else ()
    return Number(text, lambda s: s.number(wanted, *places), "", (0, 1, 2, 3))


LOAD = Number("load", lambda s: s.load, "W", (100, 180, 250, 320, 400, 500))
PRICE = Number("price", lambda s: s.price, "FLO", (1050, 1120, 1200, 1300))


def _cores(s: Subject) -> int:
    return sum(n * part.cores.known for _, part, n in s.fitted() if isinstance(part, Processor))


def _memory(s: Subject) -> Fraction:
    sizes = ((part.size.known, n) for _, part, n in s.fitted() if isinstance(part, MemoryModule))
    return sum((n * size.to("GB") for size, n in sizes), Fraction(0))


CORES = Number("total(cores, processor)", _cores, "", (8, 16, 24))
MEMORY = Number("memory", _memory, "GB", (0, 8, 16, 32, 48))


def numbers(raw: Raw) -> list[Number]:
    """Return every number that a draft of a book can be asked for."""
    kinds = list(dict.fromkeys(part["kind"] for part in raw["parts"].values()))
    counts = [_count(kind) for kind in kinds] + [_count(part) for part in raw["parts"]]
    in_places = [_count(kind, place) for place, kind in _held(raw)]
    extra = [MEMORY] if any(part["kind"] == "memory" for part in raw["parts"].values()) else []
    return [*counts, *in_places, LOAD, LOAD, PRICE, CORES, *extra]


def _held(raw: Raw) -> list[tuple[str, str]]:
    """Places with a kind of part they may hold."""
    found = {"zone": "drive", "slot": "controller", "supplies": "supply", "socket": "processor"}
    kinds = {part["kind"] for part in raw["parts"].values()}
    return [
        (name, found[place["type"]])
        for name, place in raw["places"].items()
        if found.get(place["type"]) in kinds
    ]


@st.composite
def comparisons(draw: st.DrawFn, raw: Raw) -> Term:
    """A number against a fixed one."""
    number = draw(st.sampled_from(numbers(raw)))
    op = draw(st.sampled_from(sorted(COMPARISONS)))
    bound = draw(st.sampled_from(number.near))
    fixed = f"{bound} {number.unit}".strip()
    return Term(f"{number.text} {op} {fixed}", lambda s: COMPARISONS[op](number.value(s), bound))


@st.composite
def contents(draw: st.DrawFn, raw: Raw) -> Term:
    """A place against a part or against nothing."""
    place = draw(st.sampled_from(list(raw["places"])))
    fitting = [part for part in raw["parts"] if _could_hold(raw, place, part)]
    part = draw(st.sampled_from([*fitting, "empty"]))
    same = draw(st.booleans())
    op = "==" if same else "!="
    if part == "empty":
        return Term(f"{place} {op} empty", lambda s: (not s.built.count(place)) == same)
    return Term(f'{place} {op} "{part}"', lambda s: (part in s.built.parts[place]) == same)


def _could_hold(raw: Raw, place: str, part: str) -> bool:
    kinds = {"socket": "processor", "bank": "memory", "mount": "pack"}
    held, kind = raw["places"][place], raw["parts"][part]["kind"]
    usual = {"supplies": "supply", "fans": "fan"}.get(held["type"], kinds.get(held["type"]))
    takes = held.get("takes", [usual])
    return part in takes or kind in takes


@st.composite
def choices_made(draw: st.DrawFn, raw: Raw) -> Term:
    """A setting or the line against one of its values."""
    named = {**{n: s["values"] for n, s in raw.get("settings", {}).items()}}
    name = draw(st.sampled_from(["line", *named]))
    value = draw(st.sampled_from(list(raw["power"]["lines"] if name == "line" else named[name])))
    if name == "line":
        return Term(f'line == "{value}"', lambda s: s.built.line == value)
    return Term(f'{name} == "{value}"', lambda s: s.built.settings[name] == value)


def redundant_supplies(s: Subject) -> bool:
    """Whether the supplies carry the load when redundant."""
    places = [n for n, place in s.book.places.items() if place.type == "supplies"]
    return all(s.load <= s.carried(place, redundant=True) for place in places)


def redundant_air(s: Subject) -> bool:
    """Whether the fans without the strongest carry the load."""
    return s.load <= sum(s.heat[:-1])


NAMED = (
    Term("supplies_redundant", redundant_supplies),
    Term("air_redundant", redundant_air),
)


@st.composite
def speeds(draw: st.DrawFn, raw: Raw) -> Term:
    """The speed of the memory against a fixed one; a build without has none."""
    op, bound = draw(st.sampled_from(("==", "<=", ">="))), draw(st.sampled_from((4000, 4800, 5600)))

    def says(s: Subject) -> bool:
        speed = s.memory_speed
        return speed is not None and COMPARISONS[op](speed, bound)

    return Term(f"memory_speed {op} {bound} MT/s", says)


def atoms(raw: Raw) -> st.SearchStrategy[Term]:
    """A condition without and, or, not."""
    kinds = [comparisons(raw), comparisons(raw), contents(raw), contents(raw), choices_made(raw)]
    if any(place["type"] == "bank" for place in raw["places"].values()):
        kinds.append(speeds(raw))
    return st.one_of(kinds)


def named_atoms(raw: Raw) -> st.SearchStrategy[Term]:
    """Like atoms, and whether supplies and air are redundant."""
    return atoms(raw) | st.sampled_from(NAMED)


@st.composite
def terms(draw: st.DrawFn, raw: Raw) -> Term:
    """A condition of up to two atoms."""
    first = draw(atoms(raw))
    joined = draw(st.sampled_from(("", "", "not", "and", "or", "implies")))
    if not joined:
        return first
    if joined == "not":
        return Term(f"not ({first.text})", lambda s: not first.says(s))
    second = draw(atoms(raw))
    if joined == "implies":
        text = f"implies({first.text}, {second.text})"
        return Term(text, lambda s: not first.says(s) or second.says(s))
    text = f"({first.text}) {joined} ({second.text})"
    join = all if joined == "and" else any
    return Term(text, lambda s: join((first.says(s), second.says(s))))
