"""Arrays of drives: phrases such as two arrays of twelve SAS drives, as a condition of a build."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from baywright.language.glossary import Slot

Read = tuple[str, int]


def arrays_at(slots: Sequence[Slot], at: int) -> Read | None:
    """Read arrays of some sizes, and return the expression with the position after them.

    Args:
        slots: the phrases.
        at: where it starts.
    """
    count, here = Fraction(1), at
    while here < len(slots) and (slots[here].has("stop") or slots[here].has("count")):
        here += 1
    if here < len(slots) and slots[here].has("number"):
        count, here = slots[here].token.number, here + 1
    if here >= len(slots) or not slots[here].has("array"):
        return None
    here = _passed(slots, here + 1, ("of", "with", "from", "and"))
    sizes, here = _sizes(slots, here)
    interface, here = _interface(slots, here)
    if here < len(slots) and slots[here].has("kind", "drive"):
        here += 1
    if here < len(slots) and slots[here].has("quant", "every"):
        here += 1
    if not sizes or (count > 1 and len(sizes) > 1) or count > len(sizes) * _MOST:
        return None
    listed = [str(size) for size in (sizes * int(count) if len(sizes) == 1 else sizes)]
    return f"arrays({', '.join([*listed, *interface])})", here


_MOST = 16
"""More arrays than these are not read."""


def _passed(slots: Sequence[Slot], here: int, links: Sequence[str]) -> int:
    while here < len(slots) and (slots[here].has("link", *links) or slots[here].has("stop")):
        here += 1
    return here


def _sizes(slots: Sequence[Slot], here: int) -> tuple[list[Fraction], int]:
    sizes: list[Fraction] = []
    after = here
    while after < len(slots) and slots[after].has("number"):
        sizes.append(slots[after].token.number)
        here = after + 1
        after = here
        while after < len(slots) and slots[after].has("link", "and", "comma"):
            after += 1
    return sizes, here


def _interface(slots: Sequence[Slot], here: int) -> tuple[list[str], int]:
    """Return the interface as a filter, where one is named."""
    if here < len(slots):
        path, _, value = next(iter(slots[here].of("filter")), "").partition("=")
        if path == "drive.interface":
            return [f'interface="{value}"'], here + 1
    return [], here
