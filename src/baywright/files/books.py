"""Reading books and builds."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TypeAlias, TypeVar

from pydantic import ValidationError

from baywright.facts.book import Book
from baywright.facts.build import Build
from baywright.facts.fact import Scalar
from baywright.facts.model import Model
from baywright.facts.need import Need
from baywright.facts.readers import shown
from baywright.facts.references import check_references
from baywright.facts.site import Site
from baywright.files.complaints import complaints
from baywright.files.disk import book_files, is_file, is_folder, read_bytes
from baywright.files.given import put_given
from baywright.files.shape import annotations_of, is_mapping_of_ids
from baywright.files.tree import Node, Tree, read_tree
from baywright.problems import Mark, Problem, Problems, problem, suggestion

BUNDLED = Path(__file__).parents[1] / "books"
"""Where the books that come with the package are."""

ModelT = TypeVar("ModelT", bound=Model)

Texts: TypeAlias = "str | Mapping[str, Texts]"
"""Texts in mappings of texts, as somebody gave them by hand."""


def find_book(name: str | Path) -> Path:
    """Return the folder of a book.

    Args:
        name: path of a folder, or the name of a book that comes with the package.

    Raises:
        Problems: kinds ``not-a-file`` and ``no-book``, with the nearest name.
    """
    folder = Path(name)
    if is_folder(folder):
        return folder
    known = bundled_books()
    if str(name) in known:
        return known[str(name)]
    if is_file(folder):
        hint = f"Give its folder, {folder.parent}."
        raise problem("not-a-file", f"{name} is a file; a book is a folder.", None, hint)
    hint = suggestion(str(name), known) or "Give the path of a folder."
    raise problem("no-book", f"There is no book {str(name)!r}.", None, hint)


def bundled_books() -> dict[str, Path]:
    """Return the folders of the books that come with the package, by name."""
    if not BUNDLED.is_dir():
        return {}
    return {
        folder.name: folder
        for folder in sorted(BUNDLED.iterdir())
        if folder.is_dir() and any(folder.glob("*.yaml"))
    }


def beside(folder: Path, name: str) -> Path:
    """Return the folder of a book that another one names: its neighbour, or a bundled one.

    Raises:
        Problems: kinds ``not-a-file`` and ``no-book``, with the nearest name.
    """
    neighbour = folder.resolve().parent / name
    return neighbour if is_folder(neighbour) else find_book(name)


def read_book(folder: Path, given: Mapping[str, str] = {}) -> Book:
    """Read a book and check that it fits together.

    Args:
        folder: the folder; its own YAML files are the book, those in folders inside it are not.
        given: values for unknown facts, by dotted path; each is one the fact could have.

    Raises:
        Problems: everything that is wrong, in the order of the files.
    """
    files: dict[str, bytes] = {}
    problems: list[Problem] = []
    for path in book_files(folder):
        try:
            files[label_of(path)] = read_bytes(path, label_of(path))
        except Problems as found:
            problems += found.problems
    if problems:
        raise Problems(problems)
    return book_from(files, given)


def book_from(files: Mapping[str, bytes], given: Mapping[str, str] = {}) -> Book:
    """Read a book from the bytes of its files, by the name each has in problems.

    Raises:
        Problems: everything that is wrong, in the order of the files.
    """
    trees, problems = _trees(files)
    if len(trees) < len(files):  # what a broken file holds would only seem to be missing
        raise Problems(_in_order(problems))
    root, merging = _merge(trees)
    problems += merging + put_given(root, given)
    book, refused = _validate(Book, root)
    problems += _without_repeats(refused, problems)
    if book is not None:
        problems += check_references(book)
    if book is None or problems:
        raise Problems(_in_order(problems))
    return book


def read_build(path: Path) -> Build:
    """Read a build from a file.

    Raises:
        Problems: everything that is wrong with it by itself; the book is not needed for this.
    """
    return build_from(read_bytes(path, str(path)), str(path))


def build_from(data: bytes, file: str) -> Build:
    """Read a build from bytes.

    Args:
        data: the YAML text in UTF-8.
        file: the name it has in problems.
    """
    return _model_from(Build, data, file, "Start with 'book: ' and the id of the book.")


def read_need(path: Path) -> Need:
    """Read a need from a file.

    Raises:
        Problems: everything that is wrong with it by itself; the book is not needed for this.
    """
    return need_from(read_bytes(path, str(path)), str(path))


def need_from(data: bytes, file: str) -> Need:
    """Read a need from bytes; otherwise like ``build_from``."""
    return _model_from(Need, data, file, "Start with 'book: ' and the id of the book.")


def read_site(path: Path) -> Site:
    """Read a site from a file.

    Raises:
        Problems: everything that is wrong with it.
    """
    data = read_bytes(path, str(path))
    return _model_from(Site, data, str(path), "Start with a line such as 'voltage: 230 V'.")


def site_from(given: Mapping[str, Texts]) -> Site:
    """Read a site from texts that no file holds, by the names of its fields.

    Raises:
        Problems: everything that is wrong with them.
    """
    site, refused = _validate(Site, _node(given))
    if site is None or refused:
        raise Problems(refused)
    return site


def _node(given: Texts, path: str = "") -> Node:
    if isinstance(given, str):
        return Scalar(given, None, path)
    return {
        Scalar(key, None, path): _node(value, f"{path}.{key}".lstrip("."))
        for key, value in given.items()
    }


def _model_from(model: type[ModelT], data: bytes, file: str, hint: str) -> ModelT:
    tree = read_tree(data, file)
    if not isinstance(tree.root, dict):
        message = f"A {model.__name__.lower()} holds keys with values."
        raise problem("not-a-mapping", message, Mark(file, 1, 1), hint)
    read, refused = _validate(model, tree.root)
    problems = [*tree.problems, *_without_repeats(refused, tree.problems)]
    if read is None or problems:
        raise Problems(_in_order(_placed(problems, file)))
    return read


def label_of(path: Path) -> str:
    """Name a file as a person would; a bundled one the same on every machine."""
    if path.is_relative_to(BUNDLED):
        return path.relative_to(BUNDLED.parent).as_posix()
    return str(path)


def _trees(files: Mapping[str, bytes]) -> tuple[list[Tree], list[Problem]]:
    trees: list[Tree] = []
    problems: list[Problem] = []
    for label, data in files.items():
        try:
            tree = read_tree(data, label)
        except Problems as found:
            problems += found.problems
            continue
        trees.append(tree)
        problems += tree.problems
        if not isinstance(tree.root, dict):
            problems.append(_no_sections(label))
    return trees, problems


def _merge(trees: Iterable[Tree]) -> tuple[dict[Scalar, Node], list[Problem]]:
    """Join the files of a book into one tree; what two files both hold is a problem."""
    root: dict[Scalar, Node] = {}
    problems: list[Problem] = []
    for tree in trees:
        if isinstance(tree.root, dict):
            for key, value in tree.root.items():
                problems += _add_section(root, key, value)
    if root and "book" not in root:
        hint = "Write 'book:' and below it id, name and what else the reference lists."
        problems.append(Problem("no-book", "No file here says 'book:'.", None, hint))
    return root, problems


def _no_sections(label: str) -> Problem:
    message = "A file of a book holds sections such as 'parts:'."
    return Problem("not-a-mapping", message, Mark(label, 1, 1), "Start with the name of a section.")


def _add_section(root: dict[Scalar, Node], key: Scalar, value: Node) -> list[Problem]:
    if key not in root:
        root[key] = value
        return []
    present = root[key]
    shared = is_mapping_of_ids(annotations_of(Book).get(key))
    if not (shared and isinstance(present, dict) and isinstance(value, dict)):
        return [_twice(next(known for known in root if known == key), key)]
    first = {known: known for known in present}
    problems = [_twice(first[inner], inner) for inner in value if inner in first]
    present.update({inner: node for inner, node in value.items() if inner not in first})
    return problems


def _twice(first: Scalar, second: Scalar) -> Problem:
    message = f"{shown(second)} is given twice, first at {first.mark}."
    return Problem("given-twice", message, second.mark, "Keep one of the two.")


def _validate(model: type[ModelT], root: Node) -> tuple[ModelT | None, list[Problem]]:
    try:
        return model.model_validate(root), []
    except ValidationError as error:
        return None, complaints(error, root, model)


def _without_repeats(new: Iterable[Problem], known: Iterable[Problem]) -> list[Problem]:
    """Leave out what only follows from a problem already found at the same place."""
    places = {(found.mark.file, found.mark.line) for found in known if found.mark}
    no_book = any(found.kind == "no-book" for found in known)
    return [
        found
        for found in new
        if (found.mark is None or (found.mark.file, found.mark.line) not in places)
        and not (no_book and found.mark is None)
    ]


def _placed(problems: Iterable[Problem], file: str) -> list[Problem]:
    return [
        found if found.mark else Problem(found.kind, found.message, Mark(file, 1, 1), found.hint)
        for found in problems
    ]


def _in_order(problems: Iterable[Problem]) -> list[Problem]:
    return sorted(dict.fromkeys(problems), key=lambda found: found.mark or Mark("", 0, 0))
