"""What can never be: parts that nothing holds, places that stay empty, values out of reach."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from itertools import chain

from baywright.desk.review.finding import Finding, found
from baywright.desk.review.subject import Reviewed
from baywright.facts.fact import Fact, Scalar
from baywright.facts.parts.base import Part
from baywright.facts.places import Bank, Fans, PlaceBase, Slot, Supplies
from baywright.laws.frame import Option
from baywright.laws.wording import capitalised


def nothing_built(book: Reviewed) -> Iterator[Finding]:
    """Find that no build is legal at all, with the laws and rules that exclude each other."""
    if not book.buildable:
        yield found("nothing-built", "No build is legal.", book.against({}), book.book.book.id)


def never_fitted(book: Reviewed) -> Iterator[Finding]:
    """Find parts that no legal build has."""
    for name, part in book.book.parts.items():
        if part.kind == "kit":
            continue
        places = chain.from_iterable(map(book.options, book.book.places))
        because = book.never(places, _brings(book, name))
        if because is not None:
            says = f"{capitalised(part.name)} ({name}) is in no legal build."
            finding = found("never-fitted", says, because, _key(book.book.parts, name))
            yield finding if because else replace(finding, proof=("No place takes it.",))


def never_filled(book: Reviewed) -> Iterator[Finding]:
    """Find places that are empty in every legal build."""
    for name, place in book.book.places.items():
        because = book.never(book.options(name), lambda option: bool(option.parts))
        if because is not None:
            says = f"{capitalised(place.name)} is empty in every legal build."
            yield found("never-filled", says, because, _key(book.book.places, name))


def never_there(book: Reviewed) -> Iterator[Finding]:
    """Find what a place takes by its own list and never holds."""
    for name, place in book.book.places.items():
        for taken in getattr(place, "takes", ()):
            parts = book.book.taken([taken])
            because = book.never(book.options(name), _holds_one_of(book, parts))
            if because is not None and not _never_anywhere(book, parts):
                says = f"{capitalised(place.name)} is said to take {taken}, and never holds one."
                yield found("never-there", says, because, taken)


def never_counted(book: Reviewed) -> Iterator[Finding]:
    """Find numbers that a place allows and no legal build reaches."""
    for name, place in book.book.places.items():
        for count, at in _counts(place):
            because = book.never(book.options(name), _has_count(count))
            if because is not None:
                says = f"{capitalised(place.name)} never holds {count}, a number it allows."
                yield found("never-counted", says, because, at)


def never_set(book: Reviewed) -> Iterator[Finding]:
    """Find values of settings that no legal build has."""
    for name, setting in book.book.settings.items():
        for value, said in setting.values.items():
            because = book.never(book.options(name), _is_value(value))
            if because is not None:
                says = f"{capitalised(setting.name)} is never {said.text!r}."
                yield found("never-set", says, because, said)


def _has_count(count: int) -> Callable[[Option], bool]:
    return lambda option: option.count == count


def _is_value(value: str) -> Callable[[Option], bool]:
    return lambda option: option.value == value


def _brings(book: Reviewed, name: str) -> Callable[[Option], bool]:
    frame = book.opened.machine.frame
    return lambda option: any(part == name for part, _, _ in frame.parts_in(option))


def _holds_one_of(book: Reviewed, parts: dict[str, Part]) -> Callable[[Option], bool]:
    frame = book.opened.machine.frame
    return lambda option: any(part in parts for part, _, _ in frame.parts_in(option))


def _never_anywhere(book: Reviewed, parts: dict[str, Part]) -> bool:
    """Say whether parts are in no build at all, which is a finding of its own."""
    places = chain.from_iterable(map(book.options, book.book.places))
    return book.never(places, _holds_one_of(book, parts)) is not None


def _counts(place: PlaceBase) -> Iterator[tuple[int, Fact[int]]]:
    match place:
        case Bank():
            yield from ((each.known, each) for each in place.counts)
        case Supplies() | Fans():
            yield from ((each.count.known, each.count) for each in place.fitted)
        case Slot() if place.positions is not None:
            yield place.positions.known, place.positions


def _key(entries: Mapping[str, object], name: str) -> str | None:
    """Return the name of an entry as it stands in its file, with its place."""
    return next((key for key in entries if key == name and isinstance(key, Scalar)), None)
