"""Usable space: drives of one model in arrays that survive failures, each under one controller."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from baywright.facts.parts import Drive
from baywright.laws.controllers import cable_of
from baywright.laws.formula import AllOf, AtMost, Exists, Formula, Rows
from baywright.laws.frame import Frame, Option
from baywright.laws.linear import Linear, added
from baywright.space import Choice

DIRECT = ""
"""The group of the drives that no controller drives."""


def arrays_keep(frame: Frame, data: Fraction, failures: int) -> Formula:
    """Return the formula that the drives keep some data through failures wherever they fall.

    All drives inside are of one model, and those behind one controller, or behind none, are one
    array: with n drives of capacity c it keeps (n - f) c (R0, R5 and R6 of the common disk data
    format, or mirrors), and has more drives than it survives failures.

    Args:
        frame: the choices.
        data: data to keep [B]; with none asked for, arrays have to survive all the same.
        failures: failures f that each array survives.
    """
    held = list(_holders(frame))
    drives = [name for name in frame.book.parts_of("drive") if _capacity(frame, name)]
    groups = list(dict.fromkeys(group for name in held for group in _groups(frame, name)))
    many = range(1, len(groups) + 1)
    # A product is not a sum, so model and number of arrays are one choice.
    pairs = [(drive, number) for drive in drives for number in many]
    kind = Choice(
        "arrays", tuple(f"{n} of {drive}" for drive, n in pairs) or ("none",), derived=True
    )
    shares = [_share(frame, name, group) for name in held for group in _groups(frame, name)]
    used = [
        Choice(f"{group or 'board'} has an array", ("no", "yes"), derived=True) for group in groups
    ]
    terms: list[Formula] = [rows for _, rows, _ in shares]
    terms += [_of_model(frame, name, kind, pairs) for name in held]
    for group, choice in zip(groups, used, strict=True):
        there = [share for share, _, of in shares if of == group]
        terms += _counts(choice, there, failures)
    every = added(Linear({choice.name: (Fraction(0), Fraction(1))}) for choice in used)
    terms += [
        AtMost(every.minus(Linear({kind.name: _numbers(pairs)})), Fraction(0)),
        AtMost(_left(frame, kind, pairs, failures).scaled(-1), -data),
        AtMost(every.scaled(-1), Fraction(-1)),
    ]
    if not pairs:
        terms.append(Rows((kind.name,), frozenset()))
    return Exists((kind, *used, *(share for share, _, _ in shares)), AllOf(tuple(terms)))


def _numbers(pairs: list[tuple[str, int]]) -> tuple[Fraction, ...]:
    return tuple(Fraction(number) for _, number in pairs) or (Fraction(0),)


def _holders(frame: Frame) -> Iterator[str]:
    """Yield the choices that put drives in."""
    for name, fitting in frame.fittings.items():
        if not fitting.derived and any(_drives(frame, option) for option in fitting.options):
            yield name


def _drives(frame: Frame, option: Option) -> dict[str, int]:
    found: dict[str, int] = {}
    for name, part, count in frame.parts_in(option):
        if isinstance(part, Drive):
            found[name] = found.get(name, 0) + count
    return found


def _capacity(frame: Frame, drive: str) -> Fraction:
    part = frame.book.parts[drive]
    return part.capacity.known.canonical if isinstance(part, Drive) else Fraction(0)


def _groups(frame: Frame, holder: str) -> list[str]:
    """Return the slots whose controller may drive what a choice holds, and ``DIRECT``."""
    cable = cable_of(frame.fittings[holder].place)
    if cable not in frame.fittings:
        return [DIRECT]
    return [str(option.value or DIRECT) for option in frame.options(cable)]


def _share(frame: Frame, holder: str, group: str) -> tuple[Choice, Rows, str]:
    """Return how many drives of a choice belong to a group, and the rows that say so."""
    numbers = [sum(_drives(frame, option).values()) for option in frame.options(holder)]
    labels = tuple(map(str, range(max(numbers) + 1)))
    share = Choice(f"{holder} in the array of {group or 'the board'}", labels, derived=True)
    cable = cable_of(frame.fittings[holder].place)
    if cable not in frame.fittings:
        rows = frozenset((i, number) for i, number in enumerate(numbers))
        return share, Rows((holder, share.name), rows), group
    rows3 = frozenset(
        (i, j, number if (option.value or DIRECT) == group else 0)
        for i, number in enumerate(numbers)
        for j, option in enumerate(frame.options(cable))
    )
    return share, Rows((holder, cable, share.name), rows3), group


def _of_model(frame: Frame, holder: str, kind: Choice, pairs: list[tuple[str, int]]) -> Rows:
    rows = frozenset(
        (i, j)
        for i, option in enumerate(frame.options(holder))
        for j, (drive, _) in enumerate(pairs)
        if set(_drives(frame, option)) <= {drive}
    )
    return Rows((holder, kind.name), rows)


def _counts(used: Choice, shares: list[Choice], failures: int) -> Iterator[Formula]:
    """Yield that a group has an array where it has drives, and enough of them."""
    there = added(Linear({share.name: tuple(map(Fraction, range(share.size)))}) for share in shares)
    most = there.highest
    yield AtMost(there.plus(Linear({used.name: (Fraction(0), -most)})), Fraction(0))
    least = Fraction(failures + 1)
    yield AtMost(Linear({used.name: (Fraction(0), least)}).minus(there), Fraction(0))


def _left(frame: Frame, kind: Choice, pairs: list[tuple[str, int]], failures: int) -> Linear:
    """Return the space left beside what failures may take."""
    raw = frame.linear(lambda name, _: _capacity(frame, name), "capacity")
    taken = tuple(-failures * number * _capacity(frame, drive) for drive, number in pairs)
    return raw.plus(Linear({kind.name: taken or (Fraction(0),)}, dimension="capacity"))
