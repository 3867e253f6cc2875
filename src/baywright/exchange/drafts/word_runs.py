"""Paragraphs of a DOCX document, and the runs of text in them, as they are read and marked.

What a tracked change takes out is left out; what it puts in is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeAlias

from docx.oxml.ns import nsmap, qn

Element: TypeAlias = Any
"""An XML element; the library that holds it publishes no types."""

_FALLBACK = "{http://schemas.openxmlformats.org/markup-compatibility/2006}Fallback"
_PARAGRAPH, _RUN = qn("w:p"), qn("w:r")
_TAKEN_OUT = frozenset((qn("w:del"), qn("w:moveFrom"), _FALLBACK))
_THROUGH = frozenset(
    qn(f"w:{name}")
    for name in (
        *("hyperlink", "ins", "moveTo", "smartTag", "sdt", "sdtContent", "fldSimple", "bdo", "dir"),
    )
)
_SIGNS = {
    qn("w:tab"): "\t",
    qn("w:br"): "\n",
    qn("w:cr"): "\n",
    qn("w:noBreakHyphen"): "-",
}

NAMESPACE = nsmap["w"]


def paragraphs(root: Element) -> Iterator[Element]:
    """Yield the paragraphs below an element in their order, those of text boxes too."""
    for paragraph in root.iter(_PARAGRAPH):
        if not any(above.tag in _TAKEN_OUT for above in paragraph.iterancestors()):
            yield paragraph


def runs(paragraph: Element) -> Iterator[tuple[Element, str]]:
    """Yield the runs of a paragraph that are read, each with its text."""
    for child in paragraph:
        if child.tag == _RUN:
            yield child, "".join(map(_text, child))
        elif child.tag in _THROUGH:
            yield from runs(child)


def _text(element: Element) -> str:
    if element.tag == qn("w:t"):
        return element.text or ""
    return _SIGNS.get(element.tag, "")
