"""A document as PDF: set by typst, tagged, with bookmarks, by the layout of ``document.typ``."""

from __future__ import annotations

import json
from importlib.resources import files

from baywright.papers.as_data import document_data
from baywright.papers.document import Document
from baywright.papers.printing import typeset


def document_pdf(document: Document) -> bytes:
    """Return a document as PDF.

    Raises:
        Problems: kind ``no-face`` when the face of its labels is not installed.
    """
    layout = files("baywright.papers").joinpath("templates", "document.typ").read_bytes()
    data = json.dumps(document_data(document), ensure_ascii=False)
    return typeset(layout, {"document": data})
