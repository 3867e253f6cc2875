"""The files of a sheet: its forms by the ending of their names, and its proof beside them."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeAlias

from baywright.desk.guide.folder import PROOF, proof_files
from baywright.desk.guide.making import Guide
from baywright.desk.opening import Opened
from baywright.desk.statements.statement import Statement
from baywright.papers.as_data import document_data
from baywright.papers.as_docx import document_docx
from baywright.papers.as_html import document_page
from baywright.papers.as_markdown import document_markdown
from baywright.papers.as_typst import document_pdf
from baywright.papers.slides import document_slides
from baywright.problems import problem, suggestion

Writer: TypeAlias = Callable[[Guide, str], str | bytes]

MOST_FACTS = 4
"""Facts named beside a statement in notes; the proof has all of them."""

FORMS: Mapping[str, Writer] = {
    "md": lambda made, _: document_markdown(made.document),
    "html": lambda made, proof: document_page(made.document, proof),
    "pdf": lambda made, _: document_pdf(made.document),
    "docx": lambda made, _: document_docx(made.document),
    "pptx": lambda made, _: document_slides(made.document, proofs(made)),
    "json": lambda made, _: _json(made),
}
"""The forms of a sheet, by the ending of their names; each takes the address of the proof."""


def _json(made: Guide) -> str:
    data = document_data(made.document)
    data["statements"] = [each.as_json() for each in made.statements]
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def proofs(made: Guide) -> Mapping[int, str]:
    """Return by number what proves each statement, for the notes of slides."""
    return {number: _proof(each) for number, each in enumerate(made.statements, 1)}


def _proof(statement: Statement) -> str:
    by = ", re-checked by ".join(filter(None, (statement.engine, statement.rechecked_by)))
    facts = "; ".join(
        f"{fact.path}: {fact.text}, {fact.source}, {fact.date}"
        for fact in statement.facts[:MOST_FACTS]
    )
    query = f"{statement.query.kind}: {statement.query.text}"
    return f"{statement.words} [{query}; {by}]" + (f" Facts: {facts}." if facts else "")


def form_of(path: Path) -> str:
    """Return the form that the name of a file asks for; empty for a folder.

    Raises:
        Problems: kind ``no-form``.
    """
    form = path.suffix.removeprefix(".")
    if path.is_dir() or not form or form in FORMS:
        return "" if path.is_dir() else form
    hint = suggestion(form, FORMS) or f"End it with {', '.join(FORMS)}."
    raise problem("no-form", f"A sheet is not written as {path.name}.", None, hint)


def forms_of(made: Guide) -> tuple[str, ...]:
    """Return the forms a sheet has: only slides are made for an office program's slides."""
    slides = made.document.form == "slides"
    return tuple(form for form in FORMS if slides or form != "pptx")


def sheet_files(
    made: Guide, opened: Opened, book: str, kind: str, out: Path
) -> tuple[Path, dict[str, str | bytes]]:
    """Return the folder of a sheet and its files by name.

    A file has its proof in a folder beside it; a folder has every form and the proof.

    Args:
        made: the sheet.
        opened: the book it was written about.
        book: how the book was given.
        kind: the kind of sheet.
        out: the file or the folder to write.

    Raises:
        Problems: when a face is not installed.
    """
    form, proof = form_of(out), proof_files(made, opened, book)
    if not form:
        forms = {f"{kind}.{each}": FORMS[each](made, PROOF) for each in forms_of(made)}
        return out, {**forms, **proof}
    if form not in forms_of(made):
        hint = "Ask for the sheet slides, or end the name with pdf."
        raise problem("no-form", f"The sheet {kind} is not written as slides.", None, hint)
    beside = f"{out.name}.proof"
    held = {f"{beside}/{name}": content for name, content in proof.items()}
    return out.parent, {out.name: FORMS[form](made, f"{beside}/{PROOF}"), **held}
