"""Texts from outside, made fit to be shown, written and compared."""

from __future__ import annotations

LONGEST = 200
"""Signs of one text that are kept; longer ones are cut with an ellipsis."""


def plain(text: str, most: int = LONGEST) -> str:
    r"""Return a text from outside in one line of signs that can be seen.

    Whatever could steer a terminal or break a file becomes a space; runs of spaces become one.

    >>> plain("DIMM\x1b[31m  A1\n")
    'DIMM [31m A1'
    """
    shown = "".join(sign if sign.isprintable() else " " for sign in text[: 4 * most])
    short = " ".join(shown.split())
    return short if len(short) <= most else f"{short[: most - 1]}…"
