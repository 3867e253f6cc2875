"""Every text of the workbench's own, in one folder, one file for each page, ready for translation.

What the desk says (verdicts, reasons, problems) comes from the desk.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

LANGUAGE = "english"
"""The folder with the texts; a translation is another folder with the same keys."""


@cache
def texts(language: str = LANGUAGE) -> Mapping[str, str]:
    """Return all texts of a language by their keys.

    Raises:
        ValueError: when two files have a text of the same key.
    """
    found: dict[str, str] = {}
    for file in sorted(files("baywright.web").joinpath(language).iterdir(), key=str):
        own = tomllib.loads(file.read_text(encoding="utf-8"))
        twice = sorted(found.keys() & own)
        if twice:
            raise ValueError(f"{file.name}: {', '.join(twice)} stand in another file too.")
        found |= own
    return found


def text(key: str) -> str:
    """Return a text by its key; raises ``KeyError`` for one that there is not."""
    return texts()[key]
