"""Words of parts lists: tokens that say the same however they are written.

Numbers keep their unit (``64 GB`` is one token), plurals are taken off, and trade words stand for
the word that books use. Digits are never guessed at.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from baywright.units.printing import plain_number

_PIECE = re.compile(
    r"(?P<number>\d+(?:[.,]\d+)*)(?:[\s-]*(?P<unit>[a-z]+(?:/s)?)(?![a-z]))?"
    r"|(?P<word>[^\W\d_][^\W_]*)"
)
_THOUSANDS = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?")

UNITS: Mapping[str, tuple[str, int]] = {
    "gb": ("gb", 1),
    "gib": ("gb", 1),
    "tb": ("gb", 1000),
    "w": ("w", 1),
    "watt": ("w", 1),
    "kw": ("w", 1000),
    "core": ("core", 1),
    "gb/s": ("gb/s", 1),
    "gbit": ("gb/s", 1),
    "gbit/s": ("gb/s", 1),
    "gbps": ("gb/s", 1),
    "gbe": ("gb/s", 1),
    "mt/s": ("mt/s", 1),
    "bay": ("bay", 1),
    "port": ("port", 1),
    "rank": ("rank", 1),
    "u": ("u", 1),
}
"""Units as they are written, with the unit and the factor of a token."""

SYNONYMS: Mapping[str, str] = {
    "accel": "accelerator",
    "gpu": "accelerator",
    "gpgpu": "accelerator",
    "cpu": "processor",
    "proc": "processor",
    "psu": "supply",
    "dimm": "memory",
    "rdimm": "memory",
    "ram": "memory",
    "disk": "drive",
    "disc": "drive",
    "hdd": "drive",
    "ssd": "drive",
    "nic": "network",
    "lan": "network",
    "ethernet": "network",
    "hba": "controller",
    "raid": "controller",
    "backplane": "cage",
    "battery": "pack",
    "supercapacitor": "pack",
    "filler": "blank",
    "dummy": "blank",
    "blanking": "blank",
    "dual": "double",
    "twin": "double",
    "reg": "registered",
    "ventilator": "fan",
    "blower": "fan",
    "thumb": "usb",
}
"""Trade words and the words of books they stand for."""


def several(words: str) -> tuple[str, ...]:
    """Return the words of a text, for lists that are easier to read without quotes."""
    return tuple(words.split())


FILLERS = frozenset(
    several(
        "a an and as each ea for hard in item of off on part pc pcs per piece plus please power "
        "qty quantity set solid state stk the to type unit with x × our new"
    )
)
"""Words that tell no part from another."""

NUMBER_WORDS: Mapping[str, int] = {
    word: number
    for number, word in enumerate(
        several(
            "one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
            "fifteen sixteen seventeen eighteen nineteen twenty"
        ),
        1,
    )
}
"""Numbers in words."""


def folded(text: str) -> str:
    """Return a text in small letters with its signs in one form.

    >>> folded("Ｄimm–64")
    'dimm-64'
    """
    plain = unicodedata.normalize("NFKC", text).casefold()
    return re.sub(r"[‐‑‒–—−]", "-", plain)


def key_of(text: str) -> str:
    """Return letters and digits of a text alone, so that ``dimm 64`` is ``DIMM-64``."""
    return re.sub(r"[\W_]+", "", folded(text))


def tokens(text: str) -> tuple[str, ...]:
    """Return the tokens of a text in their order, fillers left out.

    >>> tokens("64GB DIMMs"), tokens("1.3 kW PSU"), tokens("16-core processor")
    (('64gb', 'memory'), ('1300w', 'supply'), ('16core', 'processor'))
    """
    return tuple(dict.fromkeys(_tokens(text)))


def _tokens(text: str) -> Iterator[str]:
    for piece in _PIECE.finditer(folded(text)):
        if piece["number"]:
            yield from _number(piece["number"], piece["unit"] or "")
        else:
            word = singular(piece["word"])
            if word in NUMBER_WORDS:
                yield str(NUMBER_WORDS[word])
            elif word not in FILLERS:
                yield SYNONYMS.get(word, word)


def _number(digits: str, unit: str) -> Iterator[str]:
    known = UNITS.get(unit) or UNITS.get(singular(unit))
    value = value_of(digits)
    if known is not None:
        yield f"{plain_number(value * known[1])}{known[0]}"
        return
    yield plain_number(value)
    if unit:
        yield from _tokens(unit)


def value_of(digits: str) -> Fraction:
    """Return a number as written; a comma before three digits parts thousands, others decimals.

    >>> value_of("1,300"), value_of("1,92") == value_of("1.92")
    (Fraction(1300, 1), True)
    """
    if _THOUSANDS.fullmatch(digits):
        return Fraction(digits.replace(",", ""))
    whole, *rest = re.split(r"[.,]", digits)
    return Fraction(f"{whole}.{''.join(rest)}" if rest else whole)


def singular(word: str) -> str:
    """Return a word without the ending of its plural.

    >>> singular("supplies"), singular("modules"), singular("sas"), singular("chassis")
    ('supply', 'module', 'sas', 'chassis')
    """
    if len(word) > 4 and word.endswith("ies"):
        return f"{word[:-3]}y"
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "is", "us")):
        return word[:-1]
    return word


def spelled(word: str, known: Iterable[str]) -> str | None:
    """Return the one known word that a misspelt one must be, or ``None``.

    One slip is allowed from four letters on, two from seven on where the first letter is right; two
    letters changed about are one slip. Words with digits are left as they are.
    """
    if not word.isalpha() or len(word) < 4:
        return None
    most = 1 if len(word) < 7 else 2
    close = [(slips(word, other, most), other) for other in known if other.isalpha()]
    near = sorted(
        (found, other)
        for found, other in close
        if found is not None and (found < 2 or word[0] == other[0])
    )
    if not near or (len(near) > 1 and near[0][0] == near[1][0]):
        return None
    return near[0][1]


def slips(word: str, other: str, most: int) -> int | None:
    """Return in how many letters two words differ, or ``None`` when in more than ``most``.

    Letters put in, left out, changed or changed about count one each (optimal string alignment).
    """
    if abs(len(word) - len(other)) > most:
        return None
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, mine in enumerate(word, 1):
        before, last, row = row, before, [i]
        for j, theirs in enumerate(other, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (mine != theirs))
            if last and j > 1 and mine == other[j - 2] and word[i - 2] == theirs:
                cost = min(cost, last[j - 2] + 1)
            row.append(cost)
    return row[-1] if row[-1] <= most else None
