"""Machines to draw, and drawings taken apart into boxes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree as ET

from baywright.desk.drawing import as_build
from baywright.desk.opening import Opened, open_book
from baywright.desk.random_builds import Draw, random_builds
from baywright.drawing.geometry import Point, Rect
from baywright.drawing.lettering import ASCENT, DESCENT, width_of
from baywright.facts.book import Book
from baywright.facts.build import Build
from baywright.files.books import book_from, bundled_books, read_book, read_build
from tests.files.example import example_book

SVG = "{http://www.w3.org/2000/svg}"
BOOKS = ("f1", "f2", "l4", "p1")
RANDOM = 3
"""Random builds of each book."""


@cache
def opened(book: str) -> Opened:
    return open_book(book)


@cache
def written_builds(book: str) -> tuple[Build, ...]:
    folder: Path = bundled_books()[book]
    return tuple(read_build(path) for path in sorted(folder.glob("builds/*.yaml")))


@cache
def drawn_at_random(book: str) -> tuple[Build, ...]:
    desk = opened(book)
    found = random_builds(desk, Draw(RANDOM, seed=11)).builds
    return tuple(as_build(desk.machine, each.values, f"random {i}") for i, each in enumerate(found))


def builds(book: str) -> tuple[Build | None, ...]:
    return (None, *written_builds(book), *drawn_at_random(book))


@dataclass(frozen=True)
class Text:
    """A text of a drawing with the room it takes."""

    words: str
    box: Rect
    size: float


@cache
def books_of_others() -> dict[str, tuple[Book, tuple[Build | None, ...]]]:
    """Return small books of other machines with their builds: some state no outlines at all."""
    folder = Path(__file__).parents[1] / "books_by_others"
    found: dict[str, tuple[Book, tuple[Build | None, ...]]] = {
        "t1": (book_from(example_book()), (None,))
    }
    for book in sorted(folder.glob("*/book.yaml")):
        written = (read_build(path) for path in sorted(book.parent.glob("builds/*.yaml")))
        found[book.parent.name] = (read_book(book.parent), (None, *written))
    return found


def root(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314 - our own text


def texts(svg: str) -> Iterator[Text]:
    for element in root(svg).iter(f"{SVG}text"):
        words, size = element.text or "", float(element.get("font-size") or 0)
        bold = element.get("class") in ("bold", "title")
        width = width_of(words, size, bold=bold)
        x, y = float(element.get("x") or 0), float(element.get("y") or 0)
        up, down = ASCENT * size, DESCENT * size
        middle = element.get("text-anchor") == "middle"
        if element.get("transform"):
            yield Text(words, Rect(x - up, y - width / 2, up + down, width), size)
        else:
            left = x - width / 2 if middle else x
            yield Text(words, Rect(left, y - up, width, up + down), size)


def circles(svg: str) -> Iterator[Rect]:
    for element in root(svg).iter(f"{SVG}g"):
        if element.get("data-callout"):
            circle = element.find(f"{SVG}circle")
            assert circle is not None
            x, y, r = (float(circle.get(name) or 0) for name in ("cx", "cy", "r"))
            yield Rect(x - r, y - r, 2 * r, 2 * r)


def leaders(svg: str) -> Iterator[list[Point]]:
    for element in root(svg).iter(f"{SVG}polyline"):
        if element.get("class") == "leader":
            pairs = (pair.split(",") for pair in (element.get("points") or "").split())
            yield [(float(x), float(y)) for x, y in pairs]


def size(svg: str) -> Rect:
    _, _, width, height = (float(n) for n in (root(svg).get("viewBox") or "").split())
    return Rect(0.0, 0.0, width, height)


def overlaps(svg: str) -> list[tuple[str, str]]:
    """Return pairs of texts, or of circles, that cover each other."""
    written = [(text.words, text.box) for text in texts(svg)]
    found = [
        (one, other)
        for (one, box), (other, second) in combinations(written, 2)
        if box.inset(0.3).meets(second.inset(0.3))
    ]
    numbered = [(f"circle {i}", box) for i, box in enumerate(circles(svg))]
    found += [
        (one, other)
        for (one, box), (other, second) in combinations(numbered, 2)
        if box.meets(second)
    ]
    inside = {
        box: [t for t in written if t[0].isdigit() and box.holds(t[1])] for _, box in numbered
    }
    found += [
        (name, words)
        for name, box in numbered
        for words, second in written
        if (words, second) not in inside[box] and box.meets(second.inset(0.3))
    ]
    return found
