"""Files of upgrades in tests: the college of the demo, and changes of what it owns and wants."""

from __future__ import annotations

import shutil
from pathlib import Path

from baywright.desk.request import Request
from baywright.desk.upgrade.upgrading import Upgrade, upgraded
from baywright.files.books import bundled_books

F1 = bundled_books()["f1"]
OWNED = F1 / "builds" / "n5-owned.yaml"
WANTED = F1 / "needs" / "n5.yaml"

HEAD = "book: f1\nname: test\nsite: {voltage: 230 V}\n"


def need(folder: Path, *must: str, more: str = "") -> Path:
    """Write a need with some conditions."""
    path = folder / "need.yaml"
    conditions = "".join(f"  - '{each}'\n" for each in must)
    path.write_text(f"{HEAD}{more}must:\n{conditions}", encoding="utf-8")
    return path


def changed(path: Path, folder: Path, *changes: tuple[str, str]) -> Path:
    """Copy a file with some texts replaced."""
    text = path.read_text(encoding="utf-8")
    for old, new in changes:
        if old not in text:
            raise ValueError(f"{path} has no {old!r}")
        text = text.replace(old, new, 1)
    copy = folder / path.name
    copy.write_text(text, encoding="utf-8")
    return copy


def changed_f1(folder: Path, file: str, *changes: tuple[str, str]) -> Path:
    """Copy the book of the F1 with some texts of one of its files replaced."""
    book = folder / "f1"
    shutil.copytree(F1, book)
    changed(F1 / file, book, *changes)
    return book


def upgrade_to(wanted: Path, owned: Path = OWNED, book: str | Path = "f1") -> Upgrade:
    """Upgrade the machine of a build file to a need file, as of the edition."""
    return upgraded(str(book), owned, wanted, Request())[1]
