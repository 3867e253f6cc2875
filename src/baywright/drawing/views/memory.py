"""Memory: the sockets of each processor by channel, and what is in them."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.drawing import naming, outlines
from baywright.drawing.contents import Content
from baywright.drawing.geometry import Rect
from baywright.drawing.scene import Group, Note, Scene
from baywright.drawing.subject import Subject
from baywright.facts.places import Bank

SOCKET, LENGTH, APART, BETWEEN = 11.0, 66.0, 2.0, 5.0
"""Width and length of a socket, distance of sockets, and more distance of channels [mm]."""

HEAD, FOOT, ASIDE = 16.0, 16.0, 26.0


def scene(subject: Subject) -> Scene:
    """Return the sockets of all processors, side by side or, where it is narrow, stacked."""
    banks = subject.book.places_of(Bank)
    widths = {name: _width(bank) for name, bank in banks.items()}
    across = max(widths.values(), default=60.0)
    step = HEAD + LENGTH + FOOT
    columns = 1 if subject.narrow else min(2, max(1, len(banks)))
    rows = -(-max(1, len(banks)) // columns)
    groups: list[Group] = []
    notes: list[Note] = []
    for i, (name, bank) in enumerate(banks.items()):
        corner = (i % columns * (across + ASIDE), (rows - 1 - i // columns) * step + FOOT)
        groups.append(_bank(subject, name, bank, corner))
        notes += _letters(subject, name, bank, corner, across + ASIDE)
    return Scene(
        "memory",
        "Memory",
        (columns * (across + ASIDE) - ASIDE, rows * step),
        groups=tuple(groups),
        notes=tuple(notes),
        remarks=(*_order(banks), *outlines.left_over(subject)),
        to_scale=False,
    )


def _width(bank: Bank) -> float:
    channels, each = bank.channels.known, bank.per_channel.known
    return channels * (each * (SOCKET + APART) + BETWEEN) - APART - BETWEEN


def _place(bank: Bank, position: int) -> float:
    channel = position // bank.per_channel.known
    return position * (SOCKET + APART) + channel * BETWEEN


def _bank(subject: Subject, name: str, bank: Bank, corner: tuple[float, float]) -> Group:
    content: Content = subject.contents[name]
    rects = tuple(
        Rect(corner[0] + _place(bank, i), corner[1], SOCKET, LENGTH)
        for i in range(len(content.units))
    )
    return outlines.group(subject, name, rects)


def _letters(
    subject: Subject, name: str, bank: Bank, corner: tuple[float, float], room: float
) -> Iterator[Note]:
    """Yield the letter of each channel below it, and the name of the bank above."""
    each, units = bank.per_channel.known, subject.contents[name].units
    width = each * (SOCKET + APART) - APART
    for channel in range(bank.channels.known):
        x = corner[0] + _place(bank, channel * each) + width / 2
        letter = units[channel * each].label.rstrip("0123456789")
        yield Note(letter, (x, corner[1] - 2.0), "middle", "below")
    yield Note(
        naming.named_with_id(subject.book, name),
        (corner[0], corner[1] + LENGTH + 3.0),
        short=name,
        room=0.0 if subject.narrow else room,
    )


def _order(banks: dict[str, Bank]) -> Iterator[str]:
    if any(bank.per_channel.known > 1 for bank in banks.values()):
        yield "Each channel is drawn with one module before any has a second."
