"""The example of the documentation, taken out of it."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from baywright.facts.build import Build
from baywright.files.books import build_from

PAGE = Path(__file__).parents[2] / "docs" / "book-format.md"
_BLOCK = re.compile(r"^```yaml\n# file: (\S+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@cache
def example() -> dict[str, str]:
    """Return the text of each file of the example by its path; pieces of one file are joined."""
    files: dict[str, str] = {}
    for name, text in _BLOCK.findall(PAGE.read_text(encoding="utf-8")):
        files[name] = files.get(name, "") + text
    return files


def example_book() -> dict[str, bytes]:
    """Return the files of the example book, without its builds."""
    return {
        name: text.encode() for name, text in example().items() if not name.startswith("t1/builds/")
    }


def write_example(folder: Path) -> Path:
    """Write the example below a folder and return the folder of its book."""
    for name, text in example().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder / "t1"


def changed_example(name: str, old: str, new: str) -> dict[str, bytes]:
    """Return the files of the example book with one text in one of them replaced once."""
    text = example()[name]
    if old not in text:
        raise ValueError(f"the example has no {old!r} in {name}")
    return {**example_book(), name: text.replace(old, new, 1).encode()}


def changed_build(old: str, new: str) -> Build:
    """Return the build of the example with one text replaced once."""
    name = "t1/builds/first.yaml"
    return build_from(example()[name].replace(old, new, 1).encode(), name)
