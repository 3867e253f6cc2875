"""Ask: one question, its reading, its verdict with the picture, and what was asked before."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from fastapi import APIRouter, Request, Response

from baywright.answers.verdicts import No, Verdict, Yes
from baywright.answers.wording import Sheet
from baywright.desk.as_json import answer_json
from baywright.desk.asking import ask
from baywright.desk.bench.steps import step_of_values
from baywright.desk.opening import Opened, standard_panel
from baywright.desk.proofreading.answering import Answerer, Told, is_expression
from baywright.desk.proofreading.as_json import told_json
from baywright.desk.telling import answer_sheet
from baywright.desk.words import words
from baywright.problems import Problem, Problems
from baywright.store import Answered, Store, StoreUnavailable
from baywright.web.access import reader
from baywright.web.bench_address import BenchAddress
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import Visitor, workbench

router = APIRouter(include_in_schema=False)

MOST_SHOWN = 10
"""Questions of before that are listed."""


@dataclass(frozen=True, slots=True)
class Found:
    """What came of a question.

    Args:
        sheet: the verdict in words, where an engine was asked.
        told: the answer to a question in plain words.
        problems: why there is no answer.
        benches: addresses of the bench with the builds that are shown, the nearest ones in order.
    """

    sheet: Sheet | None = None
    told: Told | None = None
    problems: tuple[Problem, ...] = ()
    benches: tuple[str, ...] = ()


@router.get("/ask/{book}")
def ask_page(request: Request, book: str, q: str = "") -> Response:
    """Answer a question, if there is one."""
    who, held = reader(request), workbench(request)
    opened = with_own_engines(held.shelf.bench(book).opened)
    question = q.strip()
    found = _answered(held.store, who, opened, question) if question else Found()
    return page(
        request,
        "ask.html.j2",
        question or text("ask"),
        here="ask",
        book=book,
        status=422 if found.problems else 200,
        question=q,
        found=found,
        before=_before(held.store, who),
        words=words(opened) if not question or found.problems else (),
        opened=opened,
    )


def _answered(store: Store, who: Visitor, opened: Opened, question: str) -> Found:
    try:
        if is_expression(question):
            answer = ask(opened, question)
            sheet = answer_sheet(opened, answer)
            said = {**answer_json(answer), "word": sheet.word}
            _keep(store, who, opened, (question, answer.reading), said)
            return Found(sheet, benches=_benches(opened, answer.verdict))
        return _in_plain_words(store, who, opened, question)
    except Problems as wrong:
        return Found(problems=wrong.problems)


def _in_plain_words(store: Store, who: Visitor, opened: Opened, question: str) -> Found:
    told = Answerer(opened).ask(question)
    if told.not_understood:
        message = f"{text('not_understood')} {', '.join(told.not_understood)}."
        return Found(problems=(Problem("not-understood", message, None, text("ask_otherwise")),))
    sheet = answer_sheet(opened, told.verdict) if told.verdict is not None else None
    said = {**told_json(told), "word": sheet.word if sheet else told.answer}
    _keep(store, who, opened, (question, told.reading), said)
    return Found(
        sheet, told, benches=_benches(opened, told.verdict.verdict) if told.verdict else ()
    )


def _benches(opened: Opened, verdict: Verdict) -> tuple[str, ...]:
    """Return where the builds that a verdict shows are open on the bench."""
    shown = [verdict.witness] if isinstance(verdict, Yes) else []
    if isinstance(verdict, No):
        shown = [each.witness for each in verdict.nearest]
    book = opened.folder.name
    steps = (step_of_values(opened.machine, each.values) for each in shown)
    return tuple(str(BenchAddress(book, (str(step),))) for step in steps)


def with_own_engines(opened: Opened) -> Opened:
    """Return an open book with engines that nobody else asks at the same time."""
    return replace(opened, panel=standard_panel())


def _asker(who: Visitor) -> str:
    return who.name or f"visit {who.visit}"


def _keep(
    store: Store,
    who: Visitor,
    opened: Opened,
    asked: tuple[str, str],
    said: Mapping[str, object],
) -> None:
    """Keep a question with its reading and answer, once where the same is asked again at once."""
    book, last = str(opened.book.book.id), _before(store, who)[:1]
    if last and (last[0].question, last[0].book) == (asked[0], book):
        return
    try:
        store.answers.keep(book, *asked, said, opened.as_of, _asker(who))
    except StoreUnavailable:
        # The answer is shown all the same; the list of questions does without it.
        return


def _before(store: Store, who: Visitor) -> tuple[Answered, ...]:
    try:
        return store.answers.recent(_asker(who), MOST_SHOWN)
    except StoreUnavailable:
        return ()
