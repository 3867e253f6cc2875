"""Performing a command: its work, and the exit code whatever ends it."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import NoReturn

import typer

STOPPED_BY_HAND = 130
"""Exit code after Ctrl-C, as shells give it."""


def perform(work: Callable[[], int]) -> NoReturn:
    """Do the work and end with its exit code."""
    try:
        code = work()
        sys.stdout.flush()
    except KeyboardInterrupt:
        typer.echo("Stopped by Ctrl-C; nothing was left half written.", err=True)
        code = STOPPED_BY_HAND
    except BrokenPipeError:
        # Whoever read the output has seen enough; what is still buffered goes nowhere.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = 0
    raise typer.Exit(code)
