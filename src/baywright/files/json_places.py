"""Where things stand in a JSON text: found only when there is a problem to place."""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from baywright.problems import Mark

Path: TypeAlias = tuple[str | int, ...]
"""The keys and the positions that lead to a value."""

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\],:]|[^\s{}\[\],:"]+')


@dataclass(slots=True)
class _Level:
    """An object or a list that is open, and where in it the walk is."""

    is_object: bool
    step: str | int | None


def path_text(path: Path) -> str:
    """Return a path as people write it.

    >>> path_text(("tables", 3, "rows"))
    'tables[3].rows'
    """
    steps = (f"[{step}]" if isinstance(step, int) else f".{step}" for step in path)
    return "".join(steps).removeprefix(".")


def places(text: str, wanted: Collection[Path], file: str) -> dict[Path, Mark]:
    """Return the places of some values of a well-formed JSON text; of an entry, its key's.

    Args:
        text: the text.
        wanted: paths of the values.
        file: name of the file in marks.
    """
    found: dict[Path, Mark] = {}
    for path, offset in _walk(text):
        if path in wanted and path not in found:
            found[path] = mark_at(text, offset, file)
            if len(found) == len(wanted):
                break
    return found


def given_twice(text: str, file: str) -> Iterator[tuple[Path, Mark]]:
    """Yield each key that its object has already, with the place of the later one."""
    seen: set[Path] = set()
    for path, offset in _walk(text):
        if path in seen:
            yield path, mark_at(text, offset, file)
        seen.add(path)


def mark_at(text: str, offset: int, file: str) -> Mark:
    """Return the place of a character.

    Args:
        text: the text.
        offset: the character, counted from 0.
        file: name of the file.
    """
    start = text.rfind("\n", 0, offset) + 1
    return Mark(file, text.count("\n", 0, offset) + 1, offset - start + 1)


def _walk(text: str) -> Iterator[tuple[Path, int]]:
    """Yield the path and the offset of every key and of every member of a list."""
    levels: list[_Level] = []
    for token in _TOKEN.finditer(text):
        first = token[0][0]
        level = levels[-1] if levels else None
        if first in "]}":
            levels.pop()
        elif first == "," and level is not None:
            level.step = level.step + 1 if isinstance(level.step, int) else None
        elif first == ":":
            continue
        elif level is not None and level.step is None:
            level.step = json.loads(token[0])
            yield _path(levels), token.start()
        else:
            if level is not None and not level.is_object:
                yield _path(levels), token.start()
            if first in "{[":
                levels.append(_Level(first == "{", None if first == "{" else 0))


def _path(levels: list[_Level]) -> Path:
    return tuple(level.step for level in levels if level.step is not None)
