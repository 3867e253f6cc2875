"""Reading a drawing back: what it shows in each place, as facts again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree import ElementTree as ET


@dataclass(frozen=True, slots=True)
class Shown:
    """What a drawing shows at a place or position.

    Args:
        state: word of its state.
        parts: ids of the parts in it.
    """

    state: str
    parts: tuple[str, ...]


def shown(svg: str) -> dict[str, Shown]:
    """Return what a drawing shows, by id of place or position.

    Raises:
        ValueError: when an id is drawn twice.
    """
    found: dict[str, Shown] = {}
    for element in _root(svg).iter():
        name = element.get("data-at")
        if name is None:
            continue
        if name in found:
            raise ValueError(f"{name} is drawn twice")
        found[name] = Shown(
            element.get("data-state", ""), tuple(element.get("data-part", "").split())
        )
    return found


def parts_shown(svg: str) -> Counter[str]:
    """Return how many of each part a drawing shows."""
    return Counter(part for each in shown(svg).values() for part in each.parts)


def lines_shown(svg: str) -> Iterator[str]:
    """Yield the ids of the lines of a drawing that mean something: cables, lanes, cords, air."""
    for element in _root(svg).iter():
        name = element.get("data-line")
        if name is not None:
            yield name


def _root(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314 - a drawing that we made ourselves
