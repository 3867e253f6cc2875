"""The commands guide and verify: a guide written with its proof, and its proof made again."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from rich.text import Text

from baywright.cli.guarding import ANSWERED, NOT_PROVEN, STOPPED, guarded
from baywright.cli.output import console, progress, show_json
from baywright.desk.guide.beside import PROVEN
from baywright.desk.guide.chapters import chapters
from baywright.desk.guide.folder import FORMS, guide_files, read_folder
from baywright.desk.guide.making import Guide, make_guide
from baywright.desk.guide.verifying import Verified, verify
from baywright.desk.request import Request, opened
from baywright.desk.statements.kind import Again
from baywright.files.folders import check_folder, write_files
from baywright.laws.wording import counted
from baywright.problems import problem, suggestion

__all__ = ["Request", "Wanted", "guide", "verify_folder"]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of a guide.

    Args:
        out: folder to write to.
        issue: folder of the last issue, or ``None`` for a first one.
        templates: folder with chapters, or ``None`` for those of the package.
        copy: folder to copy the chapters of the package to, or ``None`` to write a guide.
        forms: forms to write; all when there are none.
    """

    out: Path
    issue: Path | None = None
    templates: Path | None = None
    copy: Path | None = None
    forms: tuple[str, ...] = ()


@guarded
def guide(book: str, request: Request, wanted: Wanted, *, as_json: bool) -> int:
    """Write a guide."""
    if wanted.copy is not None:
        return _copy(wanted.copy, as_json=as_json)
    check_folder(wanted.out)
    forms = _forms(wanted.forms)
    before = read_folder(wanted.issue)[1] if wanted.issue is not None else ()
    with progress(f"Writing the guide of {book}", as_json=as_json) as tell:
        held = opened(book, request)
        made = make_guide(held, chapters(wanted.templates), before)
        tell("laying it out")
        files = guide_files(made, held, book, forms)
        write_files(files, wanted.out)
    told = _told(made, list(files), wanted.out)
    _say(told, as_json=as_json)
    return ANSWERED


def _forms(asked: tuple[str, ...]) -> tuple[str, ...]:
    for form in asked:
        if form not in FORMS:
            message = f"A guide is not written as {form!r}."
            raise problem("no-form", message, None, suggestion(form, FORMS))
    return asked or tuple(FORMS)


def _copy(folder: Path, *, as_json: bool) -> int:
    files: dict[str, str | bytes] = {each.file: each.text for each in chapters()}
    write_files(files, folder)
    _say({"written": str(folder), "files": list(files)}, as_json=as_json)
    return ANSWERED


def _told(made: Guide, files: list[str], out: Path) -> dict[str, object]:
    proven = sum(each.query.kind in PROVEN for each in made.statements)
    return {
        "written": str(out),
        "files": files,
        "statements": len(made.statements),
        "proven by engines": proven,
    }


def _say(told: dict[str, object], *, as_json: bool) -> None:
    if as_json:
        show_json(told)
        return
    out = console()
    for name, value in told.items():
        shown = ", ".join(map(str, value)) if isinstance(value, list) else str(value)
        out.print(Text(f"{name}: {shown}"), soft_wrap=True)


@guarded
def verify_folder(folder: Path, book: str, request: Request, *, as_json: bool) -> int:
    """Prove the statements of a folder again."""
    with progress(f"Proving {folder} again", as_json=as_json) as tell:
        found = verify(folder, request, book, tell)
    if as_json:
        show_json(_json(found))
    else:
        _show(found)
    if found.failed:
        return NOT_PROVEN
    return STOPPED if found.stopped else ANSWERED


def _json(found: Verified) -> dict[str, object]:
    return {
        "book": found.book,
        "as_of": found.as_of,
        "holds": len(found.again) - len(found.failed),
        "by": dict(found.by_engine),
        "failed": [_failed_json(each) for each in found.failed],
        "not_decided": [each.query.as_json() for each in found.stopped],
    }


def _failed_json(each: Again) -> dict[str, object]:
    return {
        "query": each.statement.query.as_json(),
        "recorded": each.statement.words,
        "now": each.now.words if each.now else None,
        "difference": each.difference,
    }


def _show(found: Verified) -> None:
    out = console()
    holds = len(found.again) - len(found.failed)
    by = ", ".join(f"{number} by {engine}" for engine, number in found.by_engine.items())
    out.print(
        Text(f"{found.book}, as of {found.as_of}: {counted(holds, 'statement')} hold ({by}).")
    )
    for each in found.failed:
        query = each.statement.query
        out.print(Text(f"No longer: {query.kind} {query.text}. {each.difference}"), soft_wrap=True)
    for statement in found.stopped:
        out.print(Text(f"Not decided in time: {statement.query.text}"), soft_wrap=True)
