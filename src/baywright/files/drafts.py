"""Drafts of build files: written by the program, each line with what it stands on."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from baywright.files.folders import unwritable, write_files
from baywright.problems import problem


@dataclass(frozen=True, slots=True)
class DraftLine:
    """What a build has in one place, as a build file writes it.

    Args:
        place: id of the place.
        items: parts with their numbers, such as ``8 x dimm-64``; none for an empty place.
        cage: the cage of a zone, if it has one; ``items`` are its drives.
        controller: the slot whose controller drives the zone, if that is known.
        grounds: what it stands on, one sentence each.
    """

    place: str
    items: tuple[str, ...]
    cage: str = ""
    controller: str = ""
    grounds: tuple[str, ...] = ()

    @property
    def written(self) -> str:
        """The line as a build file has it, behind the id of the place."""
        if not self.cage:
            return _items(self.items) if self.items else "empty"
        fields = [f"cage: {self.cage}"]
        fields += [f"drives: {_items(self.items)}"] if self.items else []
        fields += [f"controller: {self.controller}"] if self.controller else []
        return f"{{{', '.join(fields)}}}"


def _items(items: tuple[str, ...]) -> str:
    return items[0] if len(items) == 1 else f"[{', '.join(items)}]"


def draft_text(
    book: str, name: str, lines: Iterable[DraftLine], open_places: Iterable[tuple[str, str]]
) -> str:
    """Return a build file.

    Args:
        book: id of the book.
        name: what the build is called; any text.
        lines: what is in each place.
        open_places: places that are left open, and why.
    """
    return "\n".join(_draft(book, name, lines, open_places)) + "\n"


def _draft(
    book: str, name: str, lines: Iterable[DraftLine], open_places: Iterable[tuple[str, str]]
) -> Iterator[str]:
    yield f"book: {book}"
    # Every JSON text is a YAML text in double quotes.
    yield f"name: {json.dumps(name, ensure_ascii=False)}"
    listed = list(lines)
    yield "places:" if listed else "places: {}"
    for line in listed:
        yield from (f"  # {ground}" for ground in line.grounds)
        yield f"  {line.place}: {line.written}"
    yield from (f"  # {place} is left open: {why}" for place, why in open_places)


def write_draft(path: Path, text: str | bytes) -> None:
    """Write a draft into a new file, whole or not at all.

    Raises:
        Problems: kinds ``not-empty`` when there is such a file, and ``unwritable``.
    """
    check_draft(path)
    write_files({path.name: text}, path.parent)


def check_draft(path: Path) -> None:
    """See whether a draft can be written, before any work is done for it.

    Raises:
        Problems: kinds ``not-empty`` and ``unwritable``.
    """
    if path.exists():
        raise problem("not-empty", f"{path} is there already.", None, "Name a new file.")
    if not path.parent.is_dir():
        raise unwritable(path, f"{path.parent} is not a folder")
