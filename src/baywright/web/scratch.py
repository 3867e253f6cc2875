"""Texts as files for what the desk reads from files; problems name the text, not the folder."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from baywright.problems import Mark, Problem, Problems


@contextmanager
def folder() -> Iterator[Path]:
    """Give a folder that is gone afterwards, and whose name no problem has."""
    with tempfile.TemporaryDirectory(prefix="baywright-") as made:
        try:
            yield Path(made)
        except Problems as found:
            raise type(found)([_without(each, f"{made}/") for each in found.problems]) from found


def _without(each: Problem, path: str) -> Problem:
    mark = each.mark
    if isinstance(mark, Mark):
        mark = replace(mark, file=mark.file.replace(path, ""))
    said, hint = (text.replace(path, "") for text in (each.message, each.hint))
    return replace(each, message=said, hint=hint, mark=mark)
