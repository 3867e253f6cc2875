"""The book manual carried out: its files written, its commands run, in the order of the page."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from typer.testing import CliRunner

from baywright.cli import app

PAGE = Path(__file__).parents[2] / "docs" / "book-manual.md"

_BLOCK = re.compile(r"```(?P<kind>\w+)\n(?P<text>.*?)```", re.DOTALL)
_FILE = re.compile(r"# (?P<how>file|add to|change): (?P<name>\S+)\n")
_TIME = re.compile(r"[\d,.]+ m?s\.$", re.MULTILINE)


@dataclass(frozen=True)
class Shown:
    """A command of the page with the output below it.

    Args:
        command: what is typed.
        output: what the page shows.
        printed: what the program prints.
    """

    command: str
    output: str
    printed: str


def walked() -> Iterator[Shown]:
    """Carry out the page in the current folder; yield each command of the program."""
    for block in _BLOCK.finditer(PAGE.read_text(encoding="utf-8")):
        if block["kind"] in ("yaml", "diff"):
            _write(block["text"])
        elif block["kind"] == "console":
            for piece in re.split(r"^\$ ", block["text"], flags=re.MULTILINE)[1:]:
                command, _, output = piece.partition("\n")
                program, *arguments = shlex.split(command)
                if program == "cat":
                    Path(arguments[0]).write_text(output, encoding="utf-8")
                else:
                    assert program == "baywright", command
                    yield Shown(command, output, CliRunner().invoke(app, arguments).output)


def _write(text: str) -> None:
    """Write a file of the page, add to it, or change a line of it into the one below."""
    head = _FILE.match(text)
    assert head, text
    path, body = Path(head["name"]), text[head.end() :]
    if head["how"] == "change":
        old, new = body.splitlines()
        held = path.read_text(encoding="utf-8")
        assert held.count(old.removeprefix("- ")) == 1, old
        body = held.replace(old.removeprefix("- "), new.removeprefix("+ "))
    elif head["how"] == "add to":
        body = path.read_text(encoding="utf-8") + body
    path.parent.mkdir(exist_ok=True)
    path.write_text(body, encoding="utf-8")


def plain(text: str) -> list[str]:
    """Return the lines of an output without trailing space and without times."""
    return [line.rstrip() for line in _TIME.sub("0 ms.", text.strip()).splitlines()]
