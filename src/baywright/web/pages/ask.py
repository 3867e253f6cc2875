"""Ask: one question, its reading, its verdict with the picture, and what was asked before."""

from __future__ import annotations

from dataclasses import replace

from fastapi import APIRouter, Request, Response

from baywright.answers.wording import Sheet
from baywright.desk.as_json import answer_json
from baywright.desk.asking import Answer, ask
from baywright.desk.opening import Opened, standard_panel
from baywright.desk.telling import answer_sheet
from baywright.desk.words import words
from baywright.problems import Problem, Problems
from baywright.store import Answered, Store, StoreUnavailable
from baywright.web.access import reader
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import Visitor, workbench

router = APIRouter(include_in_schema=False)

MOST_SHOWN = 10
"""Questions of before that are listed."""


@router.get("/ask/{book}")
def ask_page(request: Request, book: str, q: str = "") -> Response:
    """Answer a question, if there is one."""
    who, held = reader(request), workbench(request)
    opened = with_own_engines(held.shelf.bench(book).opened)
    sheet: Sheet | None = None
    problems: tuple[Problem, ...] = ()
    if q.strip():
        try:
            answer = ask(opened, q.strip())
            sheet = answer_sheet(opened, answer)
            _keep(held.store, who, opened, answer, sheet.word)
        except Problems as found:
            problems = found.problems
    return page(
        request,
        "ask.html.j2",
        q.strip() or text("ask"),
        here="ask",
        book=book,
        status=422 if problems else 200,
        question=q,
        sheet=sheet,
        problems=problems,
        before=_before(held.store, who),
        words=words(opened) if not q.strip() or problems else (),
        opened=opened,
    )


def with_own_engines(opened: Opened) -> Opened:
    """Return an open book with engines that nobody else asks at the same time."""
    return replace(opened, panel=standard_panel())


def _asker(who: Visitor) -> str:
    return who.name or f"visit {who.visit}"


def _keep(store: Store, who: Visitor, opened: Opened, answer: Answer, word: str) -> None:
    """Keep an answer, once where the same is asked again at once."""
    last = _before(store, who)[:1]
    if last and (last[0].question, last[0].book) == (answer.question, answer.book):
        return
    said = {**answer_json(answer), "word": word}
    try:
        store.answers.keep(
            answer.book, answer.question, answer.reading, said, opened.as_of, _asker(who)
        )
    except StoreUnavailable:
        # The answer is shown all the same; the list of questions does without it.
        return


def _before(store: Store, who: Visitor) -> tuple[Answered, ...]:
    try:
        return store.answers.recent(_asker(who), MOST_SHOWN)
    except StoreUnavailable:
        return ()
