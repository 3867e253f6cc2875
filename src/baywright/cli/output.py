"""Where output goes: answers to standard output, problems and progress to standard error."""

from __future__ import annotations

import json
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager

from rich.console import Console, RenderableType
from rich.text import Text

from baywright.problems import Problem

PATIENCE = 1.0
"""Seconds before progress is shown."""


class Plain(Console):
    """A console that takes every text as it stands and leaves a closed pipe to its caller."""

    def on_broken_pipe(self) -> None:
        """Hand a closed pipe on; the base class would end the process with an error."""
        raise BrokenPipeError


def console(*, errors: bool = False) -> Console:
    """Return a console on standard output, or on standard error."""
    stream = sys.stderr if errors else sys.stdout
    return Plain(file=stream, highlight=False, markup=False, emoji=False)


def show(parts: Iterable[RenderableType]) -> None:
    """Print parts one after the other."""
    out = console()
    for part in parts:
        out.print(part)


def show_json(value: object) -> None:
    """Print a JSON value."""
    sys.stdout.write(json.dumps(value, indent=2, ensure_ascii=False) + "\n")


def show_problems(problems: Iterable[Problem], *, as_json: bool) -> None:
    """Print problems, one a line; as JSON on standard output, where JSON is expected."""
    found = list(problems)
    if as_json:
        show_json({"problems": [problem.as_json() for problem in found]})
        return
    err = console(errors=True)
    for problem in found:
        err.print(Text(str(problem)), soft_wrap=True)


@contextmanager
def progress(doing: str, *, as_json: bool) -> Iterator[Callable[[str], None]]:
    """Show what is being done once it takes longer than a moment, on a terminal only.

    Args:
        doing: what is being done.
        as_json: whether the output is for a program, which needs no progress.

    Yields:
        A function that takes what is done next.
    """
    err = console(errors=True)
    if as_json or not err.is_terminal or err.is_dumb_terminal:
        yield lambda _: None
        return
    status = err.status(Text(doing), spinner="line")
    timer = threading.Timer(PATIENCE, status.start)
    timer.daemon = True
    timer.start()
    try:
        yield lambda step: status.update(Text(f"{doing}: {step}"))
    finally:
        timer.cancel()
        timer.join()
        status.stop()
