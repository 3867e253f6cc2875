"""What may be kept as text or JSON, on every database alike."""

from __future__ import annotations

import json
from collections.abc import Mapping

from baywright.problems import problem

MOST_NAME = 200
"""Characters in a name."""
MOST_TEXT = 1_000_000
"""Characters in the text of a build or of a question."""
MOST_JSON = 20_000_000
"""Characters in an answer."""


def is_plain(text: str) -> bool:
    """Say whether every database takes a text: it has no zero sign and no half of a pair."""
    return "\0" not in text and not any("\ud800" <= sign <= "\udfff" for sign in text)


def checked(text: str, what: str, most: int = MOST_NAME) -> str:
    """Return a text that can be kept.

    Args:
        text: the text.
        what: what it is, to begin a sentence with.
        most: how many characters it may have.

    Raises:
        Problems: kind ``text-not-keepable`` or ``text-too-long``.
    """
    if len(text) > most:
        message = f"{what} has {len(text):,} characters; {most:,} can be kept."
        raise problem("text-too-long", message, None, "Shorten it.")
    if not is_plain(text):
        message = f"{what} has signs that are not text."
        raise problem("text-not-keepable", message, None, "Take them out.")
    return text


def named(text: str, what: str) -> str:
    """Return a name without the space around it.

    Raises:
        Problems: kind ``no-name``, or as ``checked``.
    """
    name = checked(text, what).strip()
    if not name:
        raise problem("no-name", f"{what} is empty.", None, "Give a name.")
    return name


def as_text(value: Mapping[str, object], what: str) -> str:
    """Return JSON as text, the keys in their order.

    Raises:
        Problems: kind ``text-too-long``.
        TypeError: for what is not JSON.
        ValueError: for a number that JSON does not have.
    """
    return checked(json.dumps(value, allow_nan=False), what, MOST_JSON)


def as_json(text: str) -> dict[str, object]:
    """Return the JSON object that a text holds."""
    value: dict[str, object] = json.loads(text)
    return value
