"""Questions: books, facts, words, answers, options, drawings."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated, TypeAlias

from fastapi import APIRouter, Query, Request, Response

from baywright.answers.as_json import Json
from baywright.desk.as_json import answer_json, checked_json, options_json
from baywright.desk.asking import ask
from baywright.desk.bench.picture import picture_of
from baywright.desk.bench.standing import stand
from baywright.desk.bench.steps import read_steps
from baywright.desk.checking import check
from baywright.desk.compare.books import compare_books
from baywright.desk.compare.telling import compared_json
from baywright.desk.count_telling import builds_json
from baywright.desk.counting import builds as count_builds
from baywright.desk.fact_table import fact_rows
from baywright.desk.fronts import book_front, front_json
from baywright.desk.options import options
from baywright.desk.random_builds import Draw, random_builds, random_builds_json
from baywright.desk.request import Request as Asked
from baywright.desk.words import words
from baywright.problems import problem
from baywright.web.access import reader
from baywright.web.api.bodies import Question, opened_for
from baywright.web.workbench import workbench

Texts: TypeAlias = Annotated[tuple[str, ...], Query()]

router = APIRouter(prefix="/api/books", tags=["questions"])

MOST_DRAWN = 100
"""Builds that are drawn at a time."""


@router.get("")
def list_books(request: Request) -> dict[str, list[str]]:
    """List the books."""
    reader(request)
    return {"books": list(workbench(request).shelf.books)}


@router.get("/{book}/check")
def check_book(request: Request, book: str) -> Json:
    """Check a book."""
    return checked_json(check(opened_for(request, book)))


@router.get("/{book}/facts")
def list_facts(request: Request, book: str) -> Json:
    """List every fact with source, date, status and what stands on it."""
    return {"facts": [asdict(row) for row in fact_rows(opened_for(request, book))]}


@router.get("/{book}/words")
def list_words(request: Request, book: str) -> Json:
    """List the words a question may use."""
    found = words(opened_for(request, book))
    return {each.key: [asdict(word) for word in each.words] for each in found}


@router.post("/{book}/ask")
def ask_book(request: Request, book: str, body: Question) -> Json:
    """Answer a question."""
    asked = Asked(body.as_of, body.altitude, body.inlet)
    return answer_json(ask(opened_for(request, book, asked), body.question))


@router.get("/{book}/options")
def list_options(request: Request, book: str, given: str = "") -> Json:
    """List what each place can be in builds that have a condition."""
    found = options(opened_for(request, book), given)
    return {"book": book, "options": [options_json(each) for each in found]}


@router.get("/{book}/front")
def list_front(
    request: Request,
    book: str,
    number: Texts = (),
    given: str = "",
) -> Json:
    """List the builds that no other one beats in some numbers."""
    return front_json(book_front(opened_for(request, book), number, given))


@router.get("/{book}/count")
def count(request: Request, book: str, given: str = "") -> Json:
    """Count the legal builds that have a condition."""
    return builds_json(count_builds(opened_for(request, book), given))


@router.get("/{book}/random")
def draw_builds(
    request: Request, book: str, number: int = 1, seed: int = 1, given: str = ""
) -> Json:
    """Draw legal builds at random, each as likely as any other."""
    if not 1 <= number <= MOST_DRAWN:
        message = f"{number} builds cannot be drawn."
        raise problem("number", message, None, f"Ask for 1 to {MOST_DRAWN}.")
    return random_builds_json(random_builds(opened_for(request, book), Draw(number, seed, given)))


@router.get("/{book}/compare/{other}")
def compare(request: Request, book: str, other: str) -> Json:
    """Compare two books."""
    return compared_json(compare_books(opened_for(request, book), opened_for(request, other)))


@router.get("/{book}/drawing/{view}.svg")
def draw(
    request: Request,
    book: str,
    view: str,
    s: Texts = (),
    width: float = 1100.0,
) -> Response:
    """Draw a view of a machine after some steps on the bench."""
    reader(request)
    bench = workbench(request).shelf.bench(book)
    standing = stand(bench, read_steps(bench.machine, s)) if s else None
    svg = picture_of(bench, standing, view, width)
    return Response(svg, media_type="image/svg+xml")
