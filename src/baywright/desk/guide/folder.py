"""The folder of a guide: its forms, its proof, and what is needed to prove it again."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from baywright.desk.guide.making import Guide
from baywright.desk.opening import Opened
from baywright.desk.statements.statement import Statement, read_statements
from baywright.papers.as_docx import document_docx
from baywright.papers.as_html import document_page
from baywright.papers.as_typst import document_pdf
from baywright.papers.document import Document
from baywright.papers.statements import Proven, statements_page
from baywright.problems import problem

STATEMENTS, ABOUT, PROOF = "statements.jsonl", "about.json", "proof.html"

FORMS: Mapping[str, Callable[[Document], str | bytes]] = {
    "html": lambda document: document_page(document, PROOF),
    "pdf": document_pdf,
    "docx": document_docx,
}
"""The forms of a guide."""


@dataclass(frozen=True, slots=True)
class About:
    """What a folder of statements is about.

    Args:
        book: folder or name of the book, as it was given.
        as_of: the day, in ISO form.
    """

    book: str
    as_of: str


def guide_files(
    guide: Guide, opened: Opened, book: str, forms: Iterable[str] = tuple(FORMS)
) -> dict[str, str | bytes]:
    """Return the files of a guide by name.

    Args:
        guide: the guide.
        opened: the book it was written about.
        book: how the book was given.
        forms: which forms are wanted.

    Raises:
        Problems: when a face is not installed.
    """
    written = {f"guide.{form}": FORMS[form](guide.document) for form in forms}
    return {**written, **proof_files(guide, opened, book)}


def proof_files(guide: Guide, opened: Opened, book: str) -> dict[str, str | bytes]:
    """Return the files that prove a paper, by name: what ``verify`` reads, and a page of it.

    Args:
        guide: the paper with its statements.
        opened: the book it was written about.
        book: how the book was given.
    """
    lines = (json.dumps(each.as_json(), ensure_ascii=False) for each in guide.statements)
    about = {"book": book, "as_of": opened.as_of.isoformat(), "edition": _edition(opened)}
    return {
        STATEMENTS: "".join(f"{line}\n" for line in lines),
        ABOUT: json.dumps(about, indent=2) + "\n",
        PROOF: statements_page(f"{guide.document.title}: proof", _proven(guide.statements)),
    }


def _edition(opened: Opened) -> str:
    return opened.book.book.edition.text


def _proven(statements: Iterable[Statement]) -> Iterable[Proven]:
    for statement in statements:
        by = statement.engine
        if statement.rechecked_by:
            by += f", re-checked by {statement.rechecked_by}"
        query = statement.query
        beside = (query.build, query.site, query.as_of, query.book and f"book {query.book}")
        yield Proven(
            statement.words,
            f"{query.kind}: {query.text}",
            "; ".join(filter(None, beside)),
            by,
            tuple(each.sentence for each in statement.reasons),
            tuple(_built(statement.witness or {})),
            tuple(_quoted(fact.as_json()) for fact in statement.facts),
        )


def _built(witness: Mapping[str, str]) -> Iterable[str]:
    for choice, label in witness.items():
        if label not in ("empty", "none", ""):
            yield f"{choice}: {label}"


def _quoted(fact: Mapping[str, object]) -> str:
    said = (fact["source"], fact["date"], fact["status"], fact["where"])
    return f"{fact['fact']}: {fact['value']} ({'; '.join(str(each) for each in said if each)})"


def read_folder(folder: Path) -> tuple[About, tuple[Statement, ...]]:
    """Read what a folder says of a machine.

    Raises:
        Problems: kinds ``not-a-file``, ``not-a-statement`` and ``not-about``.
    """
    statements = read_statements(folder / STATEMENTS)
    path = folder / ABOUT
    try:
        held = json.loads(path.read_text("utf-8"))
        return About(str(held["book"]), str(held["as_of"])), statements
    except (OSError, ValueError, KeyError, TypeError) as error:
        message = f"{path} does not say which book the statements are about."
        hint = "Write the folder again, or give --book and --as-of."
        raise problem("not-about", message, None, hint) from error
