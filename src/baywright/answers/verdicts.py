"""Verdicts: every outcome a question can have, as data. Wording comes afterwards."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from baywright.facts.citation import Citation
from baywright.laws.builds import Line
from baywright.space import Kind


@dataclass(frozen=True, slots=True)
class Figure:
    """A number of a build.

    Args:
        name: name of the number in expressions.
        words: how it is said.
        value: the number, in the canonical unit of its dimension.
        dimension: its dimension, or empty for a plain number.
    """

    name: str
    words: str
    value: Fraction
    dimension: str = ""


@dataclass(frozen=True, slots=True)
class Witness:
    """A complete legal build, re-checked by the plain evaluator.

    Args:
        values: value index by name of the choice.
        lines: what is in each place.
        parts: how many of each part.
        figures: numbers that people ask about.
    """

    values: Mapping[str, int]
    lines: tuple[Line, ...]
    parts: Mapping[str, int]
    figures: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Tally:
    """What a bounded total comes to: never less than this while the other reasons hold.

    Args:
        used: what is used.
        given: what may be used.
        dimension: dimension of both, or empty for plain numbers.
        shares: what each place or the base uses, largest first.
    """

    used: Fraction
    given: Fraction
    dimension: str
    shares: tuple[tuple[str, Fraction], ...] = ()


@dataclass(frozen=True, slots=True)
class Reason:
    """A law, a rule or a wish of a minimal set that cannot hold together.

    Args:
        key: its identity.
        kind: law, rule or wish.
        sentence: what it says.
        facts: the facts it stands on.
        tally: the numbers, where it bounds a total.
        without: a build that exists once this reason alone is given up: proof that it is needed.
    """

    key: str
    kind: Kind
    sentence: str
    facts: tuple[Citation, ...]
    tally: Tally | None
    without: Witness


More = Literal["none", "some", "unknown"]
"""Whether there are more sets of reasons: proven that none is left, or found, or not known."""


@dataclass(frozen=True, slots=True)
class OtherReasons:
    """Further minimal sets of reasons, each without a member of every other set.

    Args:
        sets: the sets, smallest first.
        more: whether there are more.
    """

    sets: tuple[tuple[Reason, ...], ...]
    more: More


@dataclass(frozen=True, slots=True)
class Change:
    """One change of the wish.

    Args:
        what: what changes.
        asked: what was asked.
        instead: what would be possible.
    """

    what: str
    asked: str
    instead: str


@dataclass(frozen=True, slots=True)
class Nearest:
    """A build that a few changes of the wish make possible."""

    changes: tuple[Change, ...]
    witness: Witness


@dataclass(frozen=True, slots=True)
class Proof:
    """How an answer was found and checked.

    Args:
        answered_by: the engine that answered.
        rechecked_by: what checked it again.
        milliseconds: time from the question to the checked answer.
    """

    answered_by: str
    rechecked_by: str
    milliseconds: float = 0.0


@dataclass(frozen=True, slots=True)
class Yes:
    """It is so. Either a build shows it, or no build can be otherwise and the reasons say why.

    Args:
        witness: a build that has it.
        proof: how it was found and checked.
        always: why no build can be without it, when that was the question.
        supposed: values of unknown facts that the build shown hangs on, though the answer does
            not: with other values another build has it.
        others: further sets of reasons, where they were asked for.
    """

    witness: Witness
    proof: Proof
    always: tuple[Reason, ...] = ()
    supposed: tuple[str, ...] = ()
    others: OtherReasons | None = None


@dataclass(frozen=True, slots=True)
class No:
    """It is not so.

    Args:
        reasons: a minimal set that cannot hold together; empty when ``counterexample`` shows it.
        nearest: the fewest, lightest changes of the wish that make it possible.
        proof: how it was found and checked.
        counterexample: a legal build without it, when every build was claimed to have it.
        structure: why the book's places allow no more, when the wishes alone are the reasons.
        others: further sets of reasons, where they were asked for.
    """

    reasons: tuple[Reason, ...]
    nearest: tuple[Nearest, ...]
    proof: Proof
    counterexample: Witness | None = None
    structure: tuple[Citation, ...] = ()
    others: OtherReasons | None = None


@dataclass(frozen=True, slots=True)
class Then:
    """The most or the least of a further number, among the builds that are best so far.

    Args:
        most: true for the most, false for the least.
        figure: the number and its value.
        rechecked_by: the engine that proved again that none of those builds goes beyond it, or
            the evaluator where that engine came to no end and the build alone was checked.
    """

    most: bool
    figure: Figure
    rechecked_by: str


@dataclass(frozen=True, slots=True)
class Bound:
    """The most or the least of a number over all builds.

    Args:
        most: true for the most, false for the least.
        figure: the number and its value.
        witness: a build that reaches it.
        reasons: why no build goes a whole unit beyond; empty when none were found in time.
        proof: how it was found and checked.
        structure: why the book's places allow no more, when nothing else is a reason.
        others: further sets of reasons, where they were asked for.
        then: what came next among the builds with that figure, in the order asked.
    """

    most: bool
    figure: Figure
    witness: Witness
    reasons: tuple[Reason, ...]
    proof: Proof
    structure: tuple[Citation, ...] = ()
    others: OtherReasons | None = None
    then: tuple[Then, ...] = ()


@dataclass(frozen=True, slots=True)
class Count:
    """How many there are, and which.

    Args:
        over: what tells them apart, as asked.
        rows: every combination that some legal build has, in the order of the book.
        proof: how it was found and checked.
    """

    over: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    proof: Proof

    @property
    def number(self) -> int:
        """How many there are."""
        return len(self.rows)


@dataclass(frozen=True, slots=True)
class Together:
    """Several wishes that do not all hold together.

    Args:
        asked: the wishes.
        reasons: a minimal set that cannot hold together.
        largest: the largest sets of wishes that do, by position in ``asked``, each with a build.
        proof: how it was found and checked.
        others: further sets of reasons, where they were asked for.
    """

    asked: tuple[str, ...]
    reasons: tuple[Reason, ...]
    largest: tuple[tuple[tuple[int, ...], Witness], ...]
    proof: Proof
    others: OtherReasons | None = None


@dataclass(frozen=True, slots=True)
class Undecided:
    """Not decided: it depends on facts nobody has stated yet.

    Args:
        facts: the unknown facts that decide.
        outcomes: for each way they could be, the facts' values and the verdict.
    """

    facts: tuple[Citation, ...]
    outcomes: tuple[tuple[tuple[str, ...], Verdict], ...]


@dataclass(frozen=True, slots=True)
class Stopped:
    """Stopped by a limit before it was decided. It never reads as no.

    Args:
        tried: what was tried, one sentence.
        best: the best found so far, if any.
        bound: what no build can pass, if known.
    """

    tried: str
    best: Figure | None = None
    bound: Figure | None = None


Verdict: TypeAlias = Yes | No | Bound | Count | Together | Undecided | Stopped
