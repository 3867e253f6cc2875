"""Words, numbers, amounts and dates of a sentence, each with its place in the text."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Literal

from baywright.units.lookup import spellings

TokenKind = Literal["word", "number", "amount", "date", "sign"]

MONTHS = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
]

LONG_UNITS = {
    "gigabytes": "GB", "gigabyte": "GB", "terabytes": "TB", "terabyte": "TB",
    "megabytes": "MB", "watts": "W", "watt": "W", "kilowatts": "kW", "volts": "V", "volt": "V",
    "amps": "A", "amperes": "A", "amp": "A", "metres": "m", "meters": "m", "metre": "m",
    "millimetres": "mm", "millimeters": "mm", "centimetres": "cm", "kilograms": "kg",
    "kilos": "kg", "seconds": "s", "second": "s", "milliseconds": "ms", "minute": "min",
    "minutes": "min", "hour": "h", "hours": "h", "percent": "%", "per cent": "%",
    "degrees": "°C", "degrees C": "°C", "degrees Celsius": "°C", "kelvin": "K", "week": "weeks",
    "year": "years", "decibels": "dB(A)", "dB": "dB(A)", "dBA": "dB(A)", "farads": "F",
    "farad": "F", "rack units": "U", "rack unit": "U", "gigabits per second": "Gb/s",
    "gigabytes per second": "GB/s", "megabytes per second": "MB/s", "Gbps": "Gb/s",
    "megatransfers per second": "MT/s", "milliamps": "mA", "cubic feet per minute": "CFM",
    "square centimetres": "cm²", "C": "°C",
}  # fmt: skip
"""Units written out, and how the package spells them."""

NOT_UNITS = frozenset({"in", "d", "h", "L", "l", "B", "b/s", "um", "us", "deg"})
"""Spellings that in running text are words or slips rather than units."""

NUMBER_WORDS = {
    word: value
    for value, word in enumerate(
        [
            "zero",
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
            "twenty",
        ]
    )
} | {"thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}

LONGEST_NUMBER = 40
"""Signs of a number; anything longer is a word nobody knows, and costs no arithmetic."""

_NUMBER = r"\d{1,3}(?:,\d{3})+(?:\.\d+)?(?![\d])|\d+(?:\.\d+)?"
_UNITS = "|".join(
    re.escape(unit).replace(r"\ ", r"\s+")
    for unit in sorted({*spellings(), *LONG_UNITS} - NOT_UNITS, key=len, reverse=True)
)


@cache
def _pattern(currency: str) -> re.Pattern[str]:
    """Return the pattern of tokens, with a currency as one more unit."""
    units = f"{currency}|{_UNITS}" if currency else _UNITS
    return re.compile(
        rf"(?P<iso>\d{{4}}-\d{{2}}-\d{{2}})(?!\d)"
        rf"|(?P<date>\d{{1,2}}\s+(?:{'|'.join(MONTHS)})\s+\d{{4}}"
        rf"|(?:{'|'.join(MONTHS)})\s+\d{{1,2}},?\s+\d{{4}}"
        rf"|(?:{'|'.join(MONTHS)})\s+\d{{4}})"
        rf"|(?P<amount>(?:{_NUMBER}))(?:\s|-|\N{{NO-BREAK SPACE}})?(?P<unit>(?-i:{units}))"
        rf"(?![A-Za-z0-9/])"
        rf"|(?P<number>{_NUMBER})(?![A-Za-z])"
        rf"|(?P<word>[A-Za-z][A-Za-z0-9]*(?:['\N{{RIGHT SINGLE QUOTATION MARK}}][a-z]+)?"
        rf"|\d+[A-Za-z]\w*)"
        rf"|(?P<sign>\S)",
        re.IGNORECASE,
    )


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of a sentence.

    Args:
        kind: what it is.
        text: as it was written.
        start: first character, counted from 0.
        end: character after the last.
        number: the number of a number or an amount.
        unit: the unit of an amount, as the package spells it.
        date: first day of a date; of a month alone, its first.
        month_only: whether a date names no day.
    """

    kind: TokenKind
    text: str
    start: int
    end: int
    number: Fraction = Fraction(0)
    unit: str = ""
    date: datetime.date | None = None
    month_only: bool = False

    @property
    def folded(self) -> str:
        """The text as phrases are looked up."""
        return self.text.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")


def tokens(text: str, currency: str = "") -> tuple[Token, ...]:
    """Return the pieces of a sentence in order; hyphens inside words are left out.

    Args:
        text: the sentence.
        currency: three letters that are the unit of prices.
    """
    found = tuple(_merged(_scanned(text, currency)))
    return tuple(token for i, token in enumerate(found) if not _joins(found, i))


def _scanned(text: str, currency: str) -> Iterator[Token]:
    for match in _pattern(currency).finditer(text):
        start, end = match.span()
        piece = match[0]
        if match["iso"] or match["date"]:
            yield _date(piece, start, end)
        elif len(match["amount"] or match["number"] or "") > LONGEST_NUMBER:
            yield Token("word", piece, start, end)
        elif match["amount"]:
            number = Fraction(match["amount"].replace(",", ""))
            unit = re.sub(r"\s+", " ", match["unit"])
            yield Token("amount", piece, start, end, number, LONG_UNITS.get(unit, unit))
        elif match["number"]:
            yield Token("number", piece, start, end, Fraction(piece.replace(",", "")))
        elif match["word"]:
            yield _word(piece, start, end)
        else:
            yield Token("sign", piece, start, end)


def _word(piece: str, start: int, end: int) -> Token:
    value = NUMBER_WORDS.get(piece.casefold())
    if value is None:
        return Token("word", piece, start, end)
    return Token("number", piece, start, end, Fraction(value))


def _date(piece: str, start: int, end: int) -> Token:
    try:
        if "-" in piece:
            day = datetime.date.fromisoformat(piece)
            return Token("date", piece, start, end, date=day)
        words = piece.replace(",", " ").casefold().split()
        month = next(i for i, name in enumerate(MONTHS, 1) if name in words)
        numbers = [int(word) for word in words if word.isdigit()]
        year = max(numbers)
        days = [number for number in numbers if number != year]
        day = datetime.date(year, month, days[0] if days else 1)
        return Token("date", piece, start, end, date=day, month_only=not days)
    except ValueError:
        return Token("word", piece, start, end)


def _merged(found: Iterator[Token]) -> Iterator[Token]:
    """Yield tokens with words of number put together: twenty-four, two hundred, 2 hundred."""
    held: Token | None = None
    between: list[Token] = []
    for token in found:
        if held is not None and token.text == "-" and not between and not _digits(held):
            between.append(token)
            continue
        joined = _joined(held, token) if held is not None else None
        if joined is not None:
            held, between = joined, []
            continue
        if held is not None:
            yield held
        yield from between
        held, between = None, []
        if token.kind == "number":
            held = token
        else:
            yield token
    if held is not None:
        yield held
        yield from between


def _joined(first: Token, second: Token) -> Token | None:
    value: Fraction | None = None
    if second.folded == "hundred":
        value = first.number * 100
    elif second.folded == "thousand":
        value = first.number * 1000
    elif second.kind == "number" and not _digits(first) and not _digits(second):
        tens = first.number in range(20, 100, 10) and second.number < 10
        value = first.number + second.number if tens else None
    if value is None:
        return _with_unit(first, second)
    text = f"{first.text} {second.text}"
    return Token("number", text, first.start, second.end, value)


def _with_unit(first: Token, second: Token) -> Token | None:
    """Return a number in words and a unit as one amount: four terabytes, five GB."""
    unit = LONG_UNITS.get(second.text, second.text)
    known = unit in spellings() and second.text not in NOT_UNITS and second.kind == "word"
    if not known or _digits(first):
        return None
    text = f"{first.text} {second.text}"
    return Token("amount", text, first.start, second.end, first.number, unit)


def _digits(token: Token) -> bool:
    return token.text[:1].isdigit()


def _joins(found: tuple[Token, ...], position: int) -> bool:
    """Say whether a token is a hyphen inside a word, as in hot-swap or 24-core."""
    token = found[position]
    if token.text not in ("-", "\N{NON-BREAKING HYPHEN}"):
        return False
    inside = 0 < position < len(found) - 1
    if not inside:
        return True
    before, after = found[position - 1], found[position + 1]
    touches = before.end == token.start and after.start == token.end
    return touches and "word" in (before.kind, after.kind)
