"""Captured tables and missing facts as plain JSON values."""

from __future__ import annotations

from collections.abc import Iterable

from baywright.answers.as_json import Json
from baywright.desk.capture.missing import Missing
from baywright.desk.capture.writing import Looked


def capture_json(looked: Looked, *, written: bool) -> Json:
    """Return what became of a table."""
    captured = looked.captured
    return {
        "table": looked.table,
        "about": captured.about,
        "columns": [
            {
                "heading": column.heading,
                "field": ".".join(column.path) or None,
                "unit": column.unit or None,
            }
            for column in captured.columns
        ],
        "cells": [
            {
                "line": cell.line,
                "heading": cell.heading,
                "text": cell.text,
                "outcome": cell.outcome,
                "path": cell.path or None,
                "value": cell.value or None,
                "why": cell.why or None,
            }
            for cell in captured.cells
        ],
        "problems": [found.as_json() for found in looked.problems],
        "files": list(looked.files),
        "written": written,
    }


def missing_json(found: Iterable[Missing], book: str) -> Json:
    """Return what a book leaves open."""
    return {
        "book": book,
        "missing": [
            {
                "key": each.key,
                "title": each.title,
                "says": each.says,
                "gaps": [
                    {
                        "field": gap.field,
                        "entries": list(gap.entries),
                        "could_be": list(gap.values),
                        "questions": list(gap.questions),
                    }
                    for gap in each.gaps
                ],
            }
            for each in found
        ],
    }
