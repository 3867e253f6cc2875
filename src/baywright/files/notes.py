"""Change notes: facts that become others, and what is new, written down before the book is changed.

title: Change note 3 on the Ferryman F2
date: 2031-07-10
says: The 1300 W supply gives 1100 W at low line.
set:
  parts.ps-1300.ratings.low: 1100 W
add:
  rules.new-rule: {says: what it says, holds: count(drive) <= 20}
"""

from __future__ import annotations

import datetime
import shutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from baywright.facts.book import facts_of
from baywright.facts.fact import Scalar
from baywright.files.books import label_of, read_book
from baywright.files.disk import book_files, read_bytes
from baywright.files.roundtrip import Steps, noted
from baywright.files.tree import Node, read_tree
from baywright.files.writing import find_fact
from baywright.problems import Mark, Problem, Problems, problem, suggestion

FIELDS = ("title", "date", "says", "set", "add")
ADDED = "added.yaml"
"""File of a changed book for sections that it had not."""


@dataclass(frozen=True, slots=True)
class Note:
    """A change note.

    Args:
        name: the name of its file, by which the changed facts cite it.
        title: its title as a source.
        date: its date.
        says: what it is about, one sentence.
        values: the new value as written, by dotted path of the fact.
        added: what is new, by dotted path: texts, lists and mappings.
    """

    name: str
    title: str
    date: datetime.date
    says: str
    values: Mapping[str, str] = field(default_factory=dict)
    added: Mapping[str, Any] = field(default_factory=dict)


def read_note(path: Path) -> Note:
    """Read a change note.

    Raises:
        Problems: everything that is wrong with the file.
    """
    file = label_of(path)
    tree = read_tree(read_bytes(path, file), file)
    root = tree.root if isinstance(tree.root, dict) else {}
    wrong = [*tree.problems, *_wrong(root, file)]
    if wrong:
        raise Problems(wrong)
    fields = {str(key): value for key, value in root.items()}
    return Note(
        path.stem,
        str(fields["title"]),
        datetime.date.fromisoformat(str(fields["date"])),
        str(fields["says"]),
        {str(path): str(value) for path, value in _entries(fields.get("set"))},
        {str(path): _plain(value) for path, value in _entries(fields.get("add"))},
    )


def _entries(node: Node | None) -> list[tuple[Scalar, Node]]:
    return list(node.items()) if isinstance(node, dict) else []


def _wrong(root: Mapping[Scalar, Node], file: str) -> Iterator[Problem]:
    marks = {str(key): key.mark for key in root}
    for name in FIELDS[:3]:
        if name not in marks:
            at = Mark(file, 1, 1)
            yield Problem("missing", f"A change note has no {name!r}.", at, f"Give {name}:.")
    for key, value in root.items():
        if key not in FIELDS:
            message = f"A change note has nothing called {str(key)!r}."
            yield Problem("unknown-key", message, key.mark, suggestion(key, FIELDS))
        elif key == "date" and not _is_date(value):
            yield Problem("not-a-date", f"{value!r} is not a day.", key.mark, "Write 2031-07-01.")
    for path, value in _entries(root.get(Scalar("set"))):
        if not isinstance(value, Scalar):
            yield Problem("not-a-value", "One text is wanted here.", path.mark, "Write a value.")
    if not ({"set", "add"} & marks.keys()):
        at = Mark(file, 1, 1)
        yield Problem("missing", "A change note changes nothing.", at, "Give set: or add:.")


def _is_date(value: Node) -> bool:
    try:
        datetime.date.fromisoformat(str(value))
    except ValueError:
        return False
    return True


def _plain(node: Node) -> Any:  # noqa: ANN401 - texts, lists and mappings of them
    if isinstance(node, dict):
        return {str(key): _plain(value) for key, value in node.items()}
    return [_plain(each) for each in node] if isinstance(node, list) else str(node)


def write_noted(folder: Path, note: Note, target: Path) -> Path:
    """Copy a book with a change note carried out; the changed facts cite the note.

    Args:
        folder: folder of the book, which stays as it is.
        note: the note.
        target: folder of the copy, which must not exist yet.

    Returns:
        The target.

    Raises:
        Problems: for a path that is not in the book, for something new that is there already, and
            everything that reading the changed book finds.
    """
    facts = {fact.path for fact in facts_of(read_book(folder))}
    values: dict[Path, dict[Steps, tuple[str, str]]] = {}
    for path, value in note.values.items():
        file, _, steps, _ = find_fact(folder, path)
        values.setdefault(file, {})[steps] = (value, note.name if path in facts else "")
    source = {f"sources.{note.name}": {"title": note.title, "date": note.date.isoformat()}}
    added: dict[Path, dict[Steps, Any]] = {}
    for path, content in {**source, **note.added}.items():
        steps = tuple(path.split("."))
        added.setdefault(_file_for(folder, steps), {})[steps] = content
    shutil.copytree(folder, target)
    for file in sorted({*values, *added}):
        copy = target / file.name
        text = copy.read_text("utf-8") if copy.exists() else ""
        copy.write_text(noted(text, values.get(file, {}), added.get(file, {})), "utf-8")
    read_book(target)
    return target


def _file_for(folder: Path, steps: Steps) -> Path:
    """Return the file that has the section of something new, or a new one.

    Raises:
        Problems: kind ``already-there``.
    """
    for file in book_files(folder):
        root = read_tree(read_bytes(file, label_of(file)), label_of(file)).root
        node: Node | None = root
        for number, step in enumerate(steps):
            node = dict(node).get(Scalar(str(step))) if isinstance(node, dict) else None
            if node is None:
                if number:
                    return file
                break
        else:
            path = ".".join(map(str, steps))
            hint = "Change it with set:, or choose another name."
            raise problem("already-there", f"The book has {path!r} already.", None, hint)
    return folder / ADDED
