"""Requests as people type them: day, site and time limit as texts, read with their problems."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from baywright.answers.inquiry import Panel
from baywright.desk.judging import Judgement, judge_build, setting_of
from baywright.desk.opening import Opened, Setting, open_book, standard_panel
from baywright.engines.contract import Limit
from baywright.files.books import read_build
from baywright.problems import Problem, Problems, problem
from baywright.units import Quantity, UnitError, parse

ValueT = TypeVar("ValueT")

SHORTEST = 0.1
"""Seconds, the shortest limit. Engines look at the time only once they have taken in a space,
which is some hundredths of a second for the bundled books; a shorter limit would not be kept."""


@dataclass(frozen=True, slots=True)
class Request:
    """What stands beside a question, as typed; an empty text leaves the standard.

    Args:
        as_of: the day, in ISO form.
        altitude: altitude of the site with its unit.
        inlet: temperature of the air taken in with its unit.
        seconds: most time for one step of an answer, or ``None`` for the standard.
        reasons: how many different minimal sets of reasons a no is given.
    """

    as_of: str = ""
    altitude: str = ""
    inlet: str = ""
    seconds: float | None = None
    reasons: int = 1

    def setting(self) -> Setting:
        """Return day and site.

        Raises:
            Problems: for what cannot be read, all of it.
        """
        found: list[Problem] = []
        day = _read(found, _date, self.as_of, "as-of")
        altitude = _read(found, _length, self.altitude, "altitude")
        inlet = _read(found, _temperature, self.inlet, "inlet")
        if found:
            raise Problems(found)
        return Setting(day, altitude, inlet)

    def panel(self) -> Panel:
        """Return the engines with the time limit and the number of sets of reasons.

        Raises:
            Problems: when the limit is too short to answer in, or no set is wanted.
        """
        if self.reasons < 1:
            message = f"reasons: {self.reasons} sets of reasons cannot be shown."
            raise problem("reasons", message, None, "Give 1 or more.")
        standard = replace(standard_panel(), reason_sets=self.reasons)
        if self.seconds is None:
            return standard
        if not self.seconds >= SHORTEST:
            message = f"limit: {self.seconds:g} s is too short to be kept."
            raise problem("limit", message, None, f"Give {SHORTEST:g} s or more, such as 20.")
        patience, handy = (
            Limit(min(each.seconds, self.seconds))
            for each in (standard.patience, standard.patience_for_the_best)
        )
        return replace(
            standard, patience=patience, patience_for_the_best=handy, limit=Limit(self.seconds)
        )


def opened(book: str, request: Request) -> Opened:
    """Open a book as requested.

    Raises:
        Problems: for the request or the book.
    """
    return open_book(book, request.setting(), request.panel())


def judged(book: str, path: Path, request: Request) -> tuple[Opened, Judgement]:
    """Judge a build file; a site in the request goes before the site of the build.

    Raises:
        Problems: for the request, the build or the book.
    """
    asked, build = request.setting(), read_build(path)
    book_open = open_book(book, setting_of(build, asked), request.panel())
    return book_open, judge_build(book_open, build)


def _read(
    found: list[Problem], reader: Callable[[str], ValueT], text: str, name: str
) -> ValueT | None:
    """Read a text that was given; a problem with it joins those found."""
    if not text:
        return None
    try:
        return reader(text)
    except UnitError as error:
        found.append(Problem(error.kind, f"{name}: {error.message}", None, error.hint))
    except ValueError:
        message = f"{name}: {text!r} is not a date."
        found.append(Problem("not-a-date", message, None, "Write it like 2031-07-01."))
    return None


def _date(text: str) -> datetime.date:
    return datetime.date.fromisoformat(text)


def _length(text: str) -> Quantity:
    return parse(text, "length")


def _temperature(text: str) -> Quantity:
    return parse(text, "temperature")
