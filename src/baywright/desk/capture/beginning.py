"""A new book from answers: its files, and what it still needs before it can be asked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path as Folder
from typing import Any

from baywright.desk.capture.answering import tree_of
from baywright.desk.capture.questions import Answers, Path, Question, open_questions
from baywright.desk.capture.watching import Watch
from baywright.desk.opening import Setting, conditions
from baywright.facts.book import Book
from baywright.facts.model import Model
from baywright.files.books import book_from, bundled_books, read_book
from baywright.files.composing import Remarks, composed
from baywright.files.disk import is_folder
from baywright.files.folders import check_folder, write_files
from baywright.files.shape import (
    annotations_of,
    element_of,
    fields_of,
    models_in,
    tag_of,
    tag_value,
)
from baywright.laws.machine import compile_book
from baywright.laws.registry import SUBSYSTEMS
from baywright.problems import Problem, Problems, problem

KEPT = ".answers"
"""File of a new book that keeps the answers so far; a hidden one is no part of the book."""

_FILES: Mapping[str, tuple[str, ...]] = {
    "places.yaml": ("places", "links"),
    "parts.yaml": ("parts",),
    "rules.yaml": ("settings", "rules", "models"),
}
"""Sections by file; all others stand in the first."""
_FIRST = "book.yaml"


@dataclass(frozen=True)
class Begun:
    """A new book as its answers make it.

    Args:
        files: the text of each file.
        book: the book, or ``None`` when it cannot be used yet.
        problems: what is wrong with it.
        unknown: questions answered with unknown, or with nothing.
        open: needed questions without an answer.
    """

    files: Mapping[str, str]
    book: Book | None
    problems: tuple[Problem, ...]
    unknown: tuple[Question, ...]
    open: tuple[Question, ...]

    @property
    def needed(self) -> tuple[Question, ...]:
        """What the book cannot do without and nobody has said."""
        return tuple(each for each in (*self.unknown, *self.open) if each.needed)


def begun(answers: Answers) -> Begun:
    """Return the book that answers make; nothing is written.

    Args:
        answers: answers that have been checked.
    """
    tree, unknown = tree_of(answers)
    remarks = Remarks(_above(), _beside(tree), _left_out(unknown))
    files = {
        name: composed(sections, remarks) for name, sections in _by_file(tree).items() if sections
    }
    still = tuple(each for each in open_questions(answers) if each.needed)
    try:
        book = book_from({name: text.encode() for name, text in files.items()})
    except Problems as found:
        return Begun(files, None, found.problems, tuple(unknown), still)
    return Begun(files, book, (), tuple(unknown), still)


def check_new(folder: Folder, earlier: Answers) -> None:
    """See whether a folder can take a new book.

    Args:
        folder: the folder, which may be missing.
        earlier: answers kept in it; files that they made may be written again.

    Raises:
        Problems: kinds ``not-empty`` and ``unwritable``.
    """
    check_folder(folder)
    if not is_folder(folder):
        return
    made = begun(earlier).files if earlier else {}
    for path in sorted(folder.iterdir()):
        same = path.is_file() and path.name in made and path.read_text("utf-8") == made[path.name]
        if path.name != KEPT and not same:
            message = f"{path} is there already, or was changed since it was begun."
            raise problem("not-empty", message, None, "Go on with an editor, or name a new folder.")


def write_begun(folder: Folder, new: Begun) -> None:
    """Write the files of a new book, each whole or not at all.

    Raises:
        Problems: kind ``unwritable``.
    """
    write_files(new.files, folder)


def _by_file(tree: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    where = {section: name for name, sections in _FILES.items() for section in sections}
    files: dict[str, dict[str, Any]] = {name: {} for name in (_FIRST, *_FILES)}
    for section, content in tree.items():
        files[where.get(section, _FIRST)][section] = content
    return files


def _above() -> dict[str, str]:
    return {name: str(info.description) for name, info in fields_of(Book).items()}


def _beside(tree: Mapping[str, Any]) -> dict[Path, str]:
    """Return remarks for the fields of sections that hold no entries with ids."""
    found: dict[Path, str] = {}
    for section, annotation in annotations_of(Book).items():
        models = models_in(annotation)
        for name, info in fields_of(models[0]).items() if models else ():
            if isinstance(tree.get(section, {}).get(name), str):
                found[(section, name)] = str(info.description)
    return found


def _left_out(unknown: list[Question]) -> dict[Path, tuple[str, ...]]:
    """Return a line for each unknown fact, at the end of its entry."""
    found: dict[Path, tuple[str, ...]] = {}
    for question in unknown:
        entry, word = question.path[:-1], "needed: " if question.needed else ""
        line = f"{question.path[-1]}: unknown; {word}{question.says} ({question.such_as})"
        found[entry] = (*found.get(entry, ()), line)
    return found


def asked_by(question: Question, answers: Answers) -> tuple[str, ...]:
    """Return which laws read the fact that a question is about, in the bundled books.

    Args:
        question: a question of the list.
        answers: the answers, which tell the kind of an entry.
    """
    holder = _holder(question.path, answers)
    return tuple(laws for laws, reads in _reads() if (holder, question.path[-1]) in reads)


def _holder(path: Path, answers: Answers) -> str:
    """Return the name of the model that holds a field."""
    annotation: Any = Book
    for at, step in enumerate(path[:-1]):
        models = models_in(annotation)
        if models:
            annotation = annotations_of(_one_of(models, path[:at], answers)).get(step)
        else:
            annotation = element_of(annotation)
    models = models_in(annotation)
    if not models and element_of(annotation) is not None:
        models = models_in(element_of(annotation))
    return _one_of(models, path[:-1], answers).__name__ if models else ""


def _one_of(models: tuple[type[Model], ...], path: Path, answers: Answers) -> type[Model]:
    tag = tag_of(models)
    word = answers.get((*path, tag), "")
    return next((model for model in models if tag and tag_value(model, tag) == word), models[0])


@cache
def _reads() -> tuple[tuple[str, frozenset[tuple[str, str]]], ...]:
    """Return what the laws of each subsystem read in the bundled books: model and field."""
    return tuple((laws, frozenset(reads)) for laws, reads in _read_in(bundled_books()))


def _read_in(books: Mapping[str, Folder]) -> Iterator[tuple[str, set[tuple[str, str]]]]:
    frames = []
    for folder in books.values():
        book = read_book(folder)
        watch = Watch(book)
        frames.append((watch, compile_book(watch.book, conditions(book, Setting())).frame))
    for subsystem in SUBSYSTEMS:
        reads: set[tuple[str, str]] = set()
        names: dict[str, None] = {}
        for watch, frame in frames:
            with watch.reading() as found:
                names.update(dict.fromkeys(subsystem.names(frame)))
                list(subsystem.laws(frame))
            reads |= found
        offered = f" ({', '.join(names)})" if names else ""
        yield f"{subsystem.name}{offered}", reads
