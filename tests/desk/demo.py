"""Questions to the bundled books; each book is opened once for a day and a site."""

from __future__ import annotations

import datetime
from fractions import Fraction
from functools import cache

from baywright.answers.verdicts import Bound, Count, No, Verdict, Yes
from baywright.desk.asking import ask
from baywright.desk.opening import Opened, Setting, open_book
from baywright.units import parse


@cache
def opened(book: str, day: str = "", altitude: str = "", inlet: str = "") -> Opened:
    """Return a bundled book, open for a day and a site."""
    setting = Setting(
        datetime.date.fromisoformat(day) if day else None,
        parse(altitude) if altitude else None,
        parse(inlet) if inlet else None,
    )
    return open_book(book, setting)


def answer(book: str, question: str, day: str = "", altitude: str = "", inlet: str = "") -> Verdict:
    """Return the verdict on a question."""
    return ask(opened(book, day, altitude, inlet), question).verdict


def holds(book: str, question: str, day: str = "", altitude: str = "", inlet: str = "") -> bool:
    """Return whether a yes-or-no question is answered with yes; anything else fails."""
    verdict = answer(book, question, day, altitude, inlet)
    assert isinstance(verdict, Yes | No)
    return isinstance(verdict, Yes)


def number(
    book: str, question: str, day: str = "", altitude: str = "", inlet: str = ""
) -> Fraction:
    """Return the most, the least or the count a question asks for."""
    verdict = answer(book, question, day, altitude, inlet)
    if isinstance(verdict, Count):
        return Fraction(verdict.number)
    assert isinstance(verdict, Bound)
    return verdict.figure.value


def reasons(
    book: str, question: str, day: str = "", altitude: str = "", inlet: str = ""
) -> set[str]:
    """Return the keys of the reasons of a no that are no wishes."""
    verdict = answer(book, question, day, altitude, inlet)
    assert isinstance(verdict, No)
    return {reason.key for reason in verdict.reasons if reason.kind != "wish"}
