"""What the command compares: two builds, two books, or a build with its like in another book."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

from baywright.desk.compare.books import compare_books
from baywright.desk.compare.builds import Made, compare_made, made
from baywright.desk.compare.like import Like, like
from baywright.desk.compare.rows import Comparison
from baywright.desk.judging import setting_of
from baywright.desk.opening import Opened, open_book
from baywright.desk.request import Request, opened
from baywright.files.books import bundled_books, read_build
from baywright.problems import problem


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be compared, as typed.

    Args:
        first: a build file, or another book.
        second: a second build file, or empty.
        to: the book in which the like of the build is wanted, or empty.
    """

    first: str
    second: str = ""
    to: str = ""


Found: TypeAlias = "Comparison | Like"


def compared(book: str, asked: Asked, request: Request) -> Found:
    """Compare what is asked for.

    Raises:
        Problems: for the books or builds, or when a build cannot be built.
        StoppedError: at a limit.
        RecheckError: when an engine's result did not pass its re-check.
    """
    if asked.second:
        pair = [_made(book, Path(each), request) for each in (asked.first, asked.second)]
        return compare_made(pair[0], pair[1])
    if asked.to:
        build = read_build(Path(asked.first))
        voltage = build.site.voltage.text if build.site.voltage else ""
        return like(_made(book, Path(asked.first), request), opened(asked.to, request), voltage)
    if asked.first not in bundled_books() and not Path(asked.first).is_dir():
        message = f"{asked.first} is no book, and one build alone cannot be compared."
        raise problem("nothing-to-compare", message, None, "Give a second build, or --to BOOK.")
    return compare_books(opened(book, request), opened(asked.first, request))


def _made(book: str, path: Path, request: Request) -> Made:
    build = read_build(path)
    found = made(_opened(book, path, request), build)
    if found.shown is None:
        message = f"{path} cannot be built, so there is nothing to compare."
        raise problem("not-built", message, None, "The command judge says why.")
    return found


def _opened(book: str, path: Path, request: Request) -> Opened:
    setting = setting_of(read_build(path), request.setting())
    return open_book(book, setting, request.panel())
