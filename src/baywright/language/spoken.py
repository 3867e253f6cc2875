"""Numbers as they are spoken, and spoken numbers as they are written.

What belongs to a name stays as it is written: ``processor 2``, ``PCIe 5.0``, ``x16``, a date.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from baywright.language.tokens import NUMBER_WORDS, Token, tokens
from baywright.language.word_forms import several, stem

UNITS: Mapping[str, tuple[str, str]] = {
    "W": ("watt", "watts"), "kW": ("kilowatt", "kilowatts"), "V": ("volt", "volts"),
    "A": ("ampere", "amperes"), "mA": ("milliampere", "milliamperes"),
    "MB": ("megabyte", "megabytes"), "GB": ("gigabyte", "gigabytes"),
    "TB": ("terabyte", "terabytes"), "MB/s": ("megabyte per second", "megabytes per second"),
    "GB/s": ("gigabyte per second", "gigabytes per second"),
    "Gb/s": ("gigabit per second", "gigabits per second"),
    "MT/s": ("megatransfer per second", "megatransfers per second"),
    "mm": ("millimetre", "millimetres"), "cm": ("centimetre", "centimetres"),
    "m": ("metre", "metres"), "kg": ("kilogram", "kilograms"), "g": ("gram", "grams"),
    "s": ("second", "seconds"), "ms": ("millisecond", "milliseconds"),
    "min": ("minute", "minutes"), "h": ("hour", "hours"), "K": ("kelvin", "kelvins"),
    "°C": ("degree Celsius", "degrees Celsius"), "dB(A)": ("decibel", "decibels"),
    "%": ("per cent", "per cent"), "U": ("rack unit", "rack units"),
    "CFM": ("cubic foot per minute", "cubic feet per minute"),
    "cm²": ("square centimetre", "square centimetres"),
}  # fmt: skip
"""Units by symbol: as one of them and as several are spoken."""

LABELS = several(
    "processor pcie reedbed riser port release slot zone board figure page step usb model"
)
"""Words whose number is part of a name."""

_NOUNS = several("module supply processor card drive port network accelerator fast sas sata")

_SCALES = (("million", 1_000_000), ("thousand", 1000), ("hundred", 100))
_WORDS = {value: word for word, value in NUMBER_WORDS.items()}
_DIGITS = frozenset(word for word, value in NUMBER_WORDS.items() if value < 10)
_PHRASES = {phrase: unit for unit, forms in UNITS.items() for phrase in forms}
_WORD = "|".join(
    sorted((*NUMBER_WORDS, *(word for word, _ in _SCALES), "point"), key=len, reverse=True)
)
_UNIT = "|".join(sorted(_PHRASES, key=len, reverse=True))
_SPOKEN = re.compile(
    rf"\b(?P<number>(?:{_WORD})(?:(?:-|\s+(?:and\s+)?)(?:{_WORD}))*)\b(?:\s+(?P<unit>{_UNIT})\b)?",
    re.IGNORECASE,
)


def spoken_number(number: Fraction, text: str = "") -> str:
    """Return a number in words.

    Args:
        number: the number, from 0 to below a thousand million.
        text: as it was written, which decides how many decimals are said; needed for those only.

    >>> spoken_number(Fraction(5600)), spoken_number(Fraction(12, 5), "2.4")
    ('five thousand six hundred', 'two point four')
    """
    words = _cardinal(int(number))
    _, point, decimals = text.partition(".")
    return f"{words} point {' '.join(_WORDS[int(each)] for each in decimals)}" if point else words


def _cardinal(number: int) -> str:
    """Return a whole number below a thousand million in words."""
    for scale, factor in _SCALES:
        if number >= factor:
            high, rest = divmod(number, factor)
            joined = " and " if rest and (rest < 100) else " "
            after = f"{joined}{_cardinal(rest)}" if rest else ""
            return f"{_cardinal(high)} {scale}{after}"
    if number in _WORDS:
        return _WORDS[number]
    tens, ones = divmod(number, 10)
    return f"{_WORDS[tens * 10]}-{_WORDS[ones]}"


def spoken_amount(number: Fraction, unit: str, text: str = "") -> str:
    """Return an amount in words; a unit that has none stays as it is.

    >>> spoken_amount(Fraction(5600), "MT/s")
    'five thousand six hundred megatransfers per second'
    """
    one, several = UNITS.get(unit, (unit, unit))
    return f"{spoken_number(number, text)} {one if number == 1 else several}"


def spoken(text: str, currency: str = "") -> str:
    """Return a text with its numbers in words.

    Args:
        text: the text.
        currency: three letters that are the unit of prices.

    >>> spoken("Memory of processor 2 runs at 5600 MT/s with 16 modules.")
    'Memory of processor 2 runs at five thousand six hundred megatransfers per second with sixteen modules.'
    """  # noqa: E501
    said = text
    for token, words in reversed(tuple(spoken_numbers(text, currency))):
        said = f"{said[: token.start]}{words}{said[token.end :]}"
    return said[:1].upper() + said[1:] if text[:1].isdigit() else said


def spoken_numbers(text: str, currency: str = "") -> Iterator[tuple[Token, str]]:
    """Yield the numbers of a text that are spoken otherwise than they are written."""
    found = tokens(text, currency)
    for at, token in enumerate(found):
        written = re.match(r"[\d,.]+", token.text)
        if written is None or token.kind not in ("number", "amount") or _is_name(found, at):
            continue
        digits = written.group().rstrip(",.")
        if token.kind == "amount":
            # Before a noun an amount is said of one: a sixty-four gigabyte module.
            one = token.number == 1 or _stands_before_noun(found, at)
            unit = UNITS.get(token.unit, (token.unit, token.unit))[0 if one else 1]
            yield token, f"{spoken_number(token.number, digits)} {unit}"
        else:
            yield token, spoken_number(token.number, digits)


def _stands_before_noun(found: Sequence[Token], at: int) -> bool:
    after = found[at + 1] if at + 1 < len(found) else None
    return after is not None and stem(after.folded) in _NOUNS


def _is_name(found: Sequence[Token], at: int) -> bool:
    """Say whether a number is part of a name, as in ``processor 2`` and in ``1U tray``."""
    if found[at].unit == "U" and " " not in found[at].text:
        return True
    before = found[at - 1] if at else None
    return found[at].kind == "number" and before is not None and before.folded in LABELS


def written(text: str) -> str:
    """Return a text with spoken numbers as they are written.

    A number of one word without a unit stays in words.

    >>> written("It runs at five thousand six hundred megatransfers per second with two modules.")
    'It runs at 5600 MT/s with two modules.'
    """
    return _SPOKEN.sub(_written, text)


def _written(match: re.Match[str]) -> str:
    unit = f" {_PHRASES[_folded(match['unit'])]}" if match["unit"] else ""
    for first, joint, last in _cut(match["number"]):
        number = _digits_of(last, alone=not unit)
        before = _digits_of(first, alone=True) if first else ""
        if number is not None and before is not None:
            return f"{before}{joint}{number}{unit}"
    return match.group()


def _cut(phrase: str) -> Iterator[tuple[str, str, str]]:
    """Yield a phrase whole, and then cut in two wherever two numbers may meet."""
    yield "", "", phrase
    for found in re.finditer(r"\s+(?:and\s+)?", phrase):
        yield phrase[: found.start()], found.group(), phrase[found.end() :]


def _digits_of(phrase: str, *, alone: bool) -> str | None:
    """Return a phrase as a number in digits, or ``None`` where it makes no single one.

    Args:
        phrase: the words.
        alone: whether no unit follows; then a number of one word stays as it is.
    """
    words = re.split(r"[-\s]+", phrase.casefold())
    number = _number(words)
    return phrase if number is not None and alone and len(words) == 1 else number


def _folded(unit: str) -> str:
    found = " ".join(unit.split())
    return found if found in _PHRASES else found.casefold()


def _number(words: Sequence[str]) -> str | None:
    """Return the digits of a number in words, or ``None`` where the words make no single one."""
    whole, decimals = list(words), ""
    if "point" in words:
        at = words.index("point")
        whole, after = list(words[:at]), words[at + 1 :]
        if not after or any(word not in _DIGITS for word in after):
            return None
        decimals = "." + "".join(str(NUMBER_WORDS[word]) for word in after)
    value = _whole(whole)
    return None if value is None else f"{value}{decimals}"


def _whole(words: Sequence[str]) -> int | None:
    """Return a whole number in words: thousands first, then hundreds, tens and ones.

    An "and" stands after a scale only: "sixty and one" are two numbers.
    """
    for scale, factor in _SCALES:
        if scale in words:
            at = words.index(scale)
            rest = words[at + 1 :]
            rest = rest[1:] if rest[:1] == ["and"] and len(rest) > 1 else rest
            high, low = _whole(words[:at]), _whole(rest) if rest else 0
            return None if high is None or low is None or low >= factor else high * factor + low
    return _tens(words)


def _tens(words: Sequence[str]) -> int | None:
    """Return a number below a hundred in words."""
    values = [NUMBER_WORDS.get(word) for word in words]
    match values:
        case [int() as one]:
            return one
        case [int() as tens, int() as ones] if tens in range(20, 100, 10) and 0 < ones < 10:
            return tens + ones
        case _:
            return None
