"""What programs send."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from fastapi import Request

from baywright.desk.opening import Opened, open_book
from baywright.desk.request import Request as Asked
from baywright.web.access import reader
from baywright.web.workbench import workbench


@dataclass(frozen=True, slots=True)
class Question:
    """A question about a book.

    Args:
        question: the expression.
        as_of: the day, in ISO form; that of the book unless given.
        altitude: altitude of the site with its unit.
        inlet: temperature of the air taken in with its unit.
    """

    question: str
    as_of: str = ""
    altitude: str = ""
    inlet: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """A text: a build, a need or a draft.

    Args:
        text: the text, YAML for builds and needs.
        volts: voltage of the feeds with its unit, where a build is sized.
    """

    text: str
    volts: str = ""


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps on the bench, such as ``A:S8``."""

    steps: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class NewBuild:
    """A build to keep."""

    name: str
    book: str
    text: str


@dataclass(frozen=True, slots=True)
class Change:
    """A change to a kept build.

    Args:
        version: the version that was read.
        text: the new text.
    """

    version: int
    text: str


@dataclass(frozen=True, slots=True)
class NewToken:
    """A token to issue, with roles such as ``read`` and ``work``."""

    name: str
    scopes: list[str]


def opened_for(request: Request, book: str, asked: Asked | None = None) -> Opened:
    """Return a book with engines of its own, for a day and site where they are given.

    Raises:
        SignInFirst: when nobody is signed in and there is no token.
        Problems: for the book, the day or the site.
    """
    reader(request)
    held = workbench(request).shelf.bench(book).opened
    given = asked or Asked()
    if asked is None or (not given.as_of and not given.altitude and not given.inlet):
        return replace(held, panel=given.panel())
    return open_book(held.folder, given.setting(), given.panel())
