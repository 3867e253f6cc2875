"""Papers: guides, sheets and walkthroughs, begun and then looked at until they are done."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request, Response

from baywright.answers.as_json import Json
from baywright.problems import problem, suggestion
from baywright.web.access import reader
from baywright.web.papers import MAKERS, Made, Paper, make
from baywright.web.runs import Run
from baywright.web.workbench import workbench
from baywright.web.worker import in_process

router = APIRouter(prefix="/api/books", tags=["papers"])

AT_ONCE = 1.0
"""Seconds that a request waits before it says how far a paper has come."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """A paper; what is left empty is as usual.

    Args:
        kind: ``guide``, ``walk``, or a kind of sheet such as ``summary``.
        build: the build it is about, as YAML.
        as_of: the day, in ISO form.
        audience: who listens to a walkthrough.
        minutes: how long a walkthrough is.
        rate: words a minute.
        orientation: how the machine stands, by id.
        other: the book to compare with.
        length: how long answers of a sheet are.
    """

    kind: str
    build: str = ""
    as_of: str = ""
    audience: str = ""
    minutes: str = ""
    rate: str = ""
    orientation: str = ""
    other: str = ""
    length: str = ""


@router.post("/{book}/papers")
def make_paper(request: Request, book: str, body: Wanted) -> Json:
    """Begin a paper, or say how far the same one is: its files are named when it is done."""
    run = _run(request, book, body)
    if not run.wait(AT_ONCE):
        return {"done": False, "said": run.said, "seconds": round(run.seconds, 1), "files": []}
    files = [{"name": name, "bytes": len(held)} for name, held in run.answer().files.items()]
    return {"done": True, "said": "", "seconds": round(run.seconds, 1), "files": files}


@router.post("/{book}/papers/file")
def get_paper_file(request: Request, book: str, body: Wanted, name: str) -> Response:
    """Send a file of a paper that is done; ``everything.zip`` holds all of them."""
    run = _run(request, book, body)
    if not run.wait(AT_ONCE):
        raise problem("not-done", "The paper is not done yet.", None, "Ask how far it is.")
    held = run.answer().file(name)
    if held is None:
        hint = suggestion(name, run.answer().files)
        raise problem("no-file", f"The paper has no file {name!r}.", None, hint)
    return Response(held, media_type="application/octet-stream")


def _run(request: Request, book: str, body: Wanted) -> Run[Made]:
    reader(request)
    held = workbench(request)
    if body.kind not in MAKERS:
        hint = suggestion(body.kind, MAKERS)
        raise problem("no-paper", f"There is no paper {body.kind!r}.", None, hint)
    if body.other and body.other not in held.shelf.books:
        hint = suggestion(body.other, held.shelf.books)
        raise problem("no-book", f"There is no book {body.other!r} here.", None, hint)
    paper = Paper(
        body.kind,
        held.shelf.name(book),
        body.as_of,
        body.build,
        body.audience,
        body.minutes,
        body.rate,
        body.orientation,
        body.other,
        body.length,
    )
    return held.papers.of(
        (held.shelf.state(book), paper), lambda tell: in_process(make, paper, tell)
    )
