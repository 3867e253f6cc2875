"""A book as it was at a revision of the git repository it lies in."""

from __future__ import annotations

import io
import shutil
import subprocess
import tarfile
from pathlib import Path

from baywright.problems import problem

LONGEST = 30.0
"""Seconds that git may take."""


def write_revision(folder: Path, revision: str, target: Path) -> Path:
    """Write a book as it was at a revision.

    Args:
        folder: folder of the book, inside a git repository.
        revision: a commit, branch or tag, such as ``HEAD~3``.
        target: folder to write it to, which must not exist yet.

    Returns:
        The target.

    Raises:
        Problems: kinds ``no-git``, ``no-revision``.
    """
    if revision.startswith("-"):
        raise problem("no-revision", f"{revision!r} is not a revision.", None, "Name a commit.")
    top = Path(_git(folder, "rev-parse", "--show-toplevel").decode().strip())
    inside = _git(folder, "rev-parse", "--show-prefix").decode().strip()
    archive = _git(top, "archive", "--format=tar", f"{revision}:{inside}")
    with tarfile.open(fileobj=io.BytesIO(archive)) as held:
        held.extractall(target, filter="data")
    return target


def _git(folder: Path, *arguments: str) -> bytes:
    git = shutil.which("git")
    if git is None:
        raise problem("no-git", "There is no git on this machine.", None, "Name two folders.")
    command = [git, "-C", str(folder), *arguments]
    try:
        done = subprocess.run(command, capture_output=True, check=False, timeout=LONGEST)  # noqa: S603 - git itself, by its path, with one revision that is no option
    except subprocess.TimeoutExpired as late:
        message = f"git worked for {LONGEST:g} s."
        raise problem("no-revision", message, None, "Name two folders instead.") from late
    if done.returncode:
        said = done.stderr.decode(errors="replace").strip().splitlines()
        message = f"git does not give that revision of {folder}: {said[-1] if said else ''}"
        raise problem("no-revision", message, None, "Name a commit of the repository of the book.")
    return done.stdout
