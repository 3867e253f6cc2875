"""Dates and status under two versions: who can be sold what, and when."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping

from baywright.desk.changes.facts import about
from baywright.desk.changes.said import Pair, Said
from baywright.desk.changes.watched import Versions, Watched
from baywright.desk.opening import Opened
from baywright.facts.book import Book, facts_of

STATES: Mapping[str, tuple[str, str]] = {
    "announced": ("may not be named", "may be named"),
    "ships": ("does not ship", "ships"),
    "last_order": ("can be ordered", "can be ordered no more"),
}
"""Dates of a machine or a part, with what holds before and from the day of the new state."""


def standing(versions: Versions, _: Watched) -> Iterator[Pair]:
    """Yield what the machine is on the day of each version."""
    before, after = versions.pair(_standing)
    yield Pair("status", versions.new.opened.book.book.name, before, after)


def dates(versions: Versions, _: Watched) -> Iterator[Pair]:
    """Yield the dates of the machine and its parts, with what differs between them."""
    old, new = _dates(versions.old.opened.book), _dates(versions.new.opened.book)
    for path in dict.fromkeys((*old, *new)):
        was, now = old.get(path), new.get(path)
        words = f"{_iso(now) or 'No date'}. {_between(path, was, now)}".strip()
        before = Said(_iso(was), f"{_iso(was) or 'No date'}.")
        yield Pair("date", about(versions.new.opened.book, path), before, Said(_iso(now), words))


def last_orders(versions: Versions, _: Watched) -> Iterator[Pair]:
    """Yield what can be ordered on the day of the old version and no more on that of the new."""
    first, last = versions.old.opened.as_of, versions.new.opened.as_of
    for path, day in _dates(versions.new.opened.book).items():
        if path.endswith(".last_order"):
            before, after = (Said(each <= day, _orderable(each, day)) for each in (first, last))
            yield Pair("last order", about(versions.new.opened.book, path), before, after)


def shipping_parts(versions: Versions, _: Watched) -> Iterator[Pair]:
    """Yield parts that ship on the day of one version and not yet on that of the other."""
    first, last = versions.old.opened.as_of, versions.new.opened.as_of
    for path, day in _dates(versions.new.opened.book).items():
        if path.startswith("parts.") and path.endswith(".ships"):
            before, after = (Said(each >= day, _shipped(each, day)) for each in (first, last))
            yield Pair("part", about(versions.new.opened.book, path), before, after)


def _shipped(on: datetime.date, first: datetime.date) -> str:
    said = "it ships" if on >= first else "it does not ship yet"
    return f"On {on.isoformat()} {said}; the first day is {first.isoformat()}."


def _orderable(on: datetime.date, last: datetime.date) -> str:
    said = "it can be ordered" if on <= last else "it can be ordered no more"
    return f"On {on.isoformat()} {said}; the last day is {last.isoformat()}."


def _standing(opened: Opened) -> Said:
    held = opened.status
    words = f"{held.word.capitalize()} on {opened.as_of.isoformat()}. {held.note}".strip()
    return Said(held.word, words)


def _dates(book: Book) -> dict[str, datetime.date]:
    return {
        fact.path: fact.value
        for fact in facts_of(book)
        if fact.path.rpartition(".")[2] in STATES and isinstance(fact.value, datetime.date)
    }


def _iso(day: datetime.date | None) -> str:
    return day.isoformat() if day else ""


def _between(path: str, old: datetime.date | None, new: datetime.date | None) -> str:
    """Return what holds between two days by the new version and not by the old one."""
    if old is None or new is None or old == new:
        return ""
    ended, begun = STATES[path.rpartition(".")[2]]
    first, last = min(old, new), max(old, new)
    day = datetime.timedelta(days=1)
    if path.endswith(".last_order"):  # The last day of the old state, not the first of the new one.
        first, last = first + day, last + day
    state = ended if new > old else begun
    return f"From {first.isoformat()} until {(last - day).isoformat()} it {state}."
