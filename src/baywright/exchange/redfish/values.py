"""Values of resources, read with care: what is missing or strange is unknown, and kept as text."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Any

from baywright.exchange.redfish.bodies import Resource
from baywright.exchange.texts import plain
from baywright.facts.record import Reading, Value
from baywright.units import Quantity

UNKNOWN = frozenset(
    {"", "unknown", "n/a", "na", "not specified", "none specified", "not available"}
)
"""Texts by which services say that they do not know, in small letters; common practice."""


MOST = 10**24
"""No number of a machine is larger; bytes of the largest drive have 17 digits."""


def link_of(value: object) -> str | None:
    """Return the path a link names, without its fragment, or ``None`` where there is none."""
    found = value.get("@odata.id") if isinstance(value, dict) else None
    return tidy(found) if isinstance(found, str) and found.startswith("/") else None


def tidy(path: str) -> str:
    """Return a path in the one form in which paths are compared.

    >>> tidy("/redfish/v1/Systems/1/#/Name")
    '/redfish/v1/Systems/1'
    """
    return plain(path.partition("#")[0].rstrip("/"), most=1000) or "/"


def links_of(value: object) -> list[str]:
    """Return the paths in a list of links, or of a single one."""
    held = value if isinstance(value, list) else [value]
    return [path for each in held if (path := link_of(each)) is not None]


def inside(resource: object, *steps: str) -> Any:  # noqa: ANN401 - JSON may be anything
    """Return what lies at some steps inside a resource, or ``None``."""
    for step in steps:
        if not isinstance(resource, dict):
            return None
        resource = resource.get(step)
    return resource


def objects(value: object) -> list[Resource]:
    """Return the objects of a list, what is none of them left out."""
    return [each for each in value if isinstance(each, dict)] if isinstance(value, list) else []


def text_of(value: object) -> str:
    """Return any JSON value as a short text."""
    if isinstance(value, str):
        return plain(value)
    return plain(json.dumps(value, ensure_ascii=False))


def word(resource: object, *steps: str) -> str:
    """Return a text at some steps, or an empty one where it is missing or unknown."""
    found = inside(resource, *steps)
    text = plain(found) if isinstance(found, str) else ""
    return "" if text.casefold() in UNKNOWN else text


def whole(value: object) -> int | None:
    """Return a whole number from zero up, or ``None`` for anything else."""
    number = fraction(value)
    return int(number) if number is not None and number.denominator == 1 else None


def fraction(value: object) -> Fraction | None:
    """Return a number from zero up to ``MOST``, exactly, or ``None`` for anything else."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return Fraction(str(value)) if 0 <= value <= MOST else None


def reading(resource: Resource, *steps: str, value: Value | None) -> Reading:
    """Return a reading of the field at some steps."""
    found = inside(resource, *steps)
    return Reading(".".join(steps), "" if found is None else text_of(found), value)


def amount(
    resource: Resource, unit: str, *steps: str, dimension: str = "", times: Fraction | int = 1
) -> Reading:
    """Return the reading of an amount.

    Args:
        resource: the resource.
        unit: unit of the amount.
        steps: where it stands.
        dimension: dimension of the unit, where it has several.
        times: how many of the unit one of the record is.
    """
    number = fraction(inside(resource, *steps))
    quantity = None if not number else Quantity(number * times, unit, dimension)
    return reading(resource, *steps, value=quantity)


def number_at(resource: Resource, *steps: str) -> Reading:
    """Return the reading of a whole number."""
    return reading(resource, *steps, value=whole(inside(resource, *steps)))


def word_at(resource: Resource, *steps: str) -> Reading:
    """Return the reading of a text."""
    return reading(resource, *steps, value=word(resource, *steps) or None)


def stated(readings: Mapping[str, Reading]) -> dict[str, Reading]:
    """Leave out what the resource does not speak of; an unknown value stays."""
    return {name: each for name, each in readings.items() if each.text}


def rest_of(resource: Resource, used: Iterable[str]) -> dict[str, str]:
    """Return the fields of a resource that nothing was made of, as texts."""
    left = set(used)
    return {
        plain(key): text_of(value)
        for key, value in resource.items()
        if key not in left and not key.startswith("@") and key not in ("Links", "Actions")
    }


def is_absent(resource: object) -> bool:
    """Say whether a resource stands for a place that is empty."""
    return bool(inside(resource, "Status", "State") == "Absent")


def labels(*candidates: object) -> Iterator[str]:
    """Yield texts that name a place, each once, what is missing or unknown left out."""
    seen: set[str] = set()
    for each in candidates:
        text = plain(each) if isinstance(each, str) else ""
        if text.casefold() not in UNKNOWN and text not in seen:
            seen.add(text)
            yield text
