"""Change and doubt: what flips between versions of a book, and answers that are kept."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request

from baywright.answers.as_json import Json
from baywright.desk.changes.as_json import changes_json
from baywright.desk.changes.said import Pair
from baywright.desk.kept import desk
from baywright.desk.kept.entry import Entry
from baywright.web.access import reader, worker
from baywright.web.answers import keep, kept_answers, kept_statements
from baywright.web.api.bodies import opened_for
from baywright.web.comparing import Versions, compare
from baywright.web.workbench import workbench

router = APIRouter(prefix="/api/books", tags=["changes"])


@dataclass(frozen=True, slots=True)
class Change:
    """Another version of a book: one of the four.

    Args:
        note: name of a change note beside the book.
        text: a change note, as YAML.
        revision: a revision of git, which becomes the book as it is.
        as_of: the day, in ISO form; the edition of the book unless given.
        until: the day of the new version, where it is another.
    """

    note: str = ""
    text: str = ""
    revision: str = ""
    as_of: str = ""
    until: str = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question to keep."""

    question: str


@dataclass(frozen=True, slots=True)
class Fact:
    """A fact that was wrong, with its right value as written."""

    fact: str
    value: str


@router.post("/{book}/changes")
def list_changes(request: Request, book: str, body: Change) -> Json:
    """List what flips between two versions; kept answers are watched too."""
    reader(request)
    held = workbench(request)
    asked = Versions(
        held.shelf.name(book),
        body.note,
        body.text,
        body.revision,
        body.as_of,
        body.until,
        kept_statements(held.store, book),
    )
    return changes_json(compare(asked, lambda _: None))


@router.get("/{book}/answers")
def list_answers(request: Request, book: str) -> Json:
    """List the kept answers, the oldest first."""
    return {"answers": [each.as_json() for each in _kept(request, book)]}


@router.post("/{book}/answers", status_code=201)
def keep_answer(request: Request, book: str, body: Asked) -> Json:
    """Answer a question and keep the answer with its proof."""
    who = worker(request)
    opened = opened_for(request, book)
    return keep(workbench(request).store, opened, book, body.question, who.name).as_json()


@router.get("/{book}/answers/again")
def hold_again(request: Request, book: str) -> Json:
    """Hold the kept answers against the book as it is."""
    found = desk.again(opened_for(request, book), _kept(request, book))
    return {"answers": [_pair(each) for each in found]}


@router.get("/{book}/answers/most")
def asked_most(request: Request, book: str) -> Json:
    """List the questions that are kept, the most asked first."""
    found = desk.most_asked(_kept(request, book))
    return {
        "questions": [
            {"asked": each.entry.asked, "times": each.times, "by": list(each.by)} for each in found
        ]
    }


@router.get("/{book}/answers/open")
def left_open(request: Request, book: str) -> Json:
    """List the facts that would decide what stayed open, with the questions they would answer."""
    found = desk.left_open(_kept(request, book))
    return {"facts": [{"fact": path, "asked": [e.asked for e in es]} for path, es in found]}


@router.post("/{book}/answers/corrected")
def which_were_wrong(request: Request, book: str, body: Fact) -> Json:
    """List the kept answers that were wrong, given the right value of a fact."""
    entries = _kept(request, book)
    found = desk.corrected(opened_for(request, book), entries, body.fact, body.value)
    return {"wrong": list(map(_pair, found.wrong)), "still": list(map(_pair, found.still))}


def _kept(request: Request, book: str) -> tuple[Entry, ...]:
    reader(request)
    held = workbench(request)
    held.shelf.bench(book)
    return kept_answers(held.store, book)


def _pair(pair: Pair) -> Json:
    return {
        "asked": pair.name,
        "changed": pair.flips,
        "anew": pair.anew,
        "before": pair.before.words,
        "now": pair.after.words,
    }
