"""Papers made in a process of their own: what can be made, and the files it comes to."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from types import MappingProxyType

from baywright.desk.guide.chapters import chapters
from baywright.desk.guide.folder import guide_files
from baywright.desk.guide.making import make_guide
from baywright.desk.request import Request, opened
from baywright.desk.sheets.asked import LENGTHS, length_of
from baywright.desk.sheets.asked import Asked as About
from baywright.desk.sheets.files import sheet_files
from baywright.desk.sheets.making import KINDS as SHEETS
from baywright.desk.sheets.making import make_sheet
from baywright.desk.walk.asked import audience_of, stance_asked
from baywright.desk.walk.folder import walk_files
from baywright.desk.walk.pace import pace_of
from baywright.desk.walk.planning import walk
from baywright.desk.walk.script import script_of
from baywright.desk.walk.walk import Asked
from baywright.facts.build import Build
from baywright.files.books import build_from
from baywright.problems import problem, suggestion
from baywright.web.runs import Tell
from baywright.web.scratch import folder

USUAL_MINUTES = 12.0
"""How long a walkthrough is at most where no minutes are asked for."""

ALL = "everything.zip"
"""Name of the file that holds all others."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper as it was asked for; numbers are as typed.

    Args:
        kind: one of ``MAKERS``.
        book: name or folder of the book.
        as_of: the day, in ISO form; the edition of the book unless given.
        build: the build file it is about, or empty.
        audience: who listens to a walkthrough.
        minutes: how long it takes, or empty.
        rate: words a minute, or empty.
        orientation: how the machine stands, by id, or empty.
        other: the book to compare with, or empty for the predecessor.
        length: how long answers of a sheet are, or empty for full.
    """

    kind: str
    book: str
    as_of: str = ""
    build: str = ""
    audience: str = ""
    minutes: str = ""
    rate: str = ""
    orientation: str = ""
    other: str = ""
    length: str = ""


@dataclass(frozen=True, slots=True)
class Made:
    """The files of a paper by name."""

    files: Mapping[str, bytes]

    def file(self, name: str) -> bytes | None:
        """Return a file, all of them packed into one, or ``None`` for a name there is not."""
        return packed(self.files) if name == ALL else self.files.get(name)


def make(paper: Paper, tell: Tell) -> Made:
    """Make a paper.

    Raises:
        Problems: for what is asked, and for what the book lacks.
        StoppedError: at a limit.
        RecheckError: when two engines do not agree.
    """
    if paper.kind not in MAKERS:
        message = f"There is no paper {paper.kind!r}."
        raise problem("no-paper", message, None, suggestion(paper.kind, MAKERS))
    files = MAKERS[paper.kind](paper, tell)
    return Made({name: _bytes(held) for name, held in files.items()})


def _bytes(held: str | bytes) -> bytes:
    return held.encode("utf-8") if isinstance(held, str) else held


def _guide(paper: Paper, tell: Tell) -> dict[str, str | bytes]:
    tell("opening the book")
    held = opened(paper.book, Request(as_of=paper.as_of))
    tell("finding and proving what it says")
    made = make_guide(held, chapters())
    tell(f"laying it out, {len(made.statements)} statements")
    return guide_files(made, held, paper.book)


def _walk(paper: Paper, tell: Tell) -> dict[str, str | bytes]:
    tell("opening the book")
    held = opened(paper.book, Request(as_of=paper.as_of))
    build: Build | None = None
    if paper.build:
        build = build_from(paper.build.encode("utf-8"), "build")
    asked = Asked(
        _number(paper.minutes, "minutes") if paper.minutes else USUAL_MINUTES,
        audience_of(paper.audience or "sellers"),
        pace_of(_number(paper.rate, "rate") if paper.rate else 140.0),
        stance_asked(held, build, paper.orientation),
        at_most=not paper.minutes,
    )
    tell("finding the way round the machine")
    script = script_of(walk(held, build, asked))
    tell("writing the script")
    return walk_files(script)


def _sheet(kind: str, paper: Paper, tell: Tell) -> dict[str, str | bytes]:
    tell("opening the book")
    held = opened(paper.book, Request(as_of=paper.as_of))
    with folder() as made:
        build = made / "build.yaml"
        build.write_text(paper.build, encoding="utf-8")
        named = str(build) if paper.build else ""
        asked = About(kind, named, paper.other, length_of(paper.length or LENGTHS[-1]))
        tell("finding and proving what it says")
        sheet = make_sheet(held, asked)
        tell("laying it out")
        return sheet_files(sheet, held, paper.book, kind, made)[1]


def _number(text: str, what: str) -> float:
    try:
        found = float(text)
    except ValueError as error:
        message = f"{what}: {text!r} is no number."
        raise problem("number", message, None, "Give a number.") from error
    if not 0 < found < 1e6:
        raise problem("number", f"{what}: {text!r} cannot be.", None, "Give a number above 0.")
    return found


Maker = Callable[[Paper, Tell], dict[str, str | bytes]]

MAKERS: Mapping[str, Maker] = MappingProxyType(
    {"guide": _guide, "walk": _walk, **{kind: partial(_sheet, kind) for kind in SHEETS}}
)
"""Makers of papers by kind. A new kind is a function and an entry here."""


def packed(files: Mapping[str, bytes]) -> bytes:
    """Return files packed into one; the same files give the same bytes."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as made:
        for name, data in files.items():
            made.writestr(zipfile.ZipInfo(name), data, zipfile.ZIP_DEFLATED)
    return held.getvalue()
