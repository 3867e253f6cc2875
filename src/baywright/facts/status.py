"""What a machine is on a day: not announced, announced, a sample, shipping, or withdrawn."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from baywright.facts.book import Book


@dataclass(frozen=True, slots=True)
class Status:
    """The status of a machine on a day.

    Args:
        word: ``unannounced``, ``announced``, ``sample``, ``shipping`` or ``withdrawn``.
        note: a sentence to put beside answers, or empty while it ships.
    """

    word: str
    note: str = ""


def standing_line(name: str, book: str, as_of: object, held: Status) -> str:
    """Return of which machine and for which day an answer holds, and what it is on that day.

    >>> standing_line("Tiller T1", "t1", "2031-07-01", Status("shipping", ""))
    'Tiller T1 (book t1), as of 2031-07-01: shipping.'
    """
    note = f" {held.note}" if held.note else ""
    return f"{name} (book {book}), as of {as_of}: {held.word}.{note}"


def status(book: Book, day: datetime.date) -> Status:
    """Return the status on a day.

    A date is the first day of the new state; a last order date is the last day of the old one.
    """
    about = book.book
    if about.announced is not None and day < about.announced.known:
        when = about.announced.known.isoformat()
        return Status(
            "unannounced", f"{about.name} is announced on {when}; not to be named before."
        )
    if about.ships is not None and day < about.ships.known:
        when = about.ships.known.isoformat()
        if about.samples is not None and about.samples.known:
            return Status("sample", f"Until {when} there are only samples of {about.name}.")
        return Status("announced", f"{about.name} ships from {when}; this holds from then on.")
    if about.last_order is not None and day > about.last_order.known:
        when = about.last_order.known.isoformat()
        return Status("withdrawn", f"{about.name} could be ordered until {when}.")
    return Status("shipping")
