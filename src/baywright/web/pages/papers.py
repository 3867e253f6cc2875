"""Papers: the guide and the walkthrough, made while the page waits, and their files."""

from __future__ import annotations

import mimetypes
from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import quote

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from baywright.desk.sheets.asked import LENGTHS
from baywright.desk.sheets.making import KINDS as SHEETS
from baywright.desk.walk.audience import AUDIENCES
from baywright.drawing.orientation import stances
from baywright.problems import Problem, Problems, problem
from baywright.web.access import reader
from baywright.web.addresses import Address
from baywright.web.chosen import BUILD, builds_of
from baywright.web.papers import ALL, MAKERS, Made, Paper, make
from baywright.web.rendering import page
from baywright.web.runs import Run
from baywright.web.texts import text
from baywright.web.workbench import workbench
from baywright.web.worker import in_process

router = APIRouter(include_in_schema=False)

MAKE = "make"
"""Field of an address that says which paper is made."""

AT_ONCE = 1.5
"""Seconds that the page waits for a paper before it shows how far it has come."""

FIELDS = ("as_of", "audience", "minutes", "rate", "orientation", "other", "length")

DESCRIBED = {
    "guide.html": "guide_page",
    "guide.pdf": "guide_pdf",
    "guide.docx": "guide_docx",
    "statements.jsonl": "guide_statements",
    "about.json": "guide_about",
    "proof.html": "guide_proof",
    "script.md": "walk_script",
    "script.docx": "walk_docx",
    "prompter.vtt": "walk_prompter",
    "notes.md": "walk_notes",
    "cards.html": "walk_cards",
    "cards.pdf": "walk_cards_pdf",
}
"""Texts that say what a file is, by its name; a drawing is named after its station."""

ENDINGS = {
    "html": "as_page",
    "pdf": "as_pdf",
    "docx": "as_docx",
    "pptx": "as_pptx",
    "md": "as_md",
    "json": "as_data",
}
"""Texts that say what other files are, by the ending of their names."""

mimetypes.add_type("text/vtt", ".vtt")
mimetypes.add_type("text/markdown", ".md")
mimetypes.add_type("application/jsonl", ".jsonl")


@dataclass(frozen=True, slots=True)
class FileRow:
    """A file that can be fetched.

    Args:
        name: its name.
        what: what it is.
        size: its size in words.
        address: where it is fetched.
    """

    name: str
    what: str
    size: str
    address: Address


@router.get("/papers/{book}")
def papers_page(request: Request, book: str) -> Response:
    """Show what can be made, and what was asked for: how far it is, or its files."""
    reader(request)
    address = Address.of(request)
    if not address.one(MAKE):
        return _page(request, book, address)
    run = _run(request, book, address)
    if not run.wait(AT_ONCE):
        return _page(request, book, address, going=run)
    try:
        made = run.answer()
    except Problems as found:
        return _page(request, book, address, status=422, problems=found.problems)
    return _page(request, book, address, files=tuple(_files(book, address, made)))


def _run(request: Request, book: str, address: Address) -> Run[Made]:
    held = workbench(request)
    paper = _paper(request, book, address)
    key = (held.shelf.state(book), paper)
    return held.papers.of(key, lambda tell: in_process(make, paper, tell))


def _paper(request: Request, book: str, address: Address) -> Paper:
    held = workbench(request)
    name, written = address.one(BUILD), ""
    if name:
        found = {each.name: each.text for each in builds_of(request, book)}
        if name not in found:
            message = f"The book {book} has no build {name!r}."
            raise problem("no-such-build", message, None, "Pick one of the list.")
        written = found[name]
    said = {each: address.one(each) for each in FIELDS}
    if said["other"] and said["other"] not in held.shelf.books:
        raise problem("no-book", f"There is no book {said['other']!r} here.", None, "Pick one.")
    return Paper(address.one(MAKE), held.shelf.name(book), build=written, **said)


def _files(book: str, address: Address, made: Made) -> Iterator[FileRow]:
    at = address.at(f"/papers/{book}/file", MAKE, BUILD, *FIELDS)
    yield FileRow(ALL, text("all_files"), text("packed"), at.having(name=ALL))
    for name, held in made.files.items():
        yield FileRow(name, _what(name), _size(len(held)), at.having(name=name))


def _what(name: str) -> str:
    """Return what a file is: by its name, or by the ending of it."""
    if name.startswith("shots/"):
        return text("shot")
    key = DESCRIBED.get(name) or ENDINGS.get(name.rpartition(".")[2])
    return text(key) if key else ""


def _size(number: int) -> str:
    return f"{number / 1000:,.0f} kB" if number >= 1000 else f"{number} B"


@router.get("/papers/{book}/file")
def paper_file(request: Request, book: str) -> Response:
    """Send a file of a paper; a paper that is not made yet is made first."""
    reader(request)
    address = Address.of(request)
    run = _run(request, book, address)
    if not run.wait(AT_ONCE):
        back = address.at(f"/papers/{book}", MAKE, BUILD, *FIELDS)
        return RedirectResponse(str(back), status_code=303)
    name = address.one("name")
    held = run.answer().file(name)
    if held is None:
        message = f"The paper has no file {name!r}."
        raise problem("no-file", message, None, "The page of the paper lists them.")
    plain = name.rpartition("/")[2]
    sent = f"{book}-{plain}"
    kind = mimetypes.guess_type(plain)[0] or "application/octet-stream"
    headers = {"Content-Disposition": f"attachment; filename*=UTF-8''{quote(sent)}"}
    return Response(held, media_type=kind, headers=headers)


def _called(kind: str) -> str:
    """Return what a kind of paper is called in a sentence."""
    if kind in SHEETS:
        return SHEETS[kind].title
    return text(kind).lower() if kind in MAKERS else ""


def _page(
    request: Request,
    book: str,
    address: Address,
    *,
    status: int = 200,
    going: Run[Made] | None = None,
    files: tuple[FileRow, ...] = (),
    problems: tuple[Problem, ...] = (),
) -> Response:
    opened = workbench(request).shelf.bench(book).opened
    return page(
        request,
        "papers.html.j2",
        text("papers"),
        here="papers",
        book=book,
        status=status,
        state=address,
        kind=address.one(MAKE) if address.one(MAKE) in MAKERS else "",
        builds=tuple(builds_of(request, book)),
        audiences=AUDIENCES,
        sheets=tuple((name, each.title) for name, each in SHEETS.items()),
        lengths=LENGTHS,
        books=tuple(workbench(request).shelf.books),
        stances=tuple((name, each.name) for name, each in stances(opened.machine.book).items()),
        called=_called(address.one(MAKE)),
        going=going,
        files=files,
        problems=problems,
        opened=opened,
    )
