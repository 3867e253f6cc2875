"""The command proofread: a draft against a book."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, TypeAlias

from rich.console import RenderableType
from rich.padding import Padding
from rich.text import Text

from baywright.cli.guarding import ANSWERED, guarded
from baywright.cli.output import progress, show, show_json
from baywright.desk.drafts.as_json import proofread_json
from baywright.desk.drafts.checking import Proofread, proofread_file
from baywright.desk.drafts.writing import commented_document, editor_lines, proof_html
from baywright.desk.request import Request, opened
from baywright.files.drafts import check_draft, write_draft
from baywright.language.kind_words import KIND_WORDS, counts, marked
from baywright.language.passages import Remark
from baywright.problems import problem

__all__ = ["Form", "Request", "Wanted", "proofread"]

Form: TypeAlias = Literal["terminal", "editor", "html", "json", "docx"]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of a proofread draft.

    Args:
        form: how it is written.
        out: file to write, or ``None`` for the terminal.
        pace: the fastest speech that captions may ask for, in words a minute.
    """

    form: Form
    out: Path | None
    pace: float


@guarded
def proofread(book: str, path: Path, request: Request, wanted: Wanted, *, as_json: bool) -> int:
    """Proofread a draft."""
    _check_out(wanted)
    with progress(f"Proofreading {path}", as_json=as_json):
        found = proofread_file(opened(book, request), path, wanted.pace)
    if wanted.form == "docx":
        _write(commented_document(found), wanted.out)
    elif wanted.form == "html":
        _write(proof_html(found), wanted.out)
    elif wanted.form == "editor":
        _write("".join(f"{line}\n" for line in editor_lines(found)), wanted.out)
    elif wanted.form == "json":
        show_json(proofread_json(found))
    else:
        show(_terminal(found))
    return ANSWERED


def _check_out(wanted: Wanted) -> None:
    """See whether the output can be written, before any work is done for it."""
    if wanted.form == "docx" and wanted.out is None:
        raise problem("no-file", "A document needs a file.", None, "Name a new one with --out.")
    if wanted.out is not None and wanted.form in ("terminal", "json"):
        message = f"--out goes with the formats editor, html and docx, not with {wanted.form}."
        raise problem("no-file", message, None, "Leave it out, or choose another format.")
    if wanted.out is not None:
        check_draft(wanted.out)


def _write(content: str | bytes, out: Path | None) -> None:
    if out is not None:
        write_draft(out, content)
        show((Text(f"Written to {out}."),))
    elif isinstance(content, str):
        sys.stdout.write(content)


def _terminal(found: Proofread) -> Iterator[RenderableType]:
    about = found.opened.book.book
    yield Text(found.draft.path.name, style="bold")
    sentences = len(found.draft.passages)
    pace = found.words_per_minute
    spoken = f"; {pace:.0f} words a minute" if pace is not None else ""
    yield Text(f"{sentences} sentences against {about.name}, as of {found.opened.as_of}{spoken}")
    told = (f"{KIND_WORDS[kind]} {number}" for kind, number in counts(found.remarks).items())
    yield Text(" · ".join(told) or "Nothing to remark.")
    for remark in marked(found.remarks):
        yield ""
        yield from _remark(remark)


def _remark(remark: Remark) -> Iterator[RenderableType]:
    head = Text(remark.passage.place.where, style="dim")
    yield head.append("  ").append(KIND_WORDS[remark.kind], style="bold not dim")
    yield Padding(Text(remark.passage.text), (0, 0, 0, 2))
    if remark.sentence:
        yield Padding(Text(f"Say: {remark.sentence}"), (0, 0, 0, 2))
    beside = [remark.said]
    if remark.reading:
        beside.append(f"Read as: {remark.reading}.")
    if remark.not_understood:
        beside.append(f"Not understood: {', '.join(remark.not_understood)}.")
    beside += remark.proof.sentences if remark.proof is not None else ()
    for line in filter(None, beside):
        yield Padding(Text(line, style="dim"), (0, 0, 0, 2))
