"""What is not read, and why: sizes, encodings and files that are not what their name says."""

from __future__ import annotations

import struct
import zipfile
import zlib
from pathlib import Path

from docx.exceptions import PythonDocxError
from docx.opc.exceptions import OpcError
from pptx.exc import PythonPptxError

from baywright.problems import Mark, Problem, Problems, problem

MOST_TEXT_BYTES = 20_000_000
"""A longer text is refused before it is read."""

MOST_PACKED_BYTES = 200_000_000
"""A larger DOCX or PPTX file, pictures and all, is refused before it is read."""

MOST_PARTS = 20_000
"""A packed file with more parts is refused."""

MOST_UNPACKED_BYTES = 400_000_000
"""A packed file that would grow beyond this is refused."""

MOST_XML_BYTES = 60_000_000
"""The XML of a packed file that would grow beyond this is refused."""

MOST_RATIO = 200
"""A part that grows more than this when unpacked, and beyond ``FREE_RATIO_BYTES``, is refused."""

FREE_RATIO_BYTES = 5_000_000

MOST_DEPTH = 200
"""XML and lists that are nested deeper are refused."""

MOST_PROBLEMS = 20
"""Problems of one draft that are shown."""


CANNOT_UNPACK = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    EOFError,
    OSError,
    RuntimeError,
    ValueError,
)
"""What unpacking raises over damaged or encrypted parts."""

UNREADABLE = (
    *CANNOT_UNPACK,
    OpcError,
    PythonDocxError,
    PythonPptxError,
    LookupError,
    AttributeError,
    TypeError,
    SyntaxError,
    AssertionError,
)
"""What the libraries for packed files raise over parts that are not as their format has them."""


def too_large(path: Path, size: int, most: int) -> Problems:
    """Return the problem of a draft that is too large."""
    message = f"{path} has {size:,} bytes; at most {most:,} are read."
    return problem("too-large", message, None, "Split it, or take out what need not be read.")


def damaged(path: Path, why: str) -> Problems:
    """Return the problem of a packed file that cannot be unpacked."""
    message = f"{path} is damaged: {why}."
    return problem("damaged", message, Mark(str(path), 1, 1), "Save or copy it again.")


def wrong_parts(path: Path, error: Exception) -> Problems:
    """Return the problem of a packed file whose parts are not as its format has them."""
    why = " ".join(str(error).split()) or type(error).__name__
    return damaged(path, f"parts of it are missing or wrong ({why[:120]})")


def suspicious(path: Path, why: str) -> Problems:
    """Return the problem of a file that is built to harm whoever reads it."""
    message = f"{path} is not read: {why}."
    hint = "Save it anew with a word processor, or as text."
    return problem("unsafe", message, Mark(str(path), 1, 1), hint)


def wrong_form(path: Path, what: str, hint: str) -> Problems:
    """Return the problem of a file that is not what its name says, or nothing that is read."""
    return problem("wrong-form", f"{path} {what}.", Mark(str(path), 1, 1), hint)


def first_of(found: list[Problem]) -> Problems:
    """Return problems to be raised, the first of them if there are many."""
    if len(found) <= MOST_PROBLEMS:
        return Problems(found)
    more = len(found) - MOST_PROBLEMS
    rest = Problem("more-problems", f"{more} more are not shown.", None, "Correct these first.")
    return Problems([*found[:MOST_PROBLEMS], rest])
