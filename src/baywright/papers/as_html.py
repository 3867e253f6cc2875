"""A document as one page of HTML that needs nothing else."""

from __future__ import annotations

import base64

from baywright.papers.document import Block, Document
from baywright.papers.environment import environment


def document_page(document: Document, proof: str = "") -> str:
    """Return a document as a page.

    Args:
        document: the document.
        proof: address of the proof page beside it, or empty; statements link there.
    """
    whole = document.form == "book"
    contents = [heading for heading in document.headings if whole and heading.level <= 2]
    return (
        environment()
        .get_template("document.html.j2")
        .render(document=document, contents=contents, proof=proof, kind_of=_kind, address=_address)
    )


def _kind(block: Block) -> str:
    return type(block).__name__


def _address(svg: str) -> str:
    """Return a drawing as an address, so that its styles and ids stay its own."""
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode()).decode('ascii')}"
