"""The folder of a walkthrough: script, captions, notes, cards and the drawing of each station."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.papers.as_docx import document_docx
from baywright.papers.cards import cards_page, cards_pdf
from baywright.papers.script import Script
from baywright.papers.script_captions import script_captions
from baywright.papers.script_document import script_document
from baywright.papers.script_markdown import notes_markdown, script_markdown


def walk_files(script: Script) -> dict[str, str | bytes]:
    """Return the files of a walkthrough by name."""
    return dict(_files(script))


def _files(script: Script) -> Iterator[tuple[str, str | bytes]]:
    yield "script.md", script_markdown(script)
    yield "script.docx", document_docx(script_document(script))
    yield "prompter.vtt", script_captions(script)
    yield "notes.md", notes_markdown(script)
    yield "cards.html", cards_page(script)
    yield "cards.pdf", cards_pdf(script)
    for part in script.parts:
        yield f"shots/{part.name}.svg", part.svg
