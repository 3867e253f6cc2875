"""Proofread: a draft as a file or as text, marked sentence by sentence."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePath

from fastapi import APIRouter, Request, Response
from fastapi.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile

from baywright.desk.drafts.checking import Proofread, proofread_file
from baywright.desk.opening import Opened
from baywright.language.kind_words import KIND_WORDS, UNMARKED, counts
from baywright.language.passages import Remark
from baywright.papers.proof import parts_put_in
from baywright.problems import Problem, Problems, problem
from baywright.web.access import MarkedForm, field, reader
from baywright.web.pages.ask import with_own_engines
from baywright.web.rendering import page
from baywright.web.texts import text
from baywright.web.workbench import workbench

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True)
class Note:
    """What is said of a sentence.

    Args:
        kind: kind of the remark.
        word: the same in words.
        parts: the true sentence in parts, each with whether it was put in.
        said: why, and what it stands on.
    """

    kind: str
    word: str
    parts: tuple[tuple[str, bool], ...]
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """A sentence of the draft with what is said of it."""

    text: str
    where: str
    block: int
    notes: tuple[Note, ...]

    @property
    def mark(self) -> str:
        """Kind of the first remark, or ``none``."""
        return self.notes[0].kind if self.notes else "none"


@dataclass(frozen=True, slots=True)
class Marked:
    """A draft with its marks."""

    name: str
    rows: tuple[Row, ...]
    counted: tuple[tuple[str, str, int], ...]


@router.get("/proofread/{book}")
def proofread_page(request: Request, book: str) -> Response:
    """Show where a draft can be dropped."""
    reader(request)
    opened = workbench(request).shelf.bench(book).opened
    return _page(request, book, opened)


@router.post("/proofread/{book}")
async def proofread_draft(request: Request, book: str, form: MarkedForm) -> Response:
    """Proofread a draft."""
    reader(request)
    written, file = field(form, "text"), form.get("file")
    data, name = written.encode("utf-8"), "draft.md"
    if isinstance(file, UploadFile) and file.filename:
        data, name = await file.read(), PurePath(file.filename).name
    return await run_in_threadpool(_answer, request, book, data, name, written)


def _answer(request: Request, book: str, data: bytes, name: str, written: str) -> Response:
    opened = with_own_engines(workbench(request).shelf.bench(book).opened)
    try:
        if not data.strip():
            raise problem("no-draft", "There is no draft.", None, "Choose a file or paste text.")
        found = _proofread(opened, data, name)
    except Problems as wrong:
        return _page(request, book, opened, written=written, problems=wrong.problems)
    return _page(request, book, opened, written=written, marked=_marked(found, name))


def _proofread(opened: Opened, data: bytes, name: str) -> Proofread:
    with tempfile.TemporaryDirectory(prefix="draft-") as folder:
        path = Path(folder) / f"draft{PurePath(name).suffix}"
        path.write_bytes(data)
        return proofread_file(opened, path)


def _marked(found: Proofread, name: str) -> Marked:
    by_passage: dict[object, list[Remark]] = {}
    for remark in found.remarks:
        by_passage.setdefault(remark.passage, []).append(remark)
    rows = (
        Row(each.text, each.place.where, each.block, tuple(_notes(by_passage.get(each, []))))
        for each in found.draft.passages
    )
    counted = ((kind, KIND_WORDS[kind], n) for kind, n in counts(found.remarks).items())
    return Marked(name, tuple(rows), tuple(counted))


def _notes(remarks: list[Remark]) -> Iterator[Note]:
    for remark in remarks:
        if remark.kind in UNMARKED:
            continue
        parts = parts_put_in(remark.passage.text, remark.sentence) if remark.sentence else ()
        unknown = ", ".join(remark.not_understood)
        said = (
            remark.said,
            f"{text('read_as')} {remark.reading}." if remark.reading else "",
            f"{text('not_understood')} {unknown}." if unknown else "",
            *(remark.proof.sentences if remark.proof is not None else ()),
        )
        yield Note(remark.kind, KIND_WORDS[remark.kind], parts, tuple(filter(None, said)))


def _page(
    request: Request,
    book: str,
    opened: Opened,
    *,
    written: str = "",
    marked: Marked | None = None,
    problems: tuple[Problem, ...] = (),
) -> Response:
    return page(
        request,
        "proofread.html.j2",
        text("proofread"),
        here="proofread",
        book=book,
        status=422 if problems else 200,
        written=written,
        marked=marked,
        problems=problems,
        opened=opened,
    )
