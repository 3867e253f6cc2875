"""Exit codes, and what becomes of everything that can go wrong in a command."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import ParamSpec

from rich.text import Text

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.answers.verdicts import Stopped, Verdict
from baywright.cli.output import console, show_json, show_problems
from baywright.problems import Problems

ANSWERED, BAD_INPUT, STOPPED, NOT_PROVEN = 0, 2, 3, 4
"""Exit codes: answered, whatever the answer; bad input; stopped; a re-check that failed."""

P = ParamSpec("P")


def guarded(work: Callable[P, int]) -> Callable[P, int]:
    """Turn what can go wrong into a message and an exit code."""

    @functools.wraps(work)
    def run(*args: P.args, **kwargs: P.kwargs) -> int:
        as_json = bool(kwargs.get("as_json"))
        try:
            return work(*args, **kwargs)
        except Problems as found:
            show_problems(found.problems, as_json=as_json)
            return BAD_INPUT
        except StoppedError as stopped:
            _say("stopped", f"Stopped before it was decided: {stopped.tried}.", as_json=as_json)
            return STOPPED
        except RecheckError as failed:
            _say("recheck", f"The answer is withheld: {failed.report}.", as_json=as_json)
            return NOT_PROVEN

    return run


def _say(kind: str, sentence: str, *, as_json: bool) -> None:
    if as_json:
        show_json({kind: sentence})
    else:
        console(errors=True).print(Text(sentence))


def code_of(verdict: Verdict) -> int:
    """Return the exit code of a verdict."""
    return STOPPED if isinstance(verdict, Stopped) else ANSWERED
