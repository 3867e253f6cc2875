"""Extending a book: several values and entries at once, all of them or none."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from baywright.facts.book import Book
from baywright.facts.fact import Scalar
from baywright.files.books import book_from, label_of
from baywright.files.disk import book_files, read_bytes
from baywright.files.roundtrip import Steps, loses_comments, noted
from baywright.files.tree import Node, read_tree
from baywright.files.writing import put_file
from baywright.problems import Problems, problem


@dataclass(frozen=True, slots=True)
class Additions:
    """What a book is to hold beside what it has.

    Args:
        added: texts, lists and mappings by where each is to stand.
        values: new values of facts that stand there, each with the id of its source or an empty
            text.
    """

    added: Mapping[Steps, Any] = field(default_factory=dict)
    values: Mapping[Steps, tuple[str, str]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Extended:
    """A book with additions, not yet written.

    Args:
        old: bytes of the files that change, as they were read; ``None`` for a new file.
        new: their bytes afterwards.
        book: the book as it would be.
    """

    old: Mapping[Path, bytes | None]
    new: Mapping[Path, bytes]
    book: Book


def extended(folder: Path, additions: Additions) -> Extended:
    """Return a book with additions; nothing is written.

    Raises:
        Problems: kind ``layout`` where a comment would be lost, and everything that reading the
            extended book finds.
    """
    files = {path: read_bytes(path, label_of(path)) for path in book_files(folder)}
    trees = {path: read_tree(data, label_of(path)).root for path, data in files.items()}
    added: dict[Path, dict[Steps, Any]] = {}
    values: dict[Path, dict[Steps, tuple[str, str]]] = {}
    for steps, content in additions.added.items():
        added.setdefault(_file_for(folder, trees, steps), {})[steps] = content
    for steps, value in additions.values.items():
        values.setdefault(_file_for(folder, trees, steps), {})[steps] = value
    new = {
        path: _changed(path, files.get(path, b""), values.get(path, {}), added.get(path, {}))
        for path in sorted({*added, *values})
    }
    book = book_from({label_of(path): data for path, data in {**files, **new}.items()})
    return Extended({path: files.get(path) for path in new}, new, book)


def write_extended(change: Extended) -> None:
    """Write an extended book: every file that changes, or none.

    Raises:
        Problems: kind ``changed-meanwhile`` when a file is not what it was when it was read, and
            ``unwritable``; the files are then as they were.
    """
    for path, data in change.old.items():
        if _bytes_of(path) != data:
            message = f"{label_of(path)} has changed since it was read."
            raise problem("changed-meanwhile", message, None, "Nothing was written; start again.")
    done: list[Path] = []
    try:
        for path, data in change.new.items():
            put_file(path.resolve(), data)
            done.append(path)
    except Problems:
        for path in done:
            _put_back(path, change.old[path])
        raise


def _changed(
    path: Path,
    data: bytes,
    values: Mapping[Steps, tuple[str, str]],
    added: Mapping[Steps, Any],
) -> bytes:
    old = data.decode("utf-8")
    plain = old.replace("\r\n", "\n")
    new = noted(plain, values, added)
    if loses_comments(plain, new):
        message = f"The layout of {label_of(path)} would not survive a change by the program."
        raise problem("layout", message, None, "Change it with an editor.")
    return (new.replace("\n", "\r\n") if plain != old else new).encode("utf-8")


def _file_for(folder: Path, trees: Mapping[Path, Node], steps: Steps) -> Path:
    """Return the file that has most of the way to a place, or a new one named by the section."""
    best = max(trees, key=lambda path: _depth(trees[path], steps))
    return best if _depth(trees[best], steps) else folder / f"{steps[0]}.yaml"


def _depth(node: Node, steps: Steps) -> int:
    """Return how many steps of a way are there."""
    for number, step in enumerate(steps):
        if isinstance(node, dict) and step in node:
            node = node[Scalar(str(step))]
        elif isinstance(node, list) and isinstance(step, int) and step < len(node):
            node = node[step]
        else:
            return number
    return len(steps)


def _bytes_of(path: Path) -> bytes | None:
    return read_bytes(path, label_of(path)) if path.exists() else None


def _put_back(path: Path, data: bytes | None) -> None:
    if data is None:
        path.unlink(missing_ok=True)
    else:
        put_file(path.resolve(), data)
