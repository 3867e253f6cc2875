"""Folders of output: files that are written whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

from baywright.problems import Problems, problem


def check_folder(folder: Path) -> None:
    """See whether a folder can be written or made, before any work is done for it.

    Raises:
        Problems: kind ``unwritable``.
    """
    above = next(each for each in (folder, *folder.absolute().parents) if each.exists())
    if not above.is_dir() or not os.access(above, os.W_OK):
        raise unwritable(folder, f"{above} is not a folder that can be written")


def unwritable(folder: Path, why: str) -> Problems:
    """Return the problem of a folder that cannot be written."""
    message = f"{folder} cannot be written: {why}."
    return problem("unwritable", message, None, "Give another folder.")


def write_files(files: Mapping[str, str | bytes], folder: Path) -> None:
    """Write files into a folder, each whole or not at all.

    Args:
        files: texts or bytes by path inside the folder.
        folder: the folder; made if it is not there.

    Raises:
        Problems: kind ``unwritable``.
    """
    for name, content in files.items():
        try:
            _write(folder / name, content)
        except OSError as error:
            raise unwritable(folder, error.strerror or type(error).__name__) from error


def _write(path: Path, content: str | bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    draft = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        draft.write_bytes(content.encode() if isinstance(content, str) else content)
        draft.replace(path)
    finally:
        draft.unlink(missing_ok=True)
