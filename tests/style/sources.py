"""Our own files, read once for the tests of style."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
CODE_FOLDERS = ("src", "tests", "benchmarks")
TEXT_FOLDERS = (*CODE_FOLDERS, "docs", ".ci")
TEXT_ENDINGS = frozenset(
    {".py", ".md", ".yaml", ".toml", ".json", ".j2", ".html", ".css", ".txt", ".typ", ""}
)

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True, slots=True)
class Source:
    """One Python file of ours.

    Args:
        path: path from the root of the repository, with forward slashes.
        text: what is in it.
        tree: the same, parsed.
    """

    path: str
    text: str
    tree: ast.Module

    @property
    def lines(self) -> int:
        """Number of lines."""
        return len(self.text.splitlines())

    def functions(self) -> Iterator[Function]:
        """Yield every function and method, nested ones too."""
        return (node for node in ast.walk(self.tree) if isinstance(node, Function))


@cache
def sources() -> tuple[Source, ...]:
    """Return every Python file of ours, in order of path."""
    found = sorted(path for folder in CODE_FOLDERS for path in (ROOT / folder).rglob("*.py"))
    return tuple(_read(path) for path in found)


def texts() -> Iterator[tuple[str, str]]:
    """Yield path and content of every text file of ours."""
    found = [path for path in ROOT.iterdir() if path.suffix in {".md", ".toml", ".yaml"}]
    found.append(ROOT / "Makefile")
    for folder in TEXT_FOLDERS:
        found += [p for p in (ROOT / folder).rglob("*") if p.suffix in TEXT_ENDINGS]
    for path in sorted(found):
        if path.is_file():
            yield _relative(path), path.read_text(encoding="utf-8")


def body_lines(function: Function) -> int:
    """Return how many lines the statements of a function take, its docstring left out."""
    statements = function.body
    if ast.get_docstring(function) is not None:
        statements = statements[1:]
    if not statements:
        return 0
    last = statements[-1]
    return (last.end_lineno or last.lineno) - statements[0].lineno + 1


def _read(path: Path) -> Source:
    text = path.read_text(encoding="utf-8")
    return Source(_relative(path), text, ast.parse(text, filename=str(path)))


def _relative(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()
