"""Claims: what a sentence says, ready to be judged."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from baywright.language.stated import Stated
from baywright.language.things import Measure, written

Mode = Literal[
    "can", "always", "never", "most", "least", "fact", "date", "generation", "compare"
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Comparison:
    """How the most of something compares with that of another machine.

    Args:
        book: id of the book of the other machine.
        op: how it compares.
        factor: the number of times the other's that is meant.
        apart: by how many it is more or less, or ``None`` where that is not said.
    """

    book: str
    op: str
    factor: Fraction = Fraction(1)
    apart: Fraction | None = None

    @property
    def text(self) -> str:
        """The comparison as it is shown."""
        times = "" if self.factor == 1 else f"{self.factor} * "
        apart = "" if self.apart is None else f" by {self.apart}"
        return f"{self.op} {times}{self.book}{apart}"


@dataclass(frozen=True, slots=True)
class FactClaim:
    """What is claimed of something the book states.

    Args:
        name: the field, or what is counted.
        stated: what the book states of it.
        op: how it compares.
        values: the numbers; several are alternatives that all have to be there.
        unit: their unit, or empty.
        word: a word that is claimed instead of a number, such as ``C14``.
        whose: whose it is, in words.
        every: whether nothing less than all of it is claimed.
        some: whether it is enough that something stated is so.
        found: what a look at the facts found, where no number or word is compared.
    """

    name: str
    stated: tuple[Stated, ...]
    op: str = "=="
    values: tuple[Fraction, ...] = ()
    unit: str = ""
    word: str = ""
    whose: str = ""
    some: bool = False
    every: bool = False
    found: Literal["", "true", "false", "only-if", "unit"] = ""

    @property
    def text(self) -> str:
        """The claim as it is shown."""
        op = {"up": "==", "": "=="}.get(self.op, self.op)
        wanted = [f'"{self.word}"'] if self.word else [written(v, self.unit) for v in self.values]
        paths = sorted({each.path.partition(" ")[0] for each in self.stated})
        where = paths[0] if len(paths) == 1 else f"{self.name} of {len(paths)}"
        name = self.name if self.stated and "(" in self.stated[0].path else where
        return f"{name} {op} {' or '.join(wanted)}"


@dataclass(frozen=True, slots=True)
class Claim:
    """One claim about a machine.

    Args:
        mode: some build has it, every build has it, none has it, it is the most or the least, or
            it is a fact of the book.
        terms: what builds have, as expressions; all of them together.
        given: conditions, as expressions.
        number: for the most and the least, the expression of the number.
        value: the number that is claimed.
        unit: its unit.
        measures: what was counted, for the sentence that would be true.
        facts: claims of facts.
        altitude: altitude of the site, with its unit.
        inlet: inlet temperature, with its unit.
        open_scope: whether a total of ports names no scope though there are several.
        absent: whether something is claimed that the book does not have at all.
        needs: whether what is claimed is said to be needed, so that it must not hold anyway.
        unsure: whether it may mean every build as well, so that some build does not make it true.
        bare: whether it stands without a verb, so that it has to be possible before all else.
        day: a date that is claimed.
        month_only: whether only the month is claimed.
        event: what is claimed to be on that day: ships, announced or last_order.
        subject: the part whose day it is, or empty for the machine.
        comparison: how a most compares with that of another machine.
    """

    mode: Mode
    terms: tuple[str, ...] = ()
    given: tuple[str, ...] = ()
    number: str = ""
    value: Fraction = Fraction(0)
    unit: str = ""
    measures: tuple[Measure, ...] = ()
    facts: tuple[FactClaim, ...] = ()
    altitude: str = ""
    inlet: str = ""
    open_scope: bool = False
    absent: bool = False
    bare: bool = False
    needs: bool = False
    unsure: bool = False
    day: datetime.date | None = None
    month_only: bool = False
    event: str = ""
    subject: str = ""
    comparison: Comparison | None = None

    @property
    def text(self) -> str:
        """The claim as an expression of the book, or as the fact it speaks of."""
        site = "".join(f" at {each}" for each in (self.altitude, self.inlet) if each)
        return f"{self._bare}{site}"

    @property
    def _bare(self) -> str:
        if self.mode in ("fact", "generation"):
            held = " and ".join(fact.text for fact in self.facts)
            return f"{held}, given {_all(self.given)}" if self.given else held
        if self.mode == "date":
            day = self.day.isoformat() if self.day else "now"
            return f"{self.subject or 'book'}.{self.event} == {day}"
        if self.comparison is not None:
            return f"most({self.number}) {self.comparison.text}"
        if self.mode in ("most", "least"):
            given = f", given={_all(self.given)}" if self.given else ""
            return f"{self.mode}({self.number}{given}) == {written(self.value, self.unit)}"
        if self.mode == "always":
            claim, given = _all(self.terms), _all(self.given)
            return f"always(implies({given}, {claim}))" if self.given else f"always({claim})"
        word = "can" if self.mode == "can" else "not can"
        return f"{word}({_all((*self.terms, *self.given))})"


def _all(terms: tuple[str, ...]) -> str:
    """Return expressions joined so that all hold, each in brackets where it needs them."""
    if len(terms) == 1:
        return terms[0]
    return " and ".join(f"({term})" if " or " in term or "not " in term else term for term in terms)
