"""Packed files (DOCX, PPTX): looked at before anything in them is unpacked or parsed."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path
from xml.parsers import expat

from baywright.exchange.drafts.refusing import (
    CANNOT_UNPACK,
    FREE_RATIO_BYTES,
    MOST_DEPTH,
    MOST_PARTS,
    MOST_RATIO,
    MOST_UNPACKED_BYTES,
    MOST_XML_BYTES,
    damaged,
    suspicious,
    wrong_form,
)

DOCUMENT = "word/document.xml"
SLIDES = "ppt/presentation.xml"


def packed_form(data: bytes, path: Path) -> str:
    """Return the ending that a packed file should have, after all checks of what it holds.

    Raises:
        Problems: kinds ``damaged``, ``unsafe``, ``wrong-form``.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            names = {entry.filename for entry in packed.infolist()}
            _check_sizes(packed, path)
            for entry in packed.infolist():
                if entry.filename.lower().endswith((".xml", ".rels", ".vml")):
                    _check_xml(packed.read(entry), entry.filename, path)
    except CANNOT_UNPACK as error:
        raise damaged(path, str(error).rstrip(".") or type(error).__name__) from error
    if DOCUMENT in names:
        return ".docx"
    if SLIDES in names:
        return ".pptx"
    what = "is a packed file, and neither a DOCX document nor PPTX slides"
    raise wrong_form(path, what, "Save it as .docx, .pptx or text.")


def _check_sizes(packed: zipfile.ZipFile, path: Path) -> None:
    """Refuse what would grow beyond measure, by what the file says of itself.

    A part that holds more than it says is cut off by the reader at what it says, and is then found
    damaged by its sum.
    """
    entries = packed.infolist()
    if len(entries) > MOST_PARTS:
        raise suspicious(path, f"it has {len(entries):,} parts")
    whole = sum(entry.file_size for entry in entries)
    if whole > MOST_UNPACKED_BYTES:
        raise suspicious(path, f"it would hold {whole:,} bytes when unpacked")
    xml = sum(entry.file_size for entry in entries if entry.filename.endswith((".xml", ".rels")))
    if xml > MOST_XML_BYTES:
        raise suspicious(path, f"it would hold {xml:,} bytes of XML when unpacked")
    for entry in entries:
        free = max(FREE_RATIO_BYTES, MOST_RATIO * entry.compress_size)
        if entry.file_size > free:
            times = entry.file_size // max(entry.compress_size, 1)
            raise suspicious(path, f"{entry.filename} would grow {times:,} times when unpacked")


def _check_xml(data: bytes, name: str, path: Path) -> None:
    """Refuse XML that declares a document type, and so could declare entities, or is too deep."""
    depth = 0

    def enter(tag: str, attributes: object) -> None:
        nonlocal depth
        depth += 1
        if depth > MOST_DEPTH:
            raise suspicious(path, f"{name} is nested more than {MOST_DEPTH} deep")

    def leave(tag: str) -> None:
        nonlocal depth
        depth -= 1

    def declare(*_: object) -> None:
        raise suspicious(path, f"{name} declares a document type")

    parser = expat.ParserCreate()
    parser.StartElementHandler = enter
    parser.EndElementHandler = leave
    parser.StartDoctypeDeclHandler = declare
    try:
        parser.Parse(data, True)  # noqa: FBT003 - the parser takes no names
    except expat.ExpatError as error:
        raise damaged(path, f"{name}: {error}") from error
