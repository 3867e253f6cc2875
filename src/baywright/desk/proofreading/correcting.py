"""The sentence that would be true in place of one that is not."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.inquiry import StoppedError
from baywright.desk.proofreading.judging import Finding, Judge
from baywright.desk.proofreading.proving import NotSayable, Prover
from baywright.facts.fact import Fact
from baywright.language.claims import Claim
from baywright.language.saying import (
    as_condition,
    as_most,
    condition_said,
    counted,
    fact_said,
    not_mixed,
)
from baywright.language.things import Measure, Thing
from baywright.laws.wording import capitalised, listed
from baywright.units import Quantity, parse
from baywright.units.dimensions import Unit
from baywright.units.lookup import dimension_named, dimension_of


@dataclass(frozen=True)
class Corrector:
    """Proposes sentences; whoever asks judges them before they are shown.

    Args:
        prover: proves what builds can have.
    """

    prover: Prover

    def proposals(self, finding: Finding, text: str) -> Iterator[str]:
        """Yield sentences that may be true instead, the nearest first.

        Args:
            finding: what was found.
            text: the sentence.
        """
        claim, book = finding.claim, self.prover.opened.book
        if claim.altitude or claim.inlet:
            return
        if finding.kind == "unit":
            yield from _other_units(claim, text)
        if claim.facts:
            yield from (fact_said(book, fact) for fact in claim.facts)
        elif finding.kind == "not-yet":
            yield from self._ships(claim)
        elif finding.kind == "only-if":
            if finding.under:
                yield as_condition(book, claim, finding.under)
                yield self._with_condition(claim, finding.under)
            yield from self._split(claim)
        elif claim.open_scope:
            yield from self._by_side(claim)
        elif finding.kind == "not-together":
            yield from self._beside(claim)
        elif claim.mode in ("can", "always", "most", "least", "never"):
            yield from self._bounds(claim)

    def _split(self, claim: Claim) -> Iterator[str]:
        """Say the first of several things under the condition that it alone needs."""
        book = self.prover.opened.book
        for term, measure in zip(claim.terms, claim.measures, strict=False):
            single = Claim("always", (term,), claim.given, measures=(measure,))
            found = Judge(self.prover).judge(single)
            if found.kind == "only-if" and found.under:
                yield as_condition(book, single, found.under)

    def _needed(self, claim: Claim) -> Iterator[str]:
        """Say how many of the parts that were too few are needed."""
        words = self.prover.opened.machine.vocabulary.kinds
        for given in claim.given:
            match = re.fullmatch(r"count\((\w+)\) == \d+", given)
            if match is None or match[1] not in words or len(claim.measures) != 1:
                continue
            entry, measure = words[match[1]].words, claim.measures[0]
            thing = Thing("parts", match[1], entry.one, entry.many) if entry else measure.thing
            others = tuple(each for each in claim.given if each != given)
            least = self._extreme("least", Measure(thing), (*claim.terms, *others))
            if least is not None and measure.values:
                held = counted(measure.thing, measure.values[0], measure.unit)
                yield f"{held} need at least {counted(thing, least)}."

    def _ships(self, claim: Claim) -> Iterator[str]:
        parts = self.prover.opened.book.parts
        for measure in claim.measures:
            part = parts.get(measure.thing.part)
            if part is not None and isinstance(part.ships, Fact):
                yield f"The {part.name} ships from {part.ships.text}."
        day = self.prover.latest()
        if day is not None:
            yield from (
                f"The {part.name} ships from {day.isoformat()}."
                for part in parts.values()
                if isinstance(part.ships, Fact) and part.ships.known == day
            )

    def _with_condition(self, claim: Claim, under: tuple[str, ...]) -> str:
        """Return what is so of some builds, where its condition has no words of its own."""
        if len(claim.measures) != 1 or not claim.measures[0].values:
            return ""
        measure = claim.measures[0]
        return as_most(self.prover.opened.book, measure, measure.values[0], (*claim.given, *under))

    def _by_side(self, claim: Claim) -> Iterator[str]:
        measure = claim.measures[0] if claim.measures else None
        if measure is None:
            return
        thing, sides = measure.thing, ("front", "rear", "inside")
        for value in measure.values:
            for several in (*itertools.combinations(sides, 2), sides):
                held = f"{counted(thing, value)} are possible"
                yield f"{capitalised(listed(several))} together, {held}."
        for side in ("rear", "front", "inside"):
            for number in range(1, 9):
                yield f"There are {number} {thing.many} at the {side}."

    def _beside(self, claim: Claim) -> Iterator[str]:
        """Say the most of the first maximum beside the others."""
        yield from self._at_speed(claim)
        if len(claim.measures) != len(claim.terms):
            return
        for at, measure in enumerate(claim.measures):
            rest = [t for i, t in enumerate(claim.terms) if i != at]
            others = [m for i, m in enumerate(claim.measures) if i != at]
            most = self._extreme("most", measure, (*rest, *claim.given))
            if most is None or not all(m.values for m in others):
                continue
            said = " and ".join(counted(m.thing, m.values[0], m.unit) for m in others)
            name = self.prover.opened.book.book.name
            held = counted(measure.thing, most, measure.unit)
            yield f"With {said} the {name} takes up to {held}."

    def _at_speed(self, claim: Claim) -> Iterator[str]:
        """Say how much memory there can be at a speed, and at which speed an amount runs."""
        amount, speed = (_amount(claim, name) for name in ("memory", "memory_speed"))
        book = self.prover.opened.book
        if amount is None or speed is None or book.memory is None:
            return
        for other in dict.fromkeys(each.speed.known for each in book.memory.speeds):
            yield f"{amount} runs at {other}."
        memory = Thing("number", "memory", "memory", "memory", dimension="memory")
        given = (f"memory_speed == {speed}", *claim.given)
        most = self._extreme("most", Measure(memory, unit=amount.unit), given)
        if most:
            held = counted(memory, most, amount.unit)
            yield f"At {speed} the {book.book.name} takes up to {held}."

    def _bounds(self, claim: Claim) -> Iterator[str]:
        book = self.prover.opened.book
        if claim.mode in ("can", "never") and " or (count(" in "".join(claim.terms):
            yield from self._alike(claim)
        yield from self._needed(claim)
        for measure in claim.measures[:1] if len(claim.measures) == 1 else ():
            most = self._extreme("most", measure, claim.given)
            if most is None:
                continue
            least = self._extreme("least", measure, claim.given)
            if least == most:
                yield self._always(measure, most, claim)
            if claim.mode == "least" and least is not None:
                held = counted(measure.thing, least, measure.unit)
                yield f"Every build has at least {held}."
            yield as_most(book, measure, most, claim.given)

    def _alike(self, claim: Claim) -> Iterator[str]:
        book = self.prover.opened.book
        names = [piece for term in claim.terms for piece in term.split('"')[1::2]]
        kinds = dict.fromkeys(book.parts[name].kind for name in names if name in book.parts)
        words = self.prover.opened.machine.vocabulary.kinds
        for kind in kinds:
            entry = words[kind].words
            if entry is not None:
                yield not_mixed(entry.many)

    def _always(self, measure: Measure, value: Fraction, claim: Claim) -> str:
        book = self.prover.opened.book
        said = [condition_said(book, each) for each in claim.given]
        if not all(said):
            return ""
        held = counted(measure.thing, value, measure.unit)
        return capitalised(" ".join([*said, f"the {book.book.name} has {held}."]))

    def _extreme(self, side: str, measure: Measure, given: tuple[str, ...]) -> Fraction | None:
        """Return the most or the least of something, in the unit of the measure."""
        expression = measure.thing.expression
        if not expression:
            return None
        try:
            value = self.prover.extreme(side, expression, given)
        except (NotSayable, StoppedError):
            return None
        dimension = measure.thing.dimension
        return _in_unit(value, dimension, measure.unit) if value is not None else None


def _amount(claim: Claim, name: str) -> Quantity | None:
    """Return the amount that a claim says a number of the build is."""
    start = f"{name} == "
    said = (term.removeprefix(start) for term in claim.terms if term.startswith(start))
    return next((parse(each) for each in said), None)


def _other_units(claim: Claim, text: str) -> Iterator[str]:
    """Yield the sentence with the unit of what is stated, or with other units of that kind."""
    wanted = [
        *((fact.unit, fact.values) for fact in claim.facts),
        *((measure.unit, measure.values) for measure in claim.measures),
    ]
    known = [s.value.unit for f in claim.facts for s in f.stated if isinstance(s.value, Quantity)]
    for unit, values in wanted:
        spelled = [*known, *(u.spelling for u in _kin(unit))]
        for other in dict.fromkeys(spelled):
            if len(values) == 1 and unit and other != unit:
                yield re.sub(rf"(?<=\d)(\s?){re.escape(unit)}(?![\w/])", rf"\g<1>{other}", text)


def _kin(unit: str) -> tuple[Unit, ...]:
    dimension = dimension_of(unit)
    return dimension_named(dimension).units if dimension else ()


def _in_unit(value: Fraction, dimension: str, unit: str) -> Fraction | None:
    """Return a number in its canonical unit in another one."""
    if not dimension or not unit:
        return value if not unit and not dimension else None
    return Quantity(value, dimension_named(dimension).canonical, dimension).to(unit)
