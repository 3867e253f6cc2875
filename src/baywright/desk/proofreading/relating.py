"""The most of something in two machines, for sentences that compare them."""

from __future__ import annotations

from fractions import Fraction

from baywright.desk.opening import open_book
from baywright.desk.proofreading.proving import NotSayable, Prover
from baywright.language.claims import Comparison


def holds(prover: Prover, number: str, wanted: Comparison) -> bool:
    """Say whether the most of something compares with that of another machine as is said.

    Args:
        prover: proves what builds of the machine can have.
        number: the expression of what is counted.
        wanted: the other machine, and how it is said to compare.

    Raises:
        NotSayable: when one of the two has no such most.
        StoppedError: at a limit.
    """
    opened = prover.opened
    other = Prover(open_book(opened.folder.parent / wanted.book, opened.setting, opened.panel))
    mine, theirs = _most(prover, number), _most(other, number) * wanted.factor
    if wanted.apart is not None:
        return mine - theirs == (wanted.apart if wanted.op == ">" else -wanted.apart)
    return {
        ">": mine > theirs, "<": mine < theirs, "==": mine == theirs,
        ">=": mine >= theirs, "<=": mine <= theirs,
    }[wanted.op]  # fmt: skip


def _most(prover: Prover, number: str) -> Fraction:
    """Return the most there is, proven: some build has it, and none has more."""
    value = prover.extreme("most", number, ())
    if value is None:
        message = f"There is no most of {number}."
        raise NotSayable(message)
    if value.denominator != 1 or not prover.possible((f"{number} >= {value}",)):
        message = f"The most of {number} is not proven."
        raise NotSayable(message)
    if prover.possible((f"{number} > {value}",)):
        message = f"The most of {number} is not proven."
        raise NotSayable(message)
    return value
