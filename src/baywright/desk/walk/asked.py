"""What is asked of a walkthrough as people type it, read with its problems."""

from __future__ import annotations

from baywright.desk.opening import Opened
from baywright.desk.walk.audience import AUDIENCES, Audience
from baywright.drawing.orientation import Stance, stance_of, stances
from baywright.facts.build import Build
from baywright.problems import problem, suggestion


def audience_of(text: str) -> Audience:
    """Return who listens.

    Raises:
        Problems: kind ``audience`` for anybody else.
    """
    for each in AUDIENCES:
        if each == text:
            return each
    message = f"No walkthrough is for {text!r}."
    raise problem("audience", message, None, suggestion(text, AUDIENCES))


def stance_asked(opened: Opened, build: Build | None, name: str) -> Stance:
    """Return how the machine stands: as asked, as the build says, or the usual way.

    Raises:
        Problems: kind ``no-orientation`` for a way the machine does not stand.
    """
    book = opened.machine.book
    if not name:
        return stance_of(book, build)
    known = stances(book)
    if name not in known:
        message = f"{book.book.name} does not stand {name!r}."
        hint = suggestion(name, known) or "The book states no orientations; leave it out."
        raise problem("no-orientation", message, None, hint)
    return known[name]
