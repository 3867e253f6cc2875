"""How much room letters take, so that they fit before anybody sees them.

A drawing is shown in whatever sans-serif face is at hand. Widths are therefore estimated on the
safe side: for each character the widest of DejaVu Sans, Liberation Sans, Liberation Sans Narrow and
Source Sans Pro, read from their tables of advance widths and rounded up to a twentieth of the type
size. A character that is not listed counts as the widest.
"""

from __future__ import annotations

from collections.abc import Sequence

LEAST = 11.0
"""Smallest type on a drawing [px]."""

BASE = 13.0
"""Usual type on a drawing [px]."""

ASCENT, DESCENT = 0.78, 0.24
"""From the baseline up to the top of a capital and down to the foot of a letter [type size]."""

_REGULAR = {
    0.3: "'Iijl",
    0.35: " ,./:;\\|·",
    0.4: "()-[]ft",
    0.45: "!r²³",
    0.5: '"*J°',
    0.55: "`csz",
    0.6: "?L_kvxy–",
    0.65: "$0123456789FTabdeghnopqu{}µ£€",
    0.7: "ABEKPSVXYZ",
    0.75: "CNRU",
    0.8: "&DGHOQ",
    0.85: "#+<=>^w~×",
    0.9: "M",
    1.0: "%Wm",
}
_BOLD = {
    0.35: " 'ijl",
    0.4: ",./:;I\\|·",
    0.45: "-f²³",
    0.5: "!()[]rt°",
    0.55: '"*`',
    0.6: "J_csz–",
    0.65: "?Lx",
    0.7: "$0123456789EFTaekovy£€",
    0.75: "CPSYZbdghnpqu{}µ",
    0.8: "ABKRVX",
    0.85: "#+<=>DGHNU^~×",
    0.9: "&OQ",
    0.95: "w",
    1.0: "@M",
    1.05: "%m",
}
_WIDEST = 1.15


def _by_letter(groups: dict[float, str]) -> dict[str, float]:
    return {letter: width for width, letters in groups.items() for letter in letters}


_WIDTHS = {False: _by_letter(_REGULAR), True: _by_letter(_BOLD)}


def width_of(words: str, size: float = BASE, *, bold: bool = False) -> float:
    """Return the width that a line of text stays within [px].

    Args:
        words: the text.
        size: type size [px].
        bold: whether it is set bold.

    >>> width_of("A2", 10.0)
    13.5
    """
    widths = _WIDTHS[bold]
    return round(size * sum(widths.get(letter, _WIDEST) for letter in words), 3)


def wrapped(words: str, room: float, size: float = BASE) -> list[str]:
    """Break a text into lines that fit; a word wider than the room is broken where it must be."""
    lines: list[str] = []
    for word in words.split():
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(joined, size) <= room:
            lines[-1] = joined
        else:
            lines.extend(_pieces(word, room, size))
    return lines or [""]


def _pieces(word: str, room: float, size: float) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and width_of(pieces[-1] + letter, size) > room:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def widest(lines: Sequence[str], size: float = BASE, *, bold: bool = False) -> float:
    """Return the width of the widest of some lines [px]."""
    return max((width_of(line, size, bold=bold) for line in lines), default=0.0)
