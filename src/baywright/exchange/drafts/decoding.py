"""Texts out of bytes: UTF-8 with or without its mark, UTF-16 with its mark, nothing else."""

from __future__ import annotations

import re
from pathlib import Path

from baywright.problems import Mark, problem

_UTF_16 = {b"\xff\xfe": "utf-16-le", b"\xfe\xff": "utf-16-be"}
_UTF_32 = (b"\xff\xfe\x00\x00", b"\x00\x00\xfe\xff")
_NO_TEXT = re.compile("[\x00-\x08\x0e-\x1a\x1c-\x1f]")
_LINE_END = re.compile("\r\n|\r|\n")


def decoded(data: bytes, path: Path) -> str:
    """Return the text of a file; every end of a line is one line feed.

    Raises:
        Problems: kind ``not-text``, with line and column of the first sign that is none.
    """
    encoding, start = _encoding(data, path)
    try:
        text = data[start:].decode(encoding)
    except UnicodeDecodeError as error:
        # What stands before the fault can be read, and tells its line.
        before = data[start : start + error.start].decode(encoding, "replace")
        name = "UTF-8" if encoding == "utf-8" else "UTF-16"
        message = f"What follows is not text in {name}; other encodings are not guessed at."
        raise problem("not-text", message, _end_of(before, path), "Save it as UTF-8.") from error
    stray = _NO_TEXT.search(text)
    if stray:
        message = f"Here stands a sign that no text has (code {ord(stray.group())})."
        mark = _end_of(text[: stray.start()], path)
        raise problem("not-text", message, mark, "Save it as plain text in UTF-8.")
    return _LINE_END.sub("\n", text)


def _encoding(data: bytes, path: Path) -> tuple[str, int]:
    if data.startswith(_UTF_32):
        message = "This is text in UTF-32."
        raise problem("not-text", message, Mark(str(path), 1, 1), "Save it as UTF-8.")
    if data[:2] in _UTF_16:
        return _UTF_16[data[:2]], 2
    return "utf-8", 3 if data.startswith(b"\xef\xbb\xbf") else 0


def _end_of(before: str, path: Path) -> Mark:
    lines = _LINE_END.split(before)
    return Mark(str(path), len(lines), len(lines[-1]) + 1)
