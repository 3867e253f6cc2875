"""Long work in a process of its own, so that no page waits for it."""

from __future__ import annotations

import pickle
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import redirect_stdout
from dataclasses import dataclass
from typing import IO, TypeAlias, TypeVar, cast

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.problems import Problem, Problems, problem
from baywright.web.runs import Tell

AskedT = TypeVar("AskedT")
ResultT = TypeVar("ResultT")

Work: TypeAlias = Callable[[AskedT, Tell], ResultT]
"""A function of a module, which takes what is asked and tells how far it is."""

PROGRAM = "from baywright.web.worker import main; main()"


@dataclass(frozen=True, slots=True)
class _Said:
    words: str


@dataclass(frozen=True, slots=True)
class _Done:
    result: object


@dataclass(frozen=True, slots=True)
class _Failed:
    problems: tuple[Problem, ...]


_Message: TypeAlias = _Said | _Done | _Failed


def in_process(work: Work[AskedT, ResultT], asked: AskedT, tell: Tell) -> ResultT:
    """Return what some work on its own comes to.

    Args:
        work: the work.
        asked: what is asked; it is copied to the process, and the result back.
        tell: takes a word on how far it is.

    Raises:
        Problems: those that the work raised; kind ``broken-off`` when its process was ended.
    """
    command = [sys.executable, "-c", PROGRAM]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:  # noqa: S603 - our own program
        if process.stdin is None or process.stdout is None:
            raise RuntimeError("the process has no pipes")
        pickle.dump((work, asked), process.stdin)
        process.stdin.close()
        for message in _messages(process.stdout):
            match message:
                case _Said(words):
                    tell(words)
                case _Done(result):
                    return cast("ResultT", result)
                case _Failed(problems):
                    raise Problems(problems)
    raise problem("broken-off", "The work was broken off.", None, "Ask again.")


def _messages(pipe: IO[bytes]) -> Iterator[_Message]:
    """Yield what a process sends until it ends."""
    while True:
        try:
            message: _Message = pickle.load(pipe)  # noqa: S301 - our own process wrote it
        except (EOFError, pickle.UnpicklingError):
            return
        yield message


def main() -> None:
    """Do the work that stands on standard input, and write what comes of it; for the process."""
    work, asked = pickle.load(sys.stdin.buffer)  # noqa: S301 - the server wrote it
    out = sys.stdout.buffer

    def send(message: _Message) -> None:
        out.write(pickle.dumps(message))
        out.flush()

    with redirect_stdout(sys.stderr):  # What a library prints must not stand between messages.
        send(_come_of(work, asked, lambda words: send(_Said(words))))


def _come_of(work: Work[AskedT, ResultT], asked: AskedT, tell: Tell) -> _Message:
    """Return what the work comes to; what it raises for people is told as problems."""
    try:
        return _Done(work(asked, tell))
    except Problems as found:
        return _Failed(found.problems)
    except StoppedError as stopped:
        hint = "Ask for less at once, or ask again."
        return _Failed((Problem("stopped", f"Not decided: {stopped.tried}.", None, hint),))
    except RecheckError as failed:
        message = f"It is withheld: {failed.report}."
        return _Failed((Problem("recheck", message, None, "Report it."),))
