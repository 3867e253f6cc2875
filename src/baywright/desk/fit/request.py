"""Fitting a need file, with day, limit and reasons as people type them."""

from __future__ import annotations

from pathlib import Path

from baywright.desk.fit.fit import LONGEST, Fitted, fit
from baywright.desk.opening import Opened, Setting, open_book
from baywright.desk.request import Request
from baywright.facts.need import Need
from baywright.files.books import read_need


def fitted(book: str, path: Path, request: Request) -> tuple[Opened, Fitted]:
    """Fit a need file.

    Args:
        book: the book.
        path: the need file; its site says altitude and inlet.
        request: day, limit of a step and number of sets of reasons.

    Raises:
        Problems: for the request, the need or the book.
        StoppedError: at a limit.
        RecheckError: when an engine's result fails its re-check.
    """
    need = read_need(path)
    opened = open_book(book, setting_of(need, request.setting()), request.panel())
    # A limit on each step is no limit on all of them: there are many numbers of machines.
    return opened, fit(opened, need, max(LONGEST, request.seconds or 0.0))


def at_site(opened: Opened, need: Need) -> Opened:
    """Return an open book as it is where a need stands.

    Raises:
        Problems: when the site lies outside the air that can be computed.
    """
    return opened.at(setting_of(need, opened.setting))


def setting_of(need: Need, asked: Setting) -> Setting:
    """Return the day that is asked for with altitude and inlet of a need."""
    altitude, inlet = need.site.altitude, need.site.inlet
    return Setting(
        asked.as_of, altitude.known if altitude else None, inlet.known if inlet else None
    )
