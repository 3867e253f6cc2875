"""What the commands do: ask the desk, print what it says, return an exit code."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import asdict, replace
from pathlib import Path
from typing import Literal

from rich.console import RenderableType
from rich.padding import Padding
from rich.text import Text

from baywright.answers.wording.ranges import ranges
from baywright.cli.guarding import ANSWERED, code_of, guarded
from baywright.cli.output import progress, show, show_json
from baywright.cli.sheets import columns, heading, sheet
from baywright.desk import as_json as plain
from baywright.desk import asking, checking
from baywright.desk import demo as showing
from baywright.desk import options as choosing
from baywright.desk import words as wordlists
from baywright.desk.opening import Opened
from baywright.desk.questions import read_questions
from baywright.desk.request import Request, judged, opened
from baywright.desk.telling import answer_sheet, checked_sheet, judgement_sheet
from baywright.files.folders import check_folder, write_files
from baywright.files.schema import book_schema, build_schema, need_schema, site_schema
from baywright.problems import problem

__all__ = [
    "Request",
    "ask",
    "check",
    "combinations",
    "demo",
    "judge",
    "options",
    "schema",
    "words",
]


@guarded
def check(
    book: str, request: Request, questions: Path | None, stale_years: float, *, as_json: bool
) -> int:
    """Check a book."""
    with progress(f"Reading {book}", as_json=as_json):
        held = opened(book, request)
        asked = read_questions(questions) if questions else None
        found = checking.check(held, asked, datetime.timedelta(days=365 * stale_years))
    if as_json:
        show_json(plain.checked_json(found))
    else:
        show(sheet(checked_sheet(held, found)))
    return ANSWERED


@guarded
def judge(book: str, build: Path, request: Request, *, as_json: bool) -> int:
    """Judge a build."""
    with progress(f"Judging {build}", as_json=as_json):
        held, found = judged(book, build, request)
    if as_json:
        show_json(plain.judgement_json(found))
    else:
        show(sheet(judgement_sheet(held, found)))
    return code_of(found.verdict)


@guarded
def ask(book: str, question: str, request: Request, *, as_json: bool) -> int:
    """Answer a question."""
    with progress(f"Asking {book}", as_json=as_json):
        held = opened(book, request)
        found = asking.ask(held, question)
    if as_json:
        show_json(plain.answer_json(found))
    else:
        show(sheet(answer_sheet(held, found)))
    return code_of(found.verdict)


@guarded
def combinations(
    word: Literal["ways", "list"],
    book: str,
    terms: list[str],
    given: str,
    request: Request,
    *,
    as_json: bool,
) -> int:
    """Count or list combinations."""
    with progress(f"Listing {book}", as_json=as_json):
        held = opened(book, request)
        asked = [*(terms or held.book.book.skeleton)]
        if not asked:
            message = f"{held.book.book.id} names no skeleton."
            raise problem("no-terms", message, None, "Give the names to combine.")
        asked += [f"given={given}"] if given else []
        found = asking.ask(held, f"{word}({', '.join(asked)})")
    if as_json:
        show_json(plain.answer_json(found))
    else:
        told = answer_sheet(held, found)
        show(sheet(told if word == "list" else replace(told, table=None)))
    return code_of(found.verdict)


@guarded
def options(book: str, given: str, request: Request, *, as_json: bool) -> int:
    """Show what each place can be."""
    with progress(f"Asking {book}", as_json=as_json):
        held = opened(book, request)
        found = choosing.options(held, given)
    if as_json:
        show_json({"book": held.book.book.id, "options": [plain.options_json(o) for o in found]})
    else:
        show((*_options(found), *_taken_as(held)))
    return ANSWERED


def _options(found: Sequence[choosing.PlaceOptions]) -> Iterator[RenderableType]:
    for each in found:
        yield Text(f"{each.choice}  {each.name}" if each.choice != each.name else each.choice)
        rows = [("can be", each.free), ("cannot be", each.closed)]
        said = [(Text(f"  {word}"), Text(", ".join(ranges(labels)))) for word, labels in rows]
        yield columns(row for row, (_, labels) in zip(said, rows, strict=True) if labels)


def _taken_as(held: Opened) -> Iterator[RenderableType]:
    """Options are those of one way the unknown facts could be; say which."""
    for path, value in held.in_worlds(lambda machine: machine)[0][0].given.items():
        yield Text(f"{path} is not known; shown as if it were {value}.")


@guarded
def words(book: str, request: Request, *, as_json: bool) -> int:
    """Show the vocabulary of a book."""
    found = wordlists.words(opened(book, request))
    if as_json:
        show_json({each.key: [asdict(word) for word in each.words] for each in found})
    else:
        show(part for each in found for part in _word_list(each))
    return ANSWERED


def _word_list(listed: wordlists.WordList) -> Iterator[RenderableType]:
    yield from heading(listed.title)
    for word in listed.words:
        sort = f" ({word.sort})" if word.sort else ""
        yield Text(f"{word.name}{sort}")
        yield Padding(Text(word.meaning, style="dim"), (0, 0, 0, 4))


def schema(what: Literal["book", "build", "need", "site"]) -> int:
    """Print a JSON Schema."""
    schemas = {
        "book": book_schema,
        "build": build_schema,
        "need": need_schema,
        "site": site_schema,
    }
    show_json(schemas[what]())
    return ANSWERED


@guarded
def demo(out: Path, request: Request, *, as_json: bool) -> int:
    """Run the demo and write its report."""
    check_folder(out)
    with progress("Running the demo", as_json=as_json) as step:
        found = showing.run_demo(request, step)
    write_files(showing.files_of(found), out)
    if as_json:
        show_json(found.data)
    else:
        show(_demo(found, out))
    return ANSWERED


def _demo(found: showing.Demo, out: Path) -> Iterator[RenderableType]:
    report = found.report
    for title, entries in (
        ("Questions", report.questions),
        ("Builds", report.builds),
        ("Books", report.books),
    ):
        yield from heading(title)
        yield columns(
            (Text(entry.sheet.word, style="bold"), Text(entry.title)) for entry in entries
        )
    yield ""
    yield Text(f"{found.rechecked} builds checked once more. Written to {out / 'index.html'}.")
    yield Text("To work on builds yourself, open the workbench: 'make serve' or 'baywright serve'.")
