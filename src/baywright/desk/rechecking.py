"""Checking every build of a verdict once more, apart from the engines that found it."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.answers.inquiry import RecheckError
from baywright.answers.verdicts import Bound, No, Together, Verdict, Witness, Yes
from baywright.laws.machine import Machine
from baywright.space import broken


def recheck(machine: Machine, verdict: Verdict) -> int:
    """Check the builds that a verdict calls legal, and return how many there were.

    Args:
        machine: what was asked.
        verdict: the verdict; one that depends on unknown facts is not of this machine alone.

    Raises:
        RecheckError: when a build breaks a law.
    """
    number = 0
    for witness in legal_builds(verdict):
        failed = broken(machine.space, witness.values)
        if failed:
            keys = ", ".join(sorted({law.origin.key for law in failed}))
            raise RecheckError(f"a build that was called legal breaks {keys}")
        number += 1
    return number


def legal_builds(verdict: Verdict) -> Iterator[Witness]:
    """Yield every build that a verdict calls legal."""
    match verdict:
        case Yes() | Bound():
            yield verdict.witness
        case No():
            if verdict.counterexample is not None:
                yield verdict.counterexample
            yield from (nearest.witness for nearest in verdict.nearest)
        case Together():
            yield from (witness for _, witness in verdict.largest)
        case _:
            return
