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
    opened = open_book(book, _setting(need, request.setting()), request.panel())
    # A limit on each step is no limit on all of them: there are many numbers of machines.
    return opened, fit(opened, need, max(LONGEST, request.seconds or 0.0))


def _setting(need: Need, asked: Setting) -> Setting:
    altitude, inlet = need.site.altitude, need.site.inlet
    return Setting(
        asked.as_of, altitude.known if altitude else None, inlet.known if inlet else None
    )
