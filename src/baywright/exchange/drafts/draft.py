"""Reading a draft: what it is, looked at before its name is believed, and its passages."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from baywright.exchange.drafts.decoding import decoded
from baywright.exchange.drafts.document import document_blocks, opened
from baywright.exchange.drafts.marked_text import marked_blocks
from baywright.exchange.drafts.packing import packed_form
from baywright.exchange.drafts.page import page_blocks
from baywright.exchange.drafts.plain_text import text_blocks
from baywright.exchange.drafts.refusing import (
    MOST_PACKED_BYTES,
    MOST_TEXT_BYTES,
    UNREADABLE,
    too_large,
    wrong_form,
    wrong_parts,
)
from baywright.exchange.drafts.slides import slide_blocks
from baywright.exchange.drafts.timed_text import caption_blocks
from baywright.files.disk import read_bytes
from baywright.language.blocks import Block, passages
from baywright.language.passages import Passage

_TEXTS = (".txt", ".text", ".eml")
_MARKED = (".md", ".markdown")
_PAGES = (".html", ".htm", ".xhtml")
_CAPTIONS = (".vtt", ".srt")
_PACKED = (".docx", ".pptx")
FORMS = (*_TEXTS, *_MARKED, *_PAGES, *_CAPTIONS, *_PACKED)
"""Endings of the files that are read."""

_SIGNATURES = (
    (b"%PDF", "is a PDF file", "Give what it was made from, such as a .docx file."),
    (b"\xd0\xcf\x11\xe0", "is an old binary document", "Save it as .docx or .pptx."),
    (b"{\\rtf", "is an RTF document", "Save it as .docx."),
)
_TIMING = re.compile(r"\s*\d+\s*\n\d{2}:\d{2}:\d{2}[,.]\d{3} *-->")


@dataclass(frozen=True)
class Draft:
    """A draft as it was read.

    Args:
        path: its file.
        form: ending that fits what it holds, such as ``.docx``.
        blocks: its blocks, those without text left out.
        data: the bytes of its file.
    """

    path: Path
    form: str
    blocks: tuple[Block, ...]
    data: bytes

    @cached_property
    def passages(self) -> tuple[Passage, ...]:
        """Its sentences; their blocks are counted from 1 through ``blocks``."""
        return passages(self.blocks)

    @property
    def is_spoken(self) -> bool:
        """Whether its passages have times."""
        return self.form in _CAPTIONS


def read_draft(path: Path) -> Draft:
    """Read a draft.

    Args:
        path: a file with one of the endings in ``FORMS``.

    Raises:
        Problems: kinds ``wrong-form``, ``not-text``, ``too-large``, ``damaged``, ``unsafe``,
            ``time-code``, and those of a file that cannot be read.
    """
    ending = path.suffix.lower()
    if ending not in FORMS:
        what = f"has the ending {ending!r}" if ending else "has no ending"
        raise wrong_form(path, what, f"Give a file ending in one of {', '.join(FORMS)}.")
    data = _bytes_of(path, ending)
    _check_signature(data, path, ending)
    return Draft(path, ending, tuple(_blocks(data, path, ending)), data)


def _bytes_of(path: Path, ending: str) -> bytes:
    most = MOST_PACKED_BYTES if ending in _PACKED else MOST_TEXT_BYTES
    try:
        size = path.stat().st_size
    except (OSError, ValueError):
        size = 0
    if size > most:
        raise too_large(path, size, most)
    return read_bytes(path, str(path), most)


def _check_signature(data: bytes, path: Path, ending: str) -> None:
    """Refuse a file whose first bytes say that it is something else than its name says."""
    for signature, what, hint in _SIGNATURES:
        if data.startswith(signature):
            raise wrong_form(path, what, hint)
    is_packed = data.startswith(b"PK")
    if ending in _PACKED and not is_packed:
        what = "is empty" if not data else f"is no {ending[1:].upper()} file"
        raise wrong_form(path, what, "Save or copy it again, or name it as what it is.")
    if is_packed:
        form = packed_form(data, path)
        if form != ending:
            raise wrong_form(path, f"is a {form[1:].upper()} file", f"Name it {path.stem}{form}.")


def _blocks(data: bytes, path: Path, ending: str) -> Iterable[Block]:
    if ending in _PACKED:
        return _packed_blocks(data, path, ending)
    text = decoded(data, path)
    _check_captions(text, path, ending)
    return _text_blocks(text, path, ending)


def _packed_blocks(data: bytes, path: Path, ending: str) -> tuple[Block, ...]:
    try:
        if ending == ".docx":
            return tuple(document_blocks(opened(data, path)))
        return tuple(slide_blocks(data))
    except UNREADABLE as error:
        raise wrong_parts(path, error) from error


def _text_blocks(text: str, path: Path, ending: str) -> Iterator[Block]:
    if ending in _CAPTIONS:
        return caption_blocks(text, path, web=ending == ".vtt")
    if ending in _MARKED:
        return marked_blocks(text)
    return page_blocks(text) if ending in _PAGES else text_blocks(text)


def _check_captions(text: str, path: Path, ending: str) -> None:
    """Refuse captions under another name, and another kind of captions."""
    is_web = bool(re.match(r"WEBVTT(?:[ \t\n]|\Z)", text))
    if is_web and ending != ".vtt":
        raise wrong_form(path, "holds WebVTT captions", f"Name it {path.stem}.vtt.")
    if ending == ".vtt" and not is_web:
        if _TIMING.match(text):
            raise wrong_form(path, "holds SubRip captions", f"Name it {path.stem}.srt.")
        raise wrong_form(path, "does not start with WEBVTT", "Put WEBVTT on its first line.")
    if ending != ".srt" and not is_web and _TIMING.match(text):
        raise wrong_form(path, "holds SubRip captions", f"Name it {path.stem}.srt.")
