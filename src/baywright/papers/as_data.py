"""A document as plain values, for the typesetter and for whoever wants to read it by program."""

from __future__ import annotations

from typing import Any

from baywright.drawing.palette import PRINT, coloured
from baywright.papers.columns import shares
from baywright.papers.document import (
    Block,
    Bullets,
    Document,
    Figure,
    Heading,
    Index,
    Key,
    Line,
    Paragraph,
    Run,
    Table,
    Warned,
)

Values = dict[str, Any]


def document_data(document: Document) -> Values:
    """Return a document as values that JSON can hold; drawings are in ink only."""
    return {
        "title": document.title,
        "kind": document.kind,
        "form": document.form,
        "maker": document.maker,
        "lines": list(document.lines),
        "foot": document.foot,
        "blocks": [_block(block) for block in document.blocks],
    }


def _block(block: Block) -> Values:
    match block:
        case Heading():
            return {
                "type": "heading",
                "level": block.level,
                "text": block.text,
                "number": block.number,
                "anchor": block.anchor,
            }
        case Paragraph():
            return {"type": "paragraph", "runs": _line(block.runs), "beside": _keys(block.beside)}
        case Bullets():
            items = [_line(item) for item in block.items]
            beside = _keys(block.beside)
            return {"type": "list", "items": items, "ordered": block.ordered, "beside": beside}
        case Table():
            return _table(block)
        case Figure():
            return {
                "type": "figure",
                "label": block.label,
                "title": block.title,
                "svg": coloured(block.svg, PRINT),
                "words": block.words,
            }
        case Warned():
            return {
                "type": "caution",
                "word": block.word,
                "text": f"{block.hazard} {block.consequence} {block.avoidance}",
            }
        case Index():
            return _index(block)


def _table(table: Table) -> Values:
    return {
        "type": "table",
        "label": table.label,
        "title": table.title,
        "heads": [column.title for column in table.columns],
        "right": [column.right for column in table.columns],
        "shares": list(shares(table)),
        "rows": [[_line(cell) for cell in row] for row in table.rows],
        "notes": [_line(note) for note in table.notes],
        "beside": _keys(table.beside),
        "small": table.small,
    }


def _index(index: Index) -> Values:
    entries = [
        {"term": entry.term, "places": [list(place) for place in entry.places]}
        for entry in index.entries
    ]
    return {"type": "index", "entries": entries}


def _line(line: Line) -> list[Values]:
    return [_run(run) for run in line]


def _run(run: Run) -> Values:
    return {
        "text": run.text,
        "style": run.style,
        "dagger": run.dagger,
        "statement": run.statement,
    }


def _keys(keys: tuple[Key, ...]) -> list[Values]:
    return [{"key": each.key, "said": each.said} for each in keys]
