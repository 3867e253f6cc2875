"""Writing books: one fact changed, or the whole copied, with comments kept."""

from __future__ import annotations

import hashlib
import os
import stat
import tempfile
from collections.abc import Iterator
from pathlib import Path

from baywright.facts.book import Book
from baywright.files.books import book_from, label_of, read_book
from baywright.files.disk import book_files, read_bytes
from baywright.files.roundtrip import LayoutError, Steps, changed, rewritten
from baywright.files.tree import Node, read_tree
from baywright.problems import Mark, problem, suggestion


def fingerprint(data: bytes) -> str:
    """Return the SHA-256 of a file, by which a later change of it is noticed."""
    return hashlib.sha256(data).hexdigest()


def file_of_fact(folder: Path, path: str) -> tuple[Path, str]:
    """Return the file a fact stands in, and the fingerprint of that file.

    Raises:
        Problems: kind ``unknown-fact``, with the nearest path.
    """
    file, data, _, _ = find_fact(folder, path)
    return file, fingerprint(data)


def set_value(folder: Path, path: str, text: str, seen: str) -> Book:
    """Change one fact of a book in its file.

    Args:
        folder: folder of the book.
        path: dotted path of the fact, such as ``parts.ps-800.price``.
        text: the new value with its unit, as a person writes it.
        seen: fingerprint of the file as it was when the caller last read it.

    Returns:
        The book as it is now. The file is replaced in one step, and only when the whole book is
        sound with the new value.

    Raises:
        Problems: kinds ``unknown-fact``, ``not-a-fact``, ``changed-meanwhile`` and ``layout``, and
            everything that reading the changed book finds.
    """
    file, data, steps, mark = find_fact(folder, path)
    _check_seen(file, data, seen)
    try:
        new = changed(data.decode("utf-8"), steps, text).encode("utf-8")
    except LayoutError as error:
        message = "The layout of this file would not survive a change by the program."
        raise problem("layout", message, mark, "Change this line with an editor.") from error
    files = {label_of(path): read_bytes(path, label_of(path)) for path in book_files(folder)}
    book = book_from({**files, label_of(file): new})
    _check_seen(file, read_bytes(file, label_of(file)), seen)
    put_file(file.resolve(), new)
    return book


def write_book(folder: Path, target: Path) -> None:
    """Copy a book, each file read and written again.

    Args:
        folder: folder of the book; it has to be sound.
        target: folder of the copy, which must not exist yet or be empty.

    Raises:
        Problems: kind ``not-empty``, and everything that reading the book finds.
    """
    read_book(folder)
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise problem("not-empty", f"{target} is there already.", None, "Name a new folder.")
    target.mkdir(parents=True, exist_ok=True)
    for file in book_files(folder):
        text = read_bytes(file, label_of(file)).decode("utf-8")
        put_file(target / file.name, rewritten(text).encode("utf-8"))


def _check_seen(file: Path, data: bytes, seen: str) -> None:
    if fingerprint(data) != seen:
        message = f"{label_of(file)} has changed since it was read."
        raise problem("changed-meanwhile", message, None, "Read it again, then change it.")


def find_fact(folder: Path, path: str) -> tuple[Path, bytes, Steps, Mark | None]:
    """Return where a value of a book stands: its file and what that holds, the steps, the mark.

    Raises:
        Problems: kind ``unknown-fact``, with the nearest path.
    """
    known: list[str] = []
    for file in book_files(folder):
        data = read_bytes(file, label_of(file))
        for found, steps, mark in _facts(read_tree(data, label_of(file)).root):
            if found == path:
                return file, data, steps, mark
            known.append(found)
    hint = suggestion(path, known)
    raise problem("unknown-fact", f"The book has no fact {path!r}.", None, hint)


def _facts(root: Node) -> Iterator[tuple[str, Steps, Mark | None]]:
    """Yield the path of each value that can be changed, the steps to it, and its place."""
    waiting: list[tuple[Node, str, Steps, Mark | None]] = [(root, "", (), None)]
    while waiting:
        node, path, steps, mark = waiting.pop()
        if isinstance(node, dict) and not {"value", "could_be", "told"} & node.keys():
            waiting += [(v, k.path, (*steps, str(k)), k.mark) for k, v in node.items()]
        elif isinstance(node, list):
            inner = [(v, f"{path}.{i}", (*steps, i), mark) for i, v in enumerate(node)]
            waiting += inner
        else:
            yield path, steps, mark


def put_file(file: Path, data: bytes) -> None:
    """Put new content in place of a file at once: whoever reads sees the old or the new whole."""
    temporary = None
    try:
        with tempfile.NamedTemporaryFile(dir=file.parent, prefix=".", delete=False) as stream:
            temporary = Path(stream.name)
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        temporary.chmod(stat.S_IMODE(file.stat().st_mode) if file.exists() else 0o644)
        temporary.replace(file)
    except OSError as error:
        if temporary is not None:
            temporary.unlink(missing_ok=True)
        message = f"{label_of(file)} cannot be written."
        raise problem(
            "unwritable", message, None, "Check the rights and the space left."
        ) from error
