"""The commands keep and kept: the question desk at the terminal."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from rich.text import Text

from baywright.answers.as_json import Json
from baywright.answers.wording import Sheet
from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import sheet
from baywright.desk.changes.said import Pair
from baywright.desk.kept import desk, telling
from baywright.desk.kept.asking import answer, before, of_book
from baywright.desk.kept.entry import Entry
from baywright.desk.kept.file import add_kept, read_kept
from baywright.desk.opening import Opened
from baywright.desk.request import Request, opened
from baywright.problems import problem

__all__ = ["Request", "Wanted", "keep", "kept"]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of kept answers.

    Args:
        again: to hold them against the book as it is.
        most: the questions asked most.
        undecided: the facts that would answer what stayed open.
        corrected: ``path=value`` of a corrected fact, or empty.
    """

    again: bool = False
    most: bool = False
    undecided: bool = False
    corrected: str = ""


@guarded
def keep(book: str, question: str, file: Path, by: str, request: Request, *, as_json: bool) -> int:
    """Answer a question and keep the answer."""
    kept_before = read_kept(file)
    with progress(f"Asking {book}", as_json=as_json):
        now = datetime.datetime.now(datetime.UTC).replace(microsecond=0)
        entry = answer(opened(book, request), question, by, now)
    add_kept(file, entry)
    found = tuple(before(of_book(kept_before, entry.book), entry))
    if as_json:
        asked = [{"asked": each.entry.asked, "same": each.same} for each in found]
        show_json({**entry.as_json(), "before": asked})
    else:
        show(sheet(telling.kept_sheet(entry, found)))
    return ANSWERED


@guarded
def kept(book: str, file: Path, wanted: Wanted, request: Request, *, as_json: bool) -> int:
    """Show kept answers, or what became of them."""
    with progress(f"Reading {file}", as_json=as_json):
        desk_book, held = opened(book, request), read_kept(file)
        entries = of_book(held, desk_book.book.book.id)
        shown, data = _found(desk_book, entries, wanted)
    if as_json:
        show_json(data)
        return ANSWERED
    show(sheet(shown))
    if len(held) > len(entries):
        show([Text(telling.left_aside(len(held) - len(entries)))])
    return ANSWERED


def _found(book: Opened, entries: Sequence[Entry], wanted: Wanted) -> tuple[Sheet, Json]:
    if wanted.again:
        pairs = desk.again(book, entries)
        return telling.again_sheet(pairs), {"answers": [_pair(each) for each in pairs]}
    if wanted.corrected:
        path, value = _fact(wanted.corrected)
        found = desk.corrected(book, entries, path, value)
        data = {"wrong": list(map(_pair, found.wrong)), "still": list(map(_pair, found.still))}
        return telling.corrected_sheet(found), data
    if wanted.most:
        asked = desk.most_asked(entries)
        data = {"questions": [{"asked": each.entry.asked, "times": each.times} for each in asked]}
        return telling.most_sheet(asked), data
    if wanted.undecided:
        waiting = desk.left_open(entries)
        data = {"facts": [{"fact": p, "asked": [e.asked for e in each]} for p, each in waiting]}
        return telling.open_sheet(waiting), data
    return telling.list_sheet(entries), {"answers": [entry.as_json() for entry in entries]}


def _fact(text: str) -> tuple[str, str]:
    path, equals, value = text.partition("=")
    if not (equals and path.strip() and value.strip()):
        hint = "Write --corrected 'parts.fan.flow=35 CFM'."
        raise problem("no-fact", f"{text!r} is no fact with its value.", None, hint)
    return path.strip(), value.strip()


def _pair(pair: Pair) -> Json:
    return {
        "asked": pair.name,
        "changed": pair.flips,
        "anew": pair.anew,
        "before": pair.before.words,
        "now": pair.after.words,
    }
