"""Packing: a text of some pages as a part of an address, and back."""

from __future__ import annotations

import base64
import binascii
import zlib

from baywright.problems import problem

LONGEST = 64 * 1024
"""Most bytes of a text; a need has a few hundred."""


def packed(text: str) -> str:
    """Return a text as letters, digits, hyphens and underscores.

    >>> unpacked(packed("book: f2"))
    'book: f2'
    """
    return base64.urlsafe_b64encode(zlib.compress(text.encode("utf-8"), 9)).decode().rstrip("=")


def unpacked(letters: str) -> str:
    """Return a text that was packed.

    Raises:
        Problems: kind ``not-packed``, for anything else, and for a text that is too long.
    """
    try:
        data = base64.urlsafe_b64decode(letters + "=" * (-len(letters) % 4))
        reader = zlib.decompressobj()
        text = reader.decompress(data, LONGEST).decode("utf-8")
    except (binascii.Error, zlib.error, ValueError) as error:
        raise _unreadable() from error
    if reader.unconsumed_tail or not reader.eof:
        raise _unreadable()
    return text


def _unreadable() -> Exception:
    message = "The address does not say a text, or not all of it."
    return problem("not-packed", message, None, "Copy the whole address, or begin anew.")
