"""Cells of a table and the texts of facts they stand for."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

from baywright.desk.capture.targets import Leaf
from baywright.facts.fact import Reads
from baywright.files.shape import literals, reads_of, refused
from baywright.problems import suggestion

Mark = Literal["comma", "point", ""]
"""The sign before decimals in a table; empty where the table does not tell."""

BLANK = frozenset({"", "-", "–", "—", "n/a", "na", "n.a.", "tbd", "tba", "?", "unknown", "…"})
"""Cells that state nothing."""

_DIGITS = r"\d(?:[\d.,'’\s]*\d)?"
_AMOUNT = re.compile(
    rf"(?P<sign>[+\-−]?)\s*(?P<number>{_DIGITS})\s*(?P<unit>(?:[^\d\-–~].*)?)", re.DOTALL
)
_MONEY_FIRST = re.compile(rf"(?P<unit>[A-Z]{{3}})\s*(?P<number>{_DIGITS})")
_RANGE = re.compile(rf"{_DIGITS}[^\d\-–~]*(?:[\-–~]|\bto\b)\s*\d")
_GROUPS = re.compile(r"\d{1,3}(?:[\s'’]\d{3})+(?:[.,]\d+)?|\d+(?:[.,]\d+)*")
_COMMA = re.compile(r"(?<![\d.,])(?:\d+,(?:\d{1,2}|\d{4,})(?!\d)|0,\d+|\d{1,3}(?:\.\d{3})+,\d+)")
_POINT = re.compile(
    r"(?<![\d.,])(?:\d+\.(?:\d{1,2}|\d{4,})(?![\d.])|0\.\d+|\d{1,3}(?:,\d{3})+\.\d)"
)
_DAYS = ("%Y-%m-%d", "%Y/%m/%d", "%d.%m.%Y", "%d %B %Y", "%d %b %Y", "%B %d, %Y")
_TRUTHS = {"x": "yes", "✓": "yes", "y": "yes", "true": "yes", "n": "no", "false": "no"}


class NotUnderstoodError(Exception):
    """A cell that no value was made of.

    Args:
        why: what is wrong and what to do, a sentence or two.
    """

    def __init__(self, why: str) -> None:
        self.why = why
        super().__init__(why)


@dataclass(frozen=True, slots=True)
class Style:
    """How a table writes.

    Args:
        decimal: the sign before decimals.
        currency: currency of prices without one.
    """

    decimal: Mark = ""
    currency: str = ""


def decimal_of(cells: Iterable[str]) -> Mark:
    """Return the sign before decimals that some cells show, or nothing where none does or both.

    >>> decimal_of(["8,5 W", "1.300 W"])
    'comma'
    """
    held = list(cells)
    comma = any(_COMMA.search(cell) for cell in held)
    point = any(_POINT.search(cell) for cell in held)
    if comma == point:
        return ""
    return "comma" if comma else "point"


def content(cell: str, leaf: Leaf, unit: str, style: Style) -> Any:  # noqa: ANN401
    """Return what a cell stands for, as a book writes it: a text, a list, or a mapping.

    Args:
        cell: the cell, not blank.
        leaf: the field it fills.
        unit: unit that the heading gives, or empty.
        style: how the table writes.

    Raises:
        NotUnderstoodError: when it cannot be read as such a value.
    """
    if leaf.many:
        parts = [part for part in re.split(r"\s*(?:[;,/]|\band\b)\s*", cell) if part]
        return [_value(part, leaf, unit, style) for part in parts]
    ways = re.split(r"\s+or\s+", re.sub(r"^unknown:\s*", "", cell))
    if len(ways) == 1 or reads_of(leaf.annotation) is None or not re.search(r"\d", ways[0]):
        return _value(cell, leaf, unit, style)
    shared = unit or _unit_of(ways[-1])
    return {"could_be": [_value(way, leaf, shared, style) for way in ways]}


def _unit_of(text: str) -> str:
    match = _AMOUNT.fullmatch(text.strip())
    return match["unit"] if match else ""


def _value(cell: str, leaf: Leaf, unit: str, style: Style) -> str:
    reads = reads_of(leaf.annotation)
    words = literals(leaf.annotation)
    if words and cell not in words:
        raise NotUnderstoodError(f"One of {', '.join(words)} is wanted. {suggestion(cell, words)}")
    if reads is None or reads.sort == "text":
        return " ".join(cell.split())
    text = _text(cell, reads.sort, unit, style)
    why = refused(reads, text)
    if why:
        raise NotUnderstoodError(why)
    return text


def _text(cell: str, sort: str, unit: str, style: Style) -> str:
    """Return a cell as a book would write it."""
    if sort == "date":
        return _day(cell)
    if sort == "truth":
        return _TRUTHS.get(cell.casefold(), cell.casefold())
    match = _MONEY_FIRST.fullmatch(cell) if sort == "money" else None
    match = match or _AMOUNT.fullmatch(cell)
    if match is None:
        if _RANGE.match(cell):
            raise NotUnderstoodError(f"{cell!r} is a range. Give one value, or several with 'or'.")
        return cell
    decimal = style.decimal
    if sort == "whole":  # no decimals, so that any sign stands between thousands
        decimal = "point" if "," in match["number"] else "comma"
    sign = "-" if match.groupdict().get("sign") in ("-", "−") else ""
    own = match["unit"].strip() or unit or (style.currency if sort == "money" else "")
    return f"{sign}{_number(match['number'], decimal)} {own}".strip()


def _number(text: str, decimal: Mark) -> str:
    """Return digits with a point before decimals and nothing between thousands."""
    if not _GROUPS.fullmatch(text):
        raise NotUnderstoodError(f"{text!r} is not one number.")
    digits = re.sub(r"[\s'’]", "", text)
    commas, points = digits.count(","), digits.count(".")
    if commas and points:
        decimal = "comma" if digits.rindex(",") > digits.rindex(".") else "point"
    elif commas > 1 or points > 1:
        decimal = "point" if commas else "comma"
    elif commas or points:
        decimal = _sign_in(digits, decimal)
    thousands, before = (".", ",") if decimal == "comma" else (",", ".")
    return digits.replace(thousands, "").replace(before, ".")


def _sign_in(digits: str, decimal: Mark) -> Mark:
    """Return which sign is before the decimals of a number that has one sign."""
    whole, _, rest = digits.replace(",", ".").partition(".")
    own: Mark = "comma" if "," in digits else "point"
    if len(rest) != 3 or len(whole) > 3 or whole.startswith("0"):
        return own
    if not decimal:
        message = f"{digits!r} may be {whole}{rest} or {whole}.{rest}, and no other cell tells."
        raise NotUnderstoodError(f"{message} --decimal comma or --decimal point says which.")
    return decimal


def _day(cell: str) -> str:
    for pattern in _DAYS:
        try:
            day = datetime.datetime.strptime(cell, pattern).replace(tzinfo=datetime.UTC)
        except ValueError:
            continue
        return day.date().isoformat()
    raise NotUnderstoodError(f"{cell!r} is not a date. Write it like 2031-07-01.")


def sort_of_leaf(leaf: Leaf) -> str:
    """Return the sort of a field: a dimension, ``date`` and so on, or ``name``."""
    reads: Reads | None = reads_of(leaf.annotation)
    return reads.sort if reads else "name"
