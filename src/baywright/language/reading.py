"""Reading a sentence: every way it can be understood, as claims about the book."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from baywright.facts.book import Book
from baywright.language.claims import Claim
from baywright.language.conditions import Conditions
from baywright.language.frames import Frame, clauses, frame
from baywright.language.glossary import Glossary, Slot
from baywright.language.named_places import Places, family, groups_of, how_of
from baywright.language.nouns import Nouns
from baywright.language.paraphrases import plain
from baywright.language.pieces import Piece, Pieces, unknown
from baywright.language.shapes import builds, features, limits, states, stating
from baywright.language.shapes.building import Builds
from baywright.language.shapes.facts import Statings
from baywright.language.shapes.items import Items, NoItem
from baywright.language.shapes.unordered import unordered
from baywright.language.telling.reader import Tellings
from baywright.language.things import Measure
from baywright.language.turns import turned
from baywright.terms import Vocabulary

MOST_SLOTS = 60
"""A sentence of more phrases than this is not read."""

OF_BUILDS = (builds.SHAPES, states.SHAPES)
OF_FACTS = (stating.SHAPES, features.SHAPES, limits.SHAPES)
"""Shapes of clauses, by what their claims are put together with."""

CONTENT = frozenset(
    [
        "kind",
        "parts",
        "feature",
        "port",
        "figure",
        "field",
        "place",
        "setting",
        "model",
        "line",
        "amount",
        "condition",
    ]
)
"""Sorts of phrase that make a sentence one about a machine."""


@dataclass(frozen=True, slots=True)
class Reading:
    """How a sentence was understood.

    Args:
        ways: each way it can be read, as claims that all have to hold.
        unknown: words nothing is known of.
        about: whether it speaks of things of the book at all.
        absent: things of the trade it names that no book holds.
        machine: id of the book of another machine that it speaks of alone.
    """

    ways: tuple[tuple[Claim, ...], ...]
    unknown: tuple[str, ...] = ()
    about: bool = False
    absent: tuple[str, ...] = ()
    machine: str = ""

    @property
    def text(self) -> str:
        """The readings as they are shown."""
        ways = dict.fromkeys(", ".join(claim.text for claim in way) for way in self.ways)
        return "; or ".join(ways)


_Shape = tuple["re.Pattern[str]", Callable[[Frame, "re.Match[str]"], Sequence[Claim]]]


@dataclass(frozen=True)
class Reader:
    """Reads sentences about one book.

    Args:
        book: the book.
        glossary: its phrases.
        vocabulary: what expressions about it may speak of.
    """

    book: Book
    glossary: Glossary
    vocabulary: Vocabulary

    @cached_property
    def _pieces(self) -> Pieces:
        nouns = Nouns(self.book, self.vocabulary)
        return Pieces(nouns, Conditions(nouns))

    @cached_property
    def _tellings(self) -> Tellings:
        return Tellings(self.book, self.glossary.related, self.vocabulary)

    @cached_property
    def _shapes(self) -> tuple[_Shape, ...]:
        about_builds, about_facts = Builds(self.book), Statings(self.book)
        return tuple(
            (re.compile(pattern), _bound(made, builder))
            for tables, builder in ((OF_BUILDS, about_builds), (OF_FACTS, about_facts))
            for table in tables
            for pattern, made in table
        )

    def read(self, text: str) -> Reading:
        """Read a sentence, and where that fails, with further turns of phrase rewritten."""
        told = tuple(self._tellings.ways(text))
        found = self._read(self._plain(text), told)
        about = self.book.book
        other = turned(text, (about.name, about.id.upper(), about.id))
        if found.ways or found.absent or found.machine or other == text:
            return found
        again = self._read(self._plain(other), told)
        return again if again.ways else found

    def _read(self, text: str, told: tuple[tuple[Claim, ...], ...]) -> Reading:
        slots = self.glossary.slots(text)
        named = {
            name
            for slot in slots
            for name in slot.of("machine")
            if name or slot.token.text[0].isupper()
        }
        if len(named) == 1 and "" not in named:
            return Reading(told) if told else Reading((), machine=named.pop())
        about = any(sort in CONTENT for slot in slots for sort in slot.senses) or (
            bool(named) and any(map(_unread_number, slots))
        )
        absent = tuple(slot.text for slot in slots if slot.has("absent"))
        left = unknown(slots)
        if left or absent or len(slots) > MOST_SLOTS:
            return Reading(told, left, about, absent)
        ways = tuple(way for way in self._ways(slots) if not (told and _guessed(way)))
        if not (ways or told):
            ways = tuple(self._ways(slots, unordered=True))
        return Reading((*ways, *told), (), about)

    def _per_place(self, held: Frame) -> Frame:
        """Return a clause about so many per zone, riser or board as one about each of them."""
        per = held.condition.per
        groups = family(self.book, f"{per}s") if per else ()
        if held.at or not groups:
            return held
        rest = tuple(each for each in held.conditions if each.per != per)
        return replace(held, conditions=rest, at=Places.of(groups, "every"))

    def _plain(self, text: str) -> str:
        about = self.book.book
        return plain(text, (about.name, about.id.upper(), about.id))

    def cut(self, slots: Sequence[Slot]) -> list[tuple[Piece, ...]]:
        """Return every way to cut phrases into pieces, for questions."""
        return self._pieces.sequences(slots)

    def located(self, measure: Measure, held: Frame) -> Measure:
        """Return a measure with the places and sides that stand apart from it.

        Raises:
            NoItem: when they do not go with it.
        """
        return Items(self.book).located(measure, held)

    def _ways(
        self, slots: Sequence[Slot], *, unordered: bool = False
    ) -> Iterator[tuple[Claim, ...]]:
        seen: set[tuple[str, ...]] = set()
        always = any(slot.text.casefold() == "always" for slot in slots)
        for sequence in self._pieces.sequences(slots):
            for way in self._of_sequence(sequence, unordered=unordered):
                if always and any(claim.mode == "can" for claim in way):
                    continue
                key = tuple(claim.text for claim in way)
                if key not in seen:
                    seen.add(key)
                    yield way

    def _of_sequence(
        self, sequence: tuple[Piece, ...], *, unordered: bool
    ) -> Iterator[tuple[Claim, ...]]:
        """Yield the readings of a sequence of pieces, one clause after another."""
        ways: list[tuple[Claim, ...]] = [()]
        for clause in clauses(sequence):
            held = frame(clause)
            found = list(self._of_clause(held))
            if unordered and not found:
                found = list(self._unordered(held))
            either = clause[:1] and clause[0].letter == "|"
            ways = [
                (*way, *claims) if either else joined(way, claims)
                for way in ways
                for claims in found
            ]
            if not ways:
                return
        yield from (way for way in ways if way)

    def _of_clause(self, clause: Frame) -> Iterator[tuple[Claim, ...]]:
        held = self._per_place(clause)
        letters = "" if held.muddled else held.letters
        for pattern, made in self._shapes:
            match = pattern.fullmatch(letters)
            if match is None:
                continue
            try:
                claims = tuple(c for alone in _apart(held) for c in made(alone, match))
            except NoItem:
                continue
            if claims:
                yield claims

    def _unordered(self, clause: Frame) -> Iterator[tuple[Claim, ...]]:
        if clause.muddled:
            return
        try:
            yield tuple(unordered(Builds(self.book), self._per_place(clause)))
        except NoItem:
            return


def _apart(held: Frame) -> Iterator[Frame]:
    """Yield a clause for each place, where what it says is said of each of several."""
    if how_of(held.at) != "every":
        yield held
        return
    for group in groups_of(held.at):
        yield replace(held, at=Places.of((group,)))


def _unread_number(slot: Slot) -> bool:
    """Say whether a word with digits is not known, such as a date that no calendar has."""
    return not slot.senses and slot.text[0].isdigit()


def _guessed(way: tuple[Claim, ...]) -> bool:
    """Say whether an amount alone was taken for memory: a part may have it instead."""
    return any(not measure.thing.name for claim in way for measure in claim.measures)


def joined(before: tuple[Claim, ...], claims: tuple[Claim, ...]) -> tuple[Claim, ...]:
    """Return the claims of clauses; what can be in one sentence has to be possible together."""
    if len(claims) != 1 or not before or (before[-1].mode, claims[0].mode) != ("can", "can"):
        return (*before, *claims)
    last, first = before[-1], claims[0]
    if (last.altitude, last.inlet) != (first.altitude, first.inlet):
        return (*before, *claims)
    both = replace(
        last,
        terms=(*last.terms, *first.terms),
        given=tuple(dict.fromkeys((*last.given, *first.given))),
        measures=(*last.measures, *first.measures),
        absent=last.absent or first.absent,
    )
    return (*before[:-1], both)


def _bound(
    made: Callable[..., Sequence[Claim]], builder: object
) -> Callable[[Frame, re.Match[str]], Sequence[Claim]]:
    return lambda held, match: made(builder, held, match)
