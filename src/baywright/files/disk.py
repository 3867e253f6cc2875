"""Getting bytes from disk without trusting what is there."""

from __future__ import annotations

import stat
from pathlib import Path

from baywright.problems import Problem, Problems, problem

MOST_BYTES_OF_A_FILE = 2_000_000
MOST_BYTES_OF_A_BOOK = 8_000_000
MOST_FILES_OF_A_BOOK = 200

_ENDINGS = (".yaml", ".yml")


def is_folder(path: Path) -> bool:
    """Say whether a path is a folder; odd names and forbidden places are not."""
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False


def is_file(path: Path) -> bool:
    """Say whether a path is an ordinary file; odd names and forbidden places are not."""
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def read_bytes(path: Path, label: str, most: int = MOST_BYTES_OF_A_FILE) -> bytes:
    """Read a file, its size checked before anything is read.

    Args:
        path: the file.
        label: its name in problems.
        most: the largest size, in bytes.

    Raises:
        Problems: kinds ``unreadable``, ``not-a-file`` and ``too-large``.
    """
    try:
        found = path.stat()
        if not stat.S_ISREG(found.st_mode):
            raise problem("not-a-file", f"{label} is not a file.", None, "Give the path of a file.")
        if found.st_size > most:
            raise _too_large(label, most)
        with path.open("rb") as stream:
            data = stream.read(most + 1)
    except (OSError, ValueError) as error:
        raise problem("unreadable", f"{label} cannot be read.", None, _what_to_do(error)) from error
    if len(data) > most:
        raise _too_large(label, most)
    return data


def book_files(folder: Path) -> list[Path]:
    """Return the files of a book in order of name: hidden files and folders are left out.

    Raises:
        Problems: kinds ``no-book``, ``unreadable``, ``not-a-file`` and ``too-large``.
    """
    if not is_folder(folder):
        hint = "Give the folder of a book."
        raise problem("no-book", f"There is no folder {folder}.", None, hint)
    try:
        found = sorted(path for path in folder.iterdir() if _belongs(path.name))
        sizes = [path.stat().st_size for path in found if path.is_file()]
    except OSError as error:
        hint = _what_to_do(error)
        raise problem("unreadable", f"{folder} cannot be read.", None, hint) from error
    _check_amount(folder, found, sum(sizes))
    return found


def _belongs(name: str) -> bool:
    return name.endswith(_ENDINGS) and not name.startswith(".")


def _check_amount(folder: Path, found: list[Path], size: int) -> None:
    problems = [
        Problem("not-a-file", f"{path} is a folder with the name of a file.", None, "Rename it.")
        for path in found
        if path.is_dir()
    ]
    if not found:
        hint = "A book is a folder of files that end in .yaml."
        problems.append(Problem("no-book", f"{folder} has no YAML file.", None, hint))
    if len(found) > MOST_FILES_OF_A_BOOK:
        message = f"{folder} has {len(found):,} files; a book has at most {MOST_FILES_OF_A_BOOK}."
        problems.append(Problem("too-large", message, None, "Join files."))
    if size > MOST_BYTES_OF_A_BOOK:
        message = f"The files of {folder} have more than {MOST_BYTES_OF_A_BOOK:,} bytes together."
        problems.append(Problem("too-large", message, None, "Take out what is not of the book."))
    if problems:
        raise Problems(problems)


def _too_large(label: str, most: int) -> Problems:
    hint = "Spread a large book over several files." if most == MOST_BYTES_OF_A_FILE else ""
    return problem("too-large", f"{label} has more than {most:,} bytes.", None, hint)


def _what_to_do(error: OSError | ValueError) -> str:
    if isinstance(error, PermissionError):
        return "Ask for the right to read it."
    if isinstance(error, FileNotFoundError):
        return "There is no such file."
    return "Check its name, and that the disk is there."
