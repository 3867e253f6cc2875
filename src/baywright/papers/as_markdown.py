"""A document in Markdown, to be read as text and to be pasted where people write."""

from __future__ import annotations

import re
from collections.abc import Iterator

from baywright.papers.document import (
    DAGGER,
    Block,
    Bullets,
    Document,
    Figure,
    Heading,
    Line,
    Paragraph,
    Run,
    Table,
    Warned,
)

_MARKS = re.compile(r"([\\`*_|<>\[\]])")
_SURROUND = {"plain": "", "strong": "**", "emphasis": "*", "code": "`"}


def document_markdown(document: Document) -> str:
    """Return a document in Markdown; a drawing stands there in words."""
    head = [f"# {document.title}: {document.kind}", *document.lines]
    body = (text for block in document.blocks for text in _block(block))
    return "\n\n".join([*head, *body, f"*{_escaped(document.foot)}*"]) + "\n"


def _block(block: Block) -> Iterator[str]:
    match block:
        case Heading():
            yield f"{'#' * (block.level + 1)} {block.number} {block.text}".replace("  ", " ")
        case Paragraph():
            yield _line(block.runs)
        case Bullets():
            marks = (f"{at}." if block.ordered else "-" for at in range(1, len(block.items) + 1))
            yield "\n".join(f"{m} {_line(i)}" for m, i in zip(marks, block.items, strict=True))
        case Table():
            yield f"**{block.label}** {_escaped(block.title)}"
            yield "\n".join(_rows(block))
            yield from map(_line, block.notes)
        case Figure():
            yield f"*{block.label}. {_escaped(block.words)}*"
        case Warned():
            said = f"{block.hazard} {block.consequence} {block.avoidance}"
            yield f"> **{block.word}** {_escaped(said)}"
        case _:
            return


def _rows(table: Table) -> Iterator[str]:
    yield _row(_escaped(column.title) for column in table.columns)
    yield _row("---:" if column.right else "---" for column in table.columns)
    for row in table.rows:
        yield _row(map(_line, row))


def _row(cells: Iterator[str] | map[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _line(line: Line) -> str:
    return "".join(map(_run, line))


def _run(run: Run) -> str:
    """Return a run with its marks; blanks at its ends stay outside them."""
    said = run.text if run.style == "code" else _escaped(run.text)
    mark, bare = _SURROUND[run.style], said.strip()
    if mark and bare:
        before, after = said[: len(said) - len(said.lstrip())], said[len(said.rstrip()) :]
        said = f"{before}{mark}{bare}{mark}{after}"
    return f"{said} {DAGGER}" if run.dagger else said


def _escaped(text: str) -> str:
    return _MARKS.sub(r"\\\1", text)
