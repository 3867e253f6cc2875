"""What every page needs: the settings, the books, the store, and who is asking."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import cast

from fastapi import Request

from baywright.desk.changes.changing import Changes
from baywright.desk.fit.fit import Fitted
from baywright.language.passages import Remark
from baywright.store import Person, Store
from baywright.web.papers import Made
from baywright.web.registry import Navigation
from baywright.web.runs import Runs
from baywright.web.settings import Settings
from baywright.web.shelf import Shelf

MOST_PAPERS = 12
"""Finished papers whose files are kept; one has some megabytes."""


@dataclass(frozen=True, slots=True)
class Workbench:
    """The server's belongings.

    Args:
        settings: how it runs.
        shelf: the open books.
        store: what people keep.
        navigation: the pages that stand at the head of each page.
        needs: searches for builds that meet a need.
        proofs: what the prose of each book was found to say.
        papers: guides, walkthroughs and sheets; the last few are kept.
        changes: what flips between versions of a book.
    """

    settings: Settings
    shelf: Shelf
    store: Store
    navigation: Navigation = ()
    needs: Runs[Fitted] = field(default_factory=Runs)
    proofs: Runs[tuple[Remark, ...]] = field(default_factory=Runs)
    papers: Runs[Made] = field(default_factory=lambda: Runs(MOST_PAPERS))
    changes: Runs[Changes] = field(default_factory=Runs)


@dataclass(frozen=True, slots=True)
class Visitor:
    """Who is asking.

    Args:
        visit: name of the visit; the same for all pages of a browser.
        session: token of the session, or empty.
        person: who signed in, or ``None``.
        trusted: whether everything is allowed without signing in.
    """

    visit: str = ""
    session: str = ""
    person: Person | None = None
    trusted: bool = False

    @property
    def name(self) -> str:
        """The name of the person, or empty."""
        return self.person.name if self.person else ""

    @property
    def may_read(self) -> bool:
        """Whether pages may be read."""
        return self.trusted or (self.person is not None and self.person.may_read)

    @property
    def may_work(self) -> bool:
        """Whether builds may be kept."""
        return self.trusted or (self.person is not None and self.person.may_work)

    def may_own(self, book: str) -> bool:
        """Say whether the facts of a book may be changed."""
        return self.trusted or (self.person is not None and self.person.may_own(book))


def workbench(request: Request) -> Workbench:
    """Return the belongings of the server that got a request."""
    return cast("Workbench", request.app.state.workbench)


def visitor(request: Request) -> Visitor:
    """Return who is asking."""
    return cast("Visitor", request.state.visitor)
