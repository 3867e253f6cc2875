"""The chapters of a guide: templates of the package, or those of a folder, in order of name."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from baywright.desk.guide.notation import Template
from baywright.files.disk import read_bytes
from baywright.problems import problem


def chapters(folder: Path | None = None) -> tuple[Template, ...]:
    """Return the templates, each file a chapter; a new chapter is a new file.

    Args:
        folder: a folder with ``.md`` files, or ``None`` for those of the package.

    Raises:
        Problems: kind ``no-templates`` when the folder has none, and for files that cannot be read.
    """
    if folder is None:
        return packaged("guide")
    found = sorted(folder.glob("*.md"))
    if not found:
        hint = "Copy those of the package and edit them: baywright guide --copy-templates DIR."
        raise problem("no-templates", f"{folder} has no templates.", None, hint)
    return tuple(Template(str(path), read_bytes(path, str(path)).decode()) for path in found)


def packaged(paper: str) -> tuple[Template, ...]:
    """Return the templates of the package for one sort of paper, in order of name."""
    root = files("baywright.papers").joinpath("templates", paper)
    names = sorted(each.name for each in root.iterdir() if each.name.endswith(".md"))
    return tuple(Template(name, root.joinpath(name).read_text("utf-8")) for name in names)
