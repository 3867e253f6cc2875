"""Judging claims: true, false, and what lies between."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.inquiry import StoppedError
from baywright.desk.proofreading.natural import (
    natural_conditions,
    processor_counts,
    supply_loads,
)
from baywright.desk.proofreading.proving import NotSayable, Prover, Site, Undecided
from baywright.desk.proofreading.relating import holds
from baywright.engines.contract import Limit
from baywright.facts.book import Book
from baywright.language.claims import Claim, FactClaim
from baywright.language.nouns import DIMENSIONS as DIMENSION_OF
from baywright.language.passages import Kind
from baywright.language.stated import Stated
from baywright.language.things import Measure, written
from baywright.problems import Problems
from baywright.units import Quantity, UnitError
from baywright.units.dimensions import DIMENSIONS
from baywright.units.lookup import dimension_of

PATIENCE = Limit(1.0)
"""Time for the proof of a condition; a sentence with a harder one is left undecided."""

SLIPS = frozenset(
    Fraction(factor) ** sign for factor in (8, 10, 100, 1000, 1024) for sign in (1, -1)
)
"""Factors by which an amount with a wrong unit is off: bits for bytes, or a prefix."""


_FEWER = re.compile(r"(?:count\(|ports\(|fans|processors).* <=? \d+$")
"""That some build has fewer of something is hardly ever what is meant."""

STATUS_KINDS: Mapping[str, Kind] = {
    "unannounced": "not-yet",
    "announced": "not-yet",
    "sample": "sample",
    "withdrawn": "no-longer",
}
"""What is said of a machine that does not ship."""


@dataclass(frozen=True, slots=True)
class Finding:
    """What was found of one claim.

    Args:
        kind: the verdict.
        claim: the claim.
        under: conditions under which, together, it is true; none where none are known.
        said: why, one sentence.
        facts: what the book states, where that was asked.
    """

    kind: Kind
    claim: Claim
    under: tuple[str, ...] = ()
    said: str = ""
    facts: tuple[Stated, ...] = ()


@dataclass(frozen=True)
class Judge:
    """Judges claims about an open book.

    Args:
        prover: proves what builds can have.
    """

    prover: Prover

    def judge(self, claim: Claim) -> Finding:
        """Return the verdict on a claim."""
        try:
            return self._judged(claim)
        except NotSayable as reason:
            return Finding("not-understood", claim, said=str(reason))
        except Problems as problems:
            # A site that cannot be computed, and the like; the rest of the draft can be judged.
            return Finding("not-understood", claim, said=str(problems.problems[0].message))
        except Undecided:
            return Finding("not-understood", claim, said="Not decided: a fact is not stated yet.")
        except StoppedError as stopped:
            return Finding("not-understood", claim, said=f"Stopped: {stopped.tried}.")

    def _judged(self, claim: Claim) -> Finding:
        if claim.open_scope and claim.mode == "fact":
            return Finding("scope-unclear", claim, said="Per processor, or in the machine?")
        if claim.mode in ("fact", "generation"):
            return self._facts(claim)
        if claim.mode == "date":
            return self._date(claim)
        if claim.comparison is not None:
            so = holds(self.prover, claim.number, claim.comparison)
            return Finding("true" if so else "false", claim)
        if claim.absent and any(measure.thing.slip for measure in claim.measures):
            return Finding("unit", claim, said="The number is right with another unit.")
        if claim.absent:
            return Finding("true" if claim.mode == "never" else "false", claim)
        if claim.open_scope:
            return self._open_scope(claim)
        judges = {
            "can": self._can,
            "always": self._always,
            "never": self._never,
            "most": self._limit,
            "least": self._limit,
        }
        return judges[claim.mode](claim, Site(claim.altitude, claim.inlet))

    def _date(self, claim: Claim) -> Finding:
        """Compare a date with that of the book; without one, ask whether it ships now."""
        opened = self.prover.opened
        if claim.day is None:
            kind: Kind = STATUS_KINDS.get(opened.status.word, "true")
            return Finding(kind, claim, said=opened.status.note)
        held = opened.book.parts.get(claim.subject) or opened.book.book
        if claim.event == "orderable":
            return self._orderable(claim, held)
        fact = getattr(held, claim.event, None)
        if fact is None or fact.value is None:
            return Finding("not-understood", claim, said="The book states no such day.")
        day = fact.known
        if claim.event == "last_order":
            same = claim.day == day or (claim.day < day and claim.day >= opened.as_of)
            same = same or (
                claim.month_only and (claim.day.year, claim.day.month) <= (day.year, day.month)
            )
        elif claim.month_only:
            same = (claim.day.year, claim.day.month) == (day.year, day.month)
        else:
            same = claim.day == day
        return Finding("true" if same else "false", claim)

    def _orderable(self, claim: Claim, held: object) -> Finding:
        """Say whether something can be ordered on a day, or at some time in a month."""
        ships, last = (getattr(held, name, None) for name in ("ships", "last_order"))
        day = claim.day or self.prover.opened.as_of
        after = ships is None or (ships.known <= day)
        before = last is None or day <= last.known
        if claim.month_only and ships is not None and not after:
            after = (ships.known.year, ships.known.month) == (day.year, day.month)
        return Finding("true" if after and before else "false", claim)

    def _can(self, claim: Claim, site: Site) -> Finding:
        terms = (*claim.terms, *claim.given)
        if self.prover.possible(terms, site):
            if claim.unsure or any(_FEWER.match(term) for term in claim.terms):
                said = "Some builds can; that every build can is not said."
                return Finding("not-understood", claim, said=said)
            return self._tight(claim, site)
        later = self._later(site)
        if later is not None and self.prover.possible(terms, later):
            return Finding("not-yet", claim, said=f"It can from {later.day}.")
        maxima = claim.bare or any(m.values for m in claim.measures)
        if len(claim.terms) > 1 and maxima and self._each_alone(claim, later or site):
            return Finding("not-together", claim, said="Each can be, but not together.")
        return self._other_unit(claim, site)

    def _later(self, site: Site) -> Site | None:
        day = self.prover.latest()
        return Site(site.altitude, site.inlet, day) if day else None

    def _each_alone(self, claim: Claim, site: Site) -> bool:
        return all(self.prover.possible((term, *claim.given), site) for term in claim.terms)

    def _tight(self, claim: Claim, site: Site) -> Finding:
        """Up to a number is said of the most: a lower one is no slip to be passed."""
        for measure in claim.measures:
            if measure.op == "up" and len(measure.values) == 1 and len(claim.measures) == 1:
                beyond = measure.expression(measure.values[0], ">")
                if self.prover.possible((beyond, *claim.given), site):
                    return Finding("not-understood", claim, said="It holds, but more is possible.")
        return Finding("true", claim)

    def _always(self, claim: Claim, site: Site) -> Finding:
        if claim.bare:
            possible = self._can(claim, site)
            if possible.kind != "true":
                return possible
        if claim.given and not self.prover.possible(claim.given, site):
            return Finding("not-understood", claim, said="No build has what is taken as given.")
        denial = " or ".join(f"not ({term})" for term in claim.terms)
        if claim.needs and not self.prover.possible((denial,), site):
            return Finding("not-understood", claim, said="Every build has that.")
        if not self.prover.possible((denial, *claim.given), site):
            return self._each_possible(claim, site)
        if self.prover.possible((*claim.terms, *claim.given), site):
            under = self._condition(claim, denial, site)
            return Finding("only-if", claim, under, "Some builds have it, and some do not.")
        later = self._later(site)
        if later is not None and self.prover.possible((*claim.terms, *claim.given), later):
            return Finding("not-yet", claim, said=f"It can from {later.day}.")
        return self._other_unit(claim, site)

    def _each_possible(self, claim: Claim, site: Site) -> Finding:
        """Say that every build has it, where each of several numbers that are named can be had."""
        several = [measure for measure in claim.measures if len(measure.values) > 1]
        for term in (each for measure in several for each in measure.alternatives):
            if not self.prover.possible((term, *claim.given), site):
                said = "It has one of those numbers, but not each of them can be had."
                return Finding("not-understood", claim, said=said)
        return Finding("true", claim)

    def _condition(self, claim: Claim, denial: str, site: Site) -> tuple[str, ...]:
        """Return the first natural condition under which every build has it, or two of them."""
        builds: list[Mapping[str, int]] = []
        conditions = natural_conditions(self.prover.opened.book)
        pairs = itertools.product(
            processor_counts(self.prover.opened.book), supply_loads(self.prover.opened.book)
        )
        for each in (*((one,) for one in conditions), *pairs):
            if any(all(self.prover.fulfils(one, b, site) for one in each) for b in builds):
                continue
            given = (*claim.given, *each)
            other = self.prover.build((denial, *given), site)
            if other is not None:
                builds.append(other)
            elif self.prover.possible((*claim.terms, *given), site, PATIENCE):
                return () if self.prover.possible((denial, *given), site, PATIENCE) else each
        return ()

    def _never(self, claim: Claim, site: Site) -> Finding:
        if claim.given and not self.prover.possible(claim.given, site):
            return Finding("not-understood", claim, said="No build has what is taken as given.")
        found = self.prover.possible((*claim.terms, *claim.given), site)
        if found and claim.unsure:
            said = "Somewhere in a machine they can be; that may not be what is meant."
            return Finding("not-understood", claim, said=said)
        return Finding("false" if found else "true", claim)

    def _limit(self, claim: Claim, site: Site) -> Finding:
        if claim.given and not self.prover.possible(claim.given, site):
            return Finding("not-understood", claim, said="No build has what is taken as given.")
        beyond, near = ((">", ">="), ("<", "<="))[claim.mode == "least"]
        if claim.needs and not self.prover.possible(
            (f"{claim.number} < {written(claim.value, claim.unit)}",), site
        ):
            return Finding("not-understood", claim, said="Every build has that.")
        bound = written(claim.value, claim.unit)
        step = _step(claim) if claim.mode == "most" else -_step(claim)
        reached = written(claim.value - step, claim.unit) if step else bound
        op = near if not step else beyond
        passed = self.prover.possible((f"{claim.number} {beyond} {bound}", *claim.given), site)
        there = self.prover.possible((f"{claim.number} {op} {reached}", *claim.given), site)
        if there and not passed:
            return Finding("true", claim)
        if self._limit_in_other_unit(claim, site):
            return Finding("unit", claim, said="The number is right with another unit.")
        return Finding("false", claim)

    def _limit_in_other_unit(self, claim: Claim, site: Site) -> bool:
        """Say whether the limit is the number that is said, in another unit."""
        entry = DIMENSIONS.get(DIMENSION_OF.get(claim.number, ""))
        beyond = "<" if claim.mode == "least" else ">"
        for unit in entry.units if entry and claim.unit else ():
            value = written(claim.value, unit.spelling)
            if unit.spelling != claim.unit and (
                self.prover.possible((f"{claim.number} == {value}", *claim.given), site)
                and not self.prover.possible(
                    (f"{claim.number} {beyond} {value}", *claim.given), site
                )
            ):
                return True
        return False

    def _open_scope(self, claim: Claim) -> Finding:
        """A total of ports without its side: unclear when some sides have that many."""
        term = claim.terms[0] if claim.terms else f"{claim.number} >= 0"
        number = term.rpartition(" ")[2]
        kind = term.partition('"')[2].partition('"')[0]
        book = self.prover.opened.book
        held = [*book.chassis.ports, *(p for part in book.parts.values() for p in part.ports)]
        sides = dict.fromkeys(str(port.scope) for port in held if port.type == kind)
        for chosen in _subsets(tuple(sides)):
            total = " + ".join(f'ports("{kind}", at="{side}")' for side in chosen)
            if self.prover.possible((f"{total} == {number}", *claim.given)):
                return Finding("scope-unclear", claim, said="The total names no side.")
        return Finding("false", claim)

    def _counts_more_drives(self, claim: Claim) -> bool:
        """Say whether a number of drives would be right with boot or outside drives counted."""
        more = list(_other_drives(self.prover.opened.book))
        for measure in claim.measures:
            thing = measure.thing
            if thing.name != "drive" or thing.part or len(measure.values) != 1:
                continue
            for number, word in more:
                inside = measure.values[0] - number
                other = measure.expression(inside, "==")
                if (
                    inside >= 0
                    and word in (thing.one, "")
                    and self.prover.possible((other, *claim.given))
                ):
                    return True
        return False

    def _as_capacity(self, claim: Claim, site: Site) -> bool:
        """Say whether an amount alone, taken for memory, would be right for the drives."""
        bare = [m for m in claim.measures if not m.thing.name and m.unit in ("GB", "TB")]
        terms = [t.replace("memory ", "raw_capacity ") for t in (*claim.terms, *claim.given)]
        kinds = ("drive", "media", "boot")
        stores = [*kinds, *self.prover.opened.book.parts_of(*kinds)]
        if bare and any(name in term for name in stores for term in terms):
            return True
        return bool(bare) and self.prover.possible(terms, site)

    def _other_unit(self, claim: Claim, site: Site) -> Finding:
        """Return false, or unit where the number would be right with another unit."""
        if self._counts_more_drives(claim):
            said = "With boot drives or drives outside, or without them?"
            return Finding("scope-unclear", claim, said=said)
        if self._as_capacity(claim, site):
            said = "As memory it is not so; of drives it is."
            return Finding("not-understood", claim, said=said)
        for measure in claim.measures:
            for other in _other_units(measure):
                terms = tuple(
                    other if term in measure.alternatives else term for term in claim.terms
                )
                if terms != claim.terms and self._holds(claim, terms, site):
                    return Finding("unit", claim, said="The number is right with another unit.")
        return Finding("false", claim, said="No legal build has it; two engines agree on that.")

    def _holds(self, claim: Claim, terms: Sequence[str], site: Site) -> bool:
        return self.prover.possible((*terms, *claim.given), site)

    def _facts(self, claim: Claim) -> Finding:
        kinds = [_fact_kind(fact, generation=claim.mode == "generation") for fact in claim.facts]
        facts = tuple(each for fact in claim.facts for each in fact.stated)
        order: tuple[Kind, ...] = ("false", "generation", "unit", "only-if", "sample")
        kind: Kind = next((each for each in order if each in kinds), "true")
        return Finding(kind, claim, facts=facts)


def _other_drives(book: Book) -> Iterator[tuple[int, str]]:
    """Yield how many drives there are beside those in bays, and the noun that may mean them."""
    for part in book.parts_of("boot").values():
        media = getattr(part, "media", None)
        if "drive" in part.name and media is not None:
            yield media.known, "drive"
    for part in book.parts_of("controller").values():
        outside = getattr(part, "external", None)
        if outside is not None:
            yield outside.chains.known * outside.enclosures.known * outside.drives.known, ""


def _fact_kind(fact: FactClaim, *, generation: bool) -> Kind:
    if fact.found:
        return fact.found
    if generation:
        held = [each.value == fact.word for each in fact.stated]
        return "true" if all(held) else "generation"
    if fact.word:
        held = [each.value == fact.word for each in fact.stated]
        return "true" if all(held) else "only-if" if any(held) and not fact.every else "false"
    if fact.op == "up":
        return _up_to(fact)
    matches = [
        any(_compares(each.value, fact.op, v, fact.unit) for each in group for v in fact.values)
        for group in _groups(fact)
    ]
    used = all(
        any(_compares(each.value, fact.op, value, fact.unit) for each in fact.stated)
        for value in fact.values
    )
    if all(matches) and used:
        pre = any(f.status == "pre-release" for each in fact.stated for f in each.facts)
        return "sample" if pre else "true"
    if any(matches) and used:
        return "true" if fact.some else "only-if"
    return "unit" if _slipped(fact) else "false"


def _up_to(fact: FactClaim) -> Kind:
    """Judge a number that is said to be the most of what is stated."""
    pairs = [(each.value, value) for each in fact.stated for value in fact.values]
    beyond = any(_compares(held, ">", value, fact.unit) for held, value in pairs)
    there = any(_compares(held, "==", value, fact.unit) for held, value in pairs)
    if there and not beyond:
        return "true"
    return "unit" if _slipped(fact) else "false"


def _groups(fact: FactClaim) -> list[list[Stated]]:
    """Return what is stated one by one; for a list of numbers, all of one owner together."""
    if len(fact.values) < 2:
        return [[each] for each in fact.stated]
    groups: dict[str, list[Stated]] = {}
    for each in fact.stated:
        groups.setdefault(each.path.rpartition(".ratings")[0] or each.path, []).append(each)
    return list(groups.values())


def _compares(value: object, op: str, number: Fraction, unit: str) -> bool:
    held, wanted = _numbers(value, number, unit)
    if held is None or wanted is None:
        return False
    return {
        "==": held == wanted, "<=": held <= wanted, ">=": held >= wanted,
        "<": held < wanted, ">": held > wanted,
    }.get(op, False)  # fmt: skip


def _numbers(value: object, number: Fraction, unit: str) -> tuple[Fraction | None, Fraction | None]:
    """Return both in one unit, or ``None`` where they are not of one dimension."""
    if not unit and isinstance(value, Fraction):
        return value, number
    if isinstance(value, Fraction) and unit == "%":
        return value, number / 100
    if not isinstance(value, Quantity) or not unit:
        return None, None
    try:
        wanted = Quantity(number, unit, value.dimension)
    except UnitError:
        return None, None
    return value.canonical, wanted.canonical


def _slipped(fact: FactClaim) -> bool:
    """Say whether the number is right with another unit, or off by a prefix."""
    return any(_is_slip(each.value, v, fact.unit) for each in fact.stated for v in fact.values)


def _is_slip(value: object, number: Fraction, unit: str) -> bool:
    if not isinstance(value, Quantity) or not unit:
        return False
    held, wanted = _numbers(value, number, unit)
    if held is None or wanted is None:
        return value.magnitude == number
    return held != wanted and (value.magnitude == number or wanted / held in SLIPS)


def _other_units(measure: Measure) -> list[str]:
    """Return the comparison with the number in other units of a like kind."""
    if not measure.unit or len(measure.values) != 1 or measure.thing.expression == "":
        return []
    wanted = {"capacity": "memory"}.get(dimension_of(measure.unit) or "", "")
    dimension = measure.thing.dimension or wanted
    entry = DIMENSIONS.get(dimension)
    if entry is None:
        return []
    return [
        Measure(measure.thing, measure.op, measure.values, unit.spelling).alternatives[0]
        for unit in entry.units
        if unit.spelling != measure.unit
    ]


_ROUNDED = frozenset({"load", "mass", "price", "air_carries"})


def _step(claim: Claim) -> int:
    """Return how far a rounded limit may lie from the number that is said."""
    return 1 if claim.number in _ROUNDED and claim.unit not in ("kW", "kg") else 0


def _subsets(sides: tuple[str, ...]) -> list[tuple[str, ...]]:
    chosen: list[tuple[str, ...]] = [()]
    for side in sides:
        chosen += [(*each, side) for each in chosen]
    return [each for each in chosen if each]
