"""What a machine has and the one after it has less of, or not at all."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from baywright.answers.figures import amount
from baywright.answers.verdicts import Witness
from baywright.facts.book import Book
from baywright.facts.model import Port
from baywright.laws.wording import counted

MORE_IS_BETTER = ("cores", "memory", "memory_speed", "bays", "raw_capacity", "supplies_carry")
"""Numbers of a build of which less is a loss."""


def losses(old: Book, before: Witness, new: Book, after: Witness) -> tuple[str, ...]:
    """Return what is lost when one build takes the place of another, one sentence each.

    Args:
        old: the book of the machine that stands.
        before: its build.
        new: the book of the machine after it.
        after: its build.
    """
    return (
        *_numbers(before, after),
        *_ports(old, before, new, after),
        *_room(old, new),
        *_settings(old, new),
    )


def _numbers(before: Witness, after: Witness) -> Iterator[str]:
    had = {figure.name: figure for figure in before.figures}
    has = {figure.name: figure for figure in after.figures}
    for name in MORE_IS_BETTER:
        if name in had and (name not in has or has[name].value < had[name].value):
            mine = had[name]
            now = amount(has[name].value, mine.dimension, "down") if name in has else "none"
            words = mine.words.removeprefix("the ")
            yield f"{words}: {now} instead of {amount(mine.value, mine.dimension, 'down')}"


def _ports(old: Book, before: Witness, new: Book, after: Witness) -> Iterator[str]:
    """Yield ports that are fewer on a side of the machine; those elsewhere do not make up."""
    had, has = _count(old, before.parts), _count(new, after.parts)
    for (kind, side), number in had.items():
        left = has[kind, side]
        if left < number:
            yield f"{counted(number, f'{kind} port')} {_side(side)}: {left or 'none'} left"


def _side(scope: str) -> str:
    return scope if scope == "inside" else f"at the {scope}"


def _count(book: Book, parts: Mapping[str, int]) -> Counter[tuple[str, str]]:
    counts: Counter[tuple[str, str]] = Counter()
    for port, number in _all(book, parts):
        counts[str(port.type), str(port.scope)] += port.count.known * number
    return counts


def _all(book: Book, parts: Mapping[str, int]) -> Iterator[tuple[Port, int]]:
    yield from ((port, 1) for port in book.chassis.ports)
    for part, number in parts.items():
        yield from ((port, number) for port in book.parts[part].ports)


def _room(old: Book, new: Book) -> Iterator[str]:
    """Yield in which measures the machine needs more room."""
    for field in ("height", "width", "depth"):
        mine, theirs = getattr(old.chassis, field), getattr(new.chassis, field)
        if theirs.known > mine.known:
            yield f"{field}: {theirs.text} instead of {mine.text}"
    mine, theirs = old.chassis.mass_empty, new.chassis.mass_empty
    if theirs.known.canonical > mine.known.canonical:
        yield f"mass without parts: {theirs.text} instead of {mine.text}"


def _settings(old: Book, new: Book) -> Iterator[str]:
    for name, setting in old.settings.items():
        if name not in new.settings:
            yield f"{setting.name}: there is no such setting"
            continue
        for value, words in setting.values.items():
            if value not in new.settings[name].values:
                yield f"{setting.name}: {words.text} is not offered"
