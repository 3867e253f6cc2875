"""Lists of questions kept in a file, each in words and as an expression."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from baywright.facts.fact import Scalar
from baywright.files.books import label_of
from baywright.files.disk import read_bytes
from baywright.files.tree import Node, read_tree
from baywright.problems import Mark, Problem, Problems, problem, suggestion

FIELDS = ("says", "ask", "as_of")


@dataclass(frozen=True, slots=True)
class Listed:
    """A question of a list.

    Args:
        says: the question in words.
        ask: the question as an expression.
        as_of: the day in ISO form, or empty for the edition of the book.
        mark: where the expression stands.
    """

    says: str
    ask: str
    as_of: str
    mark: Mark | None


def read_questions(path: Path) -> list[Listed]:
    """Read a list of questions.

    Raises:
        Problems: everything that is wrong with the file.
    """
    file = label_of(path)
    tree = read_tree(read_bytes(path, file), file)
    root = tree.root if isinstance(tree.root, dict) else {}
    entries = next((value for key, value in root.items() if key == "questions"), None)
    if not isinstance(entries, list):
        hint = "Start with 'questions:' and below it a list."
        raise problem("no-questions", "No list of questions is here.", Mark(file, 1, 1), hint)
    found = [*tree.problems, *(each for entry in entries for each in _wrong(entry, file))]
    if found:
        raise Problems(found)
    return [_listed(entry) for entry in entries if isinstance(entry, dict)]


def _wrong(entry: Node, file: str) -> Iterator[Problem]:
    if not isinstance(entry, dict):
        mark = entry.mark if isinstance(entry, Scalar) else Mark(file, 1, 1)
        yield Problem("not-a-mapping", "A question has fields.", mark, "Write says: and ask:.")
        return
    for key, value in entry.items():
        if key not in FIELDS:
            message = f"A question has nothing called {str(key)!r}."
            yield Problem("unknown-key", message, key.mark, suggestion(key, FIELDS))
        elif not isinstance(value, Scalar):
            yield Problem("not-a-value", "One text is wanted here.", key.mark, "Write one text.")
    for name in FIELDS[:2]:
        if name not in entry:
            mark = next((key.mark for key in entry), Mark(file, 1, 1))
            yield Problem("missing", f"A question needs {name}.", mark, f"Add {name}:.")


def _listed(entry: dict[Scalar, Node]) -> Listed:
    texts = {str(key): value for key, value in entry.items() if isinstance(value, Scalar)}
    ask = texts["ask"]
    return Listed(str(texts["says"]), str(ask), str(texts.get("as_of", "")), ask.mark)
