"""Spaces as files: JSON in the form of ``docs/spaces.md``, and formulas in clauses."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from baywright.files.cnf import space_of_clauses
from baywright.files.disk import read_bytes
from baywright.files.space_json import Content, content_of, json_of
from baywright.problems import Mark, problem
from baywright.space import Space, Sum

MOST_BYTES = 64_000_000

_CLAUSES = (".cnf", ".dimacs")


@dataclass(frozen=True)
class SpaceFile:
    """A space that was read from a file.

    Args:
        name: name of the file, as it was given.
        space: the space.
        budgets: positions in ``space.sums`` of the sums marked as budgets.
        note: what the file says about itself.
    """

    name: str
    space: Space
    budgets: tuple[int, ...] = ()
    note: str = ""

    @property
    def budget_sums(self) -> tuple[Sum, ...]:
        """The sums marked as budgets."""
        return tuple(self.space.sums[place] for place in self.budgets)

    def without_budgets(self) -> Space:
        """Return the space without the sums marked as budgets."""
        kept = (s for place, s in enumerate(self.space.sums) if place not in self.budgets)
        return Space(self.space.choices, self.space.tables, tuple(kept))


def read_space(path: Path) -> SpaceFile:
    """Read a space; a file that ends in .cnf or .dimacs holds clauses, any other one JSON.

    Raises:
        Problems: everything that is wrong, each with its path in the file or its line.
    """
    file = str(path)
    data = read_bytes(path, file, MOST_BYTES)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        hint = "Save it as UTF-8."
        raise problem("not-text", f"{file} is not text.", Mark(file, line, 1), hint) from None
    if path.suffix.casefold() in _CLAUSES:
        return SpaceFile(file, space_of_clauses(text, file))
    content = content_of(text, file)
    return SpaceFile(file, content.space, content.budgets, content.note)


def space_text(space: Space, budgets: tuple[int, ...] = (), note: str = "") -> str:
    """Return a space in its JSON form; reading it again gives an equal space.

    Args:
        space: the space.
        budgets: positions in ``space.sums`` of the sums to mark as budgets.
        note: what to say about it.
    """
    form = json_of(Content(space, budgets, note))
    return json.dumps(form, ensure_ascii=False, separators=(",", ":")) + "\n"


def write_space(space: Space, path: Path, budgets: tuple[int, ...] = (), note: str = "") -> None:
    """Write a space to a file, in the JSON form.

    Args:
        space: the space.
        path: the file; one that is there is replaced.
        budgets: positions in ``space.sums`` of the sums to mark as budgets.
        note: what to say about it.

    Raises:
        Problems: kind ``unwritable``.
    """
    try:
        path.write_text(space_text(space, budgets, note), encoding="utf-8")
    except OSError as error:
        hint = "Check the folder, the rights and the space left."
        raise problem("unwritable", f"{path} cannot be written.", None, hint) from error
