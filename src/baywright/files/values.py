"""The values of a book as its files have them: plain text by path, read without any model."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from baywright.files.books import label_of
from baywright.files.disk import book_files, read_bytes

_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


def values_of(folder: Path) -> dict[str, list[str]]:
    """Return what is written at each path: one text, or the values an unknown fact could have.

    This is a second way to read a book, to hold the first against. The book has to be sound.

    Raises:
        Problems: when a file cannot be read.
    """
    found: dict[str, list[str]] = {}
    for file in book_files(folder):
        text = read_bytes(file, label_of(file)).decode("utf-8")
        found.update(_values(yaml.load(text, _LOADER), ""))  # noqa: S506 - it makes texts only
    return found


def _values(node: object, path: str) -> Iterator[tuple[str, list[str]]]:
    if isinstance(node, dict) and isinstance(node.get("value"), str):
        yield path, [node["value"]]
    elif isinstance(node, dict) and isinstance(node.get("could_be"), list):
        yield path, [str(each) for each in node["could_be"]]
    elif isinstance(node, dict) and isinstance(node.get("told"), list):
        yield path, list(dict.fromkeys(str(each["value"]) for each in node["told"]))
    elif isinstance(node, dict | list):
        items = node.items() if isinstance(node, dict) else enumerate(node)
        for key, inner in items:
            yield from _values(inner, f"{path}.{key}" if path else str(key))
    else:
        yield path, [str(node)]
