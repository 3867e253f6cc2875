"""The pieces of a sentence: noun phrases, places, conditions, verbs, and words that join them.

Each piece has a letter, so that the shapes of sentences can be written as patterns over letters.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from baywright.language.arrays import arrays_at
from baywright.language.conditions import Conditions, skipped
from baywright.language.glossary import Slot
from baywright.language.nouns import ANYTHING, Nouns

MOST_READINGS = 400
"""A sentence that can be cut into more sequences of pieces is not gone through further."""

VERBS = {
    "take": "K", "have": "H", "be": "B", "need": "R", "drive": "D", "exclude": "X", "fit": "Z",
    "weigh": "w", "draw": "w", "cost": "w", "deep": "y", "tall": "y", "wide": "y",
    "keep_running": "k", "fail": "f", "ship": "s", "announce": "s", "mix": "x",
    "lose": "z", "leave_out": "Y", "survive": "a", "vacant": "b",
}  # fmt: skip
LINKS = {"and": "&", "or": "|", "but": ";", "comma": ",", "of": "", "than": "v", "if": "i"}


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a sentence.

    Args:
        letter: what it is.
        value: what it stands for.
        text: as it was written.
    """

    letter: str
    value: Any
    text: str


@dataclass(frozen=True)
class Pieces:
    """Cuts sentences into pieces.

    Args:
        nouns: reads noun phrases.
        conditions: reads conditions.
    """

    nouns: Nouns
    conditions: Conditions

    def sequences(self, slots: Sequence[Slot]) -> list[tuple[Piece, ...]]:
        """Return every way to cut a sentence into pieces that leaves no word over."""
        found: list[tuple[Piece, ...]] = []
        self._extend(slots, 0, (), found)
        return found

    def _extend(
        self,
        slots: Sequence[Slot],
        at: int,
        before: tuple[Piece, ...],
        found: list[tuple[Piece, ...]],
    ) -> None:
        if len(found) >= MOST_READINGS:
            return
        if at >= len(slots):
            found.append(before)
            return
        for piece, after in self._at(slots, at):
            self._extend(slots, after, (*before, piece) if piece.letter else before, found)

    def _at(self, slots: Sequence[Slot], at: int) -> Iterator[tuple[Piece, int]]:
        """Yield the pieces that can start at a position."""
        last = all(slot.has("stop") for slot in slots[at + 1 :])
        if last and slots[at].text.casefold() == "in":
            yield Piece("", "", slots[at].text), at + 1
            return
        arrays = arrays_at(slots, at)
        if arrays is not None:
            said = " ".join(slot.text for slot in slots[at : arrays[1]])
            yield Piece("c", arrays[0], said), arrays[1]
        yield from self._phrases(slots, at)
        yield from self._words(slots[at], at)

    def _phrases(self, slots: Sequence[Slot], at: int) -> Iterator[tuple[Piece, int]]:
        def piece(letter: str, value: object, after: int) -> tuple[Piece, int]:
            return Piece(letter, value, " ".join(s.text for s in slots[at:after])), after

        date = self.conditions.date(slots, at)
        if date is not None:
            yield piece("d", *date)
            return
        condition = self.conditions.read(slots, at)
        if condition is not None:
            yield piece("C", *condition)
        if slots[at].has("stop") and not slots[at].has("id"):
            return
        named = self.nouns.named_place(slots, at)
        if named is not None:
            yield piece("P", *named)
        place = self.nouns.place(slots, at)
        if place is not None:
            yield piece("L", *place)
        sides = self.nouns.sides(slots, at)
        if sides is not None:
            yield piece("S", *sides)
        measures = self.nouns.measures(slots, at)
        if measures is not None:
            letter = "T"
            if measures[0][0].thing is ANYTHING:
                letter = "A" if measures[0][0].unit else "N"
            yield piece(letter, *measures)

    def _words(self, slot: Slot, at: int) -> Iterator[tuple[Piece, int]]:
        for sort, letter in _LETTERS.items():
            for value in slot.of(sort)[:1]:
                yield Piece(letter, value, slot.text), at + 1
        for verb in slot.of("verb"):
            yield Piece(VERBS[verb], verb, slot.text), at + 1
        for link in slot.of("link"):
            if link in LINKS:
                yield Piece(LINKS[link], link, slot.text), at + 1
        if slot.has("stop"):
            yield Piece("", "", slot.text), at + 1
        if slot.has("modal"):
            letter = "m" if slot.has("modal", "can") else "u"
            yield Piece(letter, slot.of("modal")[0], slot.text), at + 1
        if slot.has("machine"):
            own = slot.has("machine", "")
            yield Piece("M" if own else "Q", slot.of("machine")[0], slot.text), at + 1


_LETTERS = {
    "not": "n", "condition": "c", "setting": "W", "model": "O", "generation": "G",
    "filter": "F", "op": "o", "quant": "q", "line": "l",
    "builds": "E", "mixed": "V", "alike": "J",
    "inlet_type": "j", "optional": "p", "cheapest": "e",
}  # fmt: skip


def unknown(slots: Sequence[Slot]) -> tuple[str, ...]:
    """Return the words that nothing is known of."""
    return tuple(slot.text for slot in slots if not slot.senses)


__all__ = ["Piece", "Pieces", "skipped", "unknown"]
