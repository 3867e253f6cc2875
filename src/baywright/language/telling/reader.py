"""Reading sentences that tell facts: each family of statements is tried on the terms."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from baywright.facts.book import Book
from baywright.language.claims import Claim
from baywright.language.telling.access import Access
from baywright.language.telling.amounts import Amounts
from baywright.language.telling.comparing import Comparing
from baywright.language.telling.cutting import Cutter
from baywright.language.telling.likeness import Likeness
from baywright.language.telling.occasions import Occasions
from baywright.language.telling.ports import Ports
from baywright.language.telling.service import Servicing
from baywright.language.telling.terms import Bag, NotTold, Term, clauses, with_other_number
from baywright.language.telling.wiring import Wiring
from baywright.terms import Vocabulary

MOST_TERMS = 40
"""A sentence of more terms is not read."""

MOST_CLAUSES = 5

MOST_TRIED = 300
"""A sentence with more clauses to try is not read, however they could be put together."""

Family = Callable[[Bag], list[Claim]]
Way = tuple[Claim, ...]


@dataclass(frozen=True)
class Tellings:
    """Reads sentences that tell facts of a book.

    Args:
        book: the book.
        related: books of the machines it is compared with, by id.
        vocabulary: what expressions about it may speak of.
    """

    book: Book
    related: Mapping[str, Book]
    vocabulary: Vocabulary

    @cached_property
    def _cutter(self) -> Cutter:
        return Cutter(self.book, self.related, self.vocabulary)

    @cached_property
    def _families(self) -> tuple[Family, ...]:
        wiring, service = Wiring(self.book), Servicing(self.book)
        access, like = Access(self.book, self._cutter.terms), Likeness(self.book)
        amounts, ports = Amounts(self.book), Ports(self.book)
        times, compare = Occasions(self.book), Comparing(self.book, self.related)
        return (
            amounts.read, amounts.full_rating, amounts.lines,
            wiring.owned, wiring.shared, wiring.cabled, wiring.without_lanes,
            access.locked, access.cut_off, access.lit,
            service.hot, service.marked, service.waits, service.ordered, service.first_or_last,
            service.worked, service.uncovered,
            like.shaped, like.slot_power, like.generation, ports.module_ports, ports.chips,
            ports.link_rate, ports.lanes_per_bay, ports.place_port, like.mirrored, like.beside,
            like.sized, ports.external, like.inlets, ports.all_ports, ports.arrays,
            compare.compared, compare.unlike, compare.both,
            times.dated, times.systems, times.refused_by, times.firmware, times.supply_lost,
            times.feeds, times.carried_by, times.write_through, times.follows,
        )  # fmt: skip

    def ways(self, text: str) -> list[Way]:
        """Return every way a sentence tells facts; none when a word is left over."""
        terms = self._cutter.terms(text)
        if terms is None or len(terms) > MOST_TERMS:
            return []
        return _Search(self._families).of(terms)


@dataclass
class _Search:
    """Tries families on the whole of a sentence, and then on its clauses.

    Args:
        families: the families.
        left: clauses that may still be tried.
    """

    families: tuple[Family, ...]
    left: int = MOST_TRIED

    def of(self, terms: Sequence[Term]) -> list[Way]:
        """Return the ways of a sentence; none where not all of them could be gone through."""
        found = list(dict.fromkeys(self._ways(terms, MOST_CLAUSES)))
        return found if self.left > 0 else []

    def _ways(self, terms: Sequence[Term], depth: int) -> Iterator[Way]:
        found = list(self._whole(terms))
        yield from found
        if found or depth <= 1:
            return
        for before, after in clauses(terms):
            for way in list(self._whole(before)):
                for rest in self._after(before, after, depth - 1):
                    yield (*way, *rest)

    def _after(self, before: Sequence[Term], after: Sequence[Term], depth: int) -> Iterator[Way]:
        """Yield the ways of a further clause, which may leave out what the one before named."""
        for taken in _carried(before, after):
            found = list(self._ways([*taken, *after], depth))
            if found:
                yield from found
                return

    def _whole(self, terms: Sequence[Term]) -> Iterator[Way]:
        self.left -= 1
        for family in self.families if self.left > 0 else ():
            try:
                claims = family(Bag(list(terms)))
            except NotTold:
                continue
            if claims and _heeded(family, terms, claims):
                yield tuple(claims)


def _heeded(family: Family, terms: Sequence[Term], claims: list[Claim]) -> bool:
    """Say whether every number counts: another in its place would make another claim."""
    if any(fact.found == "false" for claim in claims for fact in claim.facts):
        return True
    for at, term in enumerate(terms):
        for other in with_other_number(term):
            try:
                found = family(Bag([*terms[:at], other, *terms[at + 1 :]]))
            except NotTold:
                continue
            if found == claims:
                return False
    return True


_VERBS = ("filler", "act", "hint", "be", "need")

_VALUES = frozenset({"amount", "number", "neg", "join", "date", "before"})

_ROLES = frozenset({"group", "place", "step", "feed", "state", "setting", "other", "item"})
"""Sorts of term of which a clause names its own rather than keep that of the one before."""


def _carried(before: Sequence[Term], after: Sequence[Term]) -> Iterator[list[Term]]:
    """Yield what a clause may take over from the one before: nothing, its subject, or more."""
    yield []
    kept = [term for term in before if not _VALUES & set(term.senses)]
    verb = next((i for i, term in enumerate(kept) if _is_verb(term)), len(kept))
    named = {sort for term in after for sort in term.senses if sort in _ROLES}
    yield kept[:verb]
    yield kept[verb:]
    yield kept
    yield [term for term in kept if not named & set(term.senses)]


def _is_verb(term: Term) -> bool:
    return not term.has("group") and any(term.has(sort) for sort in _VERBS)
