"""Questions in plain words: which form they have, and what they ask of the book."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from baywright.facts.places import Bank, PlaceBase, Position, Socket, Supplies
from baywright.language.claims import Claim
from baywright.language.frames import Frame, frame
from baywright.language.pieces import Piece, unknown
from baywright.language.reading import Reader, Reading
from baywright.language.shapes.items import NoItem
from baywright.language.things import Measure, Thing

Form = Literal[
    "is-it", "can-it", "why-not", "most", "least", "how-many-ways", "which", "where",
    "what-does-it-need", "what-if-it-fails", "together", "since-when", "what-changed", "fact",
]  # fmt: skip

_OPENINGS: tuple[tuple[str, Form], ...] = (
    (r"why (?:can't|cannot|can not|does|do|is|are|not|isn't|won't|will|may|can)\b", "why-not"),
    (r"what (?:stops|keeps|prevents) (?:me|us|you|one|it) from\b", "why-not"),
    (r"how many more\b", "what-changed"),
    (r"what (?:has )?changed?\b", "what-changed"),
    (r"(?:in )?how many (?:different )?(?:ways|combinations|layouts|configurations)\b",
     "how-many-ways"),
    (r"how many different\b", "how-many-ways"),
    (r"(?:since when|when)\b", "since-when"),
    (r"(?:where|in which (?:slots?|zones?|places?))\b", "where"),
    (r"what (?:happens )?if\b|what happens (?:if|when)\b|what do (?:we|i|you) lose (?:if|when)\b",
     "what-if-it-fails"),
    (r"what does .* (?:need|require)\b|what do .* (?:need|require)\b", "what-does-it-need"),
    (r"how few\b|how little\b|how cheap\b|how many .* do (?:i|we|you) need\b", "least"),
    (r"what(?:'s| is)? (?:the )?(?:least|smallest|minimum|lowest)\b", "least"),
    (r"what does the cheapest\b|what does it cost at least\b", "least"),
    (r"how (?:many|much|fast|large)\b", "most"),
    (r"what(?:'s| is)? (?:the )?(?:most|largest|maximum|highest|greatest)\b", "most"),
    (r"which\b|what (?:fits|goes|can be|can go)\b", "which"),
)  # fmt: skip
"""How questions of each form start; the first that fits counts."""


@dataclass(frozen=True, slots=True)
class Query:
    """What a question asks.

    Args:
        form: its form.
        expression: as the language of questions writes it; empty where that has no words for it.
        claims: what it asks whether it is so.
        thing: what it asks about.
        given: conditions.
        words: words that were not understood.
        places: places whose contents it asks for.
    """

    form: Form
    expression: str = ""
    claims: tuple[Claim, ...] = ()
    thing: Thing | None = None
    given: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    places: tuple[str, ...] = ()

    @property
    def understood(self) -> bool:
        """Say whether the whole question was understood."""
        return not self.words


@dataclass(frozen=True)
class Questions:
    """Reads questions about a book.

    Args:
        reader: reads sentences.
    """

    reader: Reader

    def read(self, text: str) -> Query:
        """Read a question."""
        form, rest = _opening(text)
        if form == "why-not":
            return replace(self._whether(_positive(rest)), form="why-not")
        readers: dict[Form, Callable[[str, Form], Query]] = {
            "most": self._extreme,
            "least": self._extreme,
            "how-many-ways": self._ways,
            "which": self._which,
            "where": self._where,
            "what-does-it-need": self._needs,
            "what-if-it-fails": self._fails,
            "since-when": self._when,
            "what-changed": self._changed,
        }
        if form in readers:
            return readers[form](rest, form)
        return self._whether(text)

    def _whether(self, text: str) -> Query:
        """Read a question that yes or no answers."""
        ways = list(self._turned(text))
        if not ways:
            return Query("can-it", words=self._left(text))
        claims = ways[0]
        together = any(len(claim.terms) > 1 and claim.mode == "can" for claim in claims)
        form: Form = "can-it" if claims[0].mode == "can" else "is-it"
        if together and _TOGETHER.search(text):
            form = "together"
        return Query(form, _joined(claims), claims)

    def _turned(self, text: str) -> Iterator[tuple[Claim, ...]]:
        """Yield readings of a question as the statement that yes would make."""
        for statement in _statements(text):
            reading = self.reader.read(statement)
            yield from reading.ways

    def _left(self, text: str) -> tuple[str, ...]:
        left = unknown(self.reader.glossary.slots(text))
        return left or (text.strip(" ?"),)

    def _frames(self, text: str) -> Iterator[Frame]:
        slots = self.reader.glossary.slots(text)
        if unknown(slots):
            return
        for sequence in self.reader.cut(slots):
            yield frame(sequence)

    def _extreme(self, text: str, form: Form) -> Query:
        """Read how many of something at most, or at least, under conditions."""
        fixed = {"how cheap": "price", "cheapest": "price", "cost": "price"}
        number = next((n for word, n in fixed.items() if word in text.casefold()), "")
        for held in self._frames(_without_opening(text)):
            try:
                found = self._number(held, number)
            except NoItem:
                continue
            if found is not None:
                given = f", given={_and(held.given)}" if held.given else ""
                expression = f"{form}({found.expression}{given})"
                return Query(form, expression, thing=found, given=held.given)
        return Query(form, words=self._left(text))

    def _number(self, held: Frame, fixed: str) -> Thing | None:
        """Return the number that is asked for."""
        if fixed:
            rest = [p for p in held.pieces if p.letter not in "MmuKHBZwoqs"]
            items = [p for p in rest if p.letter == "T"]
            return Thing("number", fixed, fixed, fixed) if len(items) == len(rest) == 0 else None
        if any(piece.letter not in "TMmuKHBRZoqDA" for piece in held.pieces):
            return None
        asked = [p for p in held.pieces if p.letter == "T" and not p.value[0].values]
        if len(asked) != 1 or len([p for p in held.pieces if p.letter in "TA"]) != 1:
            return None
        measure = self.reader.located(asked[0].value[0], held)
        thing: Thing = measure.thing
        return thing if thing.expression and not thing.absent else None

    def _ways(self, text: str, form: Form) -> Query:
        """Read in how many ways places can be filled."""
        for held in self._frames(_without_opening(text)):
            places = self._places_in(held)
            if places:
                given = f", given={_and(held.given)}" if held.given else ""
                return Query(form, f"ways({', '.join(places)}{given})", given=held.given)
        return Query(form, words=self._left(text))

    def _which(self, text: str, form: Form) -> Query:
        """Read which parts there are, or what a place can hold."""
        for held in self._frames(_without_opening(text)):
            places = self._places_in(held)
            if places:
                given = f", given={_and(held.given)}" if held.given else ""
                expression = f"list({', '.join(places)}{given})"
                return Query(form, expression, given=held.given, places=places)
        return Query(form, words=self._left(text))

    def _places_in(self, held: Frame) -> tuple[str, ...]:
        """Return the places a question is about: those named, or those of a kind of part."""
        named = tuple(n for p in held.pieces if p.letter == "P" for n in p.value) + held.at
        if any(piece.letter not in "TPMmuKHBZoqVs" for piece in held.pieces):
            return ()
        things = [p.value[0] for p in held.pieces if p.letter == "T"]
        if named and not things:
            return named
        if len(things) != 1 or named or things[0].values:
            return ()
        return self._homes(things[0])

    def _homes(self, measure: Measure) -> tuple[str, ...]:
        """Return the places of a kind of part, one of those that are always filled alike."""
        book, thing = self.reader.book, measure.thing
        if thing.name == "zones":
            return tuple(name for name, p in book.places.items() if p.type == "zone")
        if thing.part or thing.filters:
            return ()
        models: dict[str, type[PlaceBase]] = {
            "processor": Socket, "memory": Bank, "memory_sockets": Bank, "supply": Supplies,
        }  # fmt: skip
        model = models.get(thing.name)
        if model is not None:
            return tuple(book.places_of(model))[:1]
        taken = [
            name for name, place in book.places.items()
            if thing.name in getattr(place, "takes", ()) and isinstance(place, Position)
        ]  # fmt: skip
        return tuple(taken)

    def _where(self, text: str, form: Form) -> Query:
        """Read where something goes."""
        for held in self._frames(_without_opening(text)):
            things = [p for p in held.pieces if p.letter == "T"]
            others = [p for p in held.pieces if p.letter not in "TMmuKHBZsD"]
            if len(things) == 1 and not others and not things[0].value[0].values:
                return Query(form, thing=things[0].value[0].thing, given=held.given)
        return Query(form, words=self._left(text))

    def _needs(self, text: str, form: Form) -> Query:
        """Read what something needs."""
        subject = re.sub(r"(?i)^what (?:does|do)\s+|\s+(?:need|require)\b.*$", "", text.strip(" ?"))
        for held in self._frames(subject):
            for piece in held.pieces[:1] if len(held.pieces) == 1 else ():
                if piece.letter == "P" and len(piece.value) == 1:
                    return Query(form, given=(f"{piece.value[0]} != empty",))
                if piece.letter == "T" and piece.value[0].thing.expression:
                    return Query(form, given=piece.value[0].alternatives[:1])
        return Query(form, words=self._left(subject))

    def _fails(self, text: str, form: Form) -> Query:
        """Read what happens when a supply, a fan or a processor fails."""
        for held in self._frames(_without_opening(text)):
            if any(piece.letter not in "TcPfBZMHai" for piece in held.pieces):
                continue
            for piece in held.pieces:
                if piece.letter == "T" and piece.value[0].thing.sort == "parts":
                    thing = piece.value[0].thing
                    return Query(form, thing=thing, given=held.given)
                if piece.letter == "c" and "processors == 2" in piece.value:
                    return Query(form, thing=Thing("parts", "processor", "", ""))
        return Query(form, words=self._left(text))

    def _when(self, text: str, form: Form) -> Query:
        """Read since when the machine ships, or when it was announced."""
        slots = self.reader.glossary.slots(_without_opening(text))
        left = unknown(slots)
        if left:
            return Query(form, words=left)
        announced = any("announced" in slot.text.casefold() for slot in slots)
        last = re.search(r"(?i)\b(?:until|last)\b", text) is not None
        event = "announced" if announced else "last_order" if last else "ships"
        return Query(form, claims=(Claim("date", event=event),))

    def _changed(self, text: str, form: Form) -> Query:
        """Read how much more of something there is than in the machine before."""
        rest = re.sub(r"(?i)\bthan\b.*$", "", _without_opening(text))
        for held in self._frames(rest):
            things = [p for p in held.pieces if p.letter == "T"]
            if len(things) == 1 and things[0].value[0].thing.expression:
                return Query(form, thing=things[0].value[0].thing)
        return Query(form, words=self._left(text))


_TOGETHER = re.compile(r"(?i)\b(?:together|at once|at the same time|get along|go with)\b")


def _opening(text: str) -> tuple[Form, str]:
    folded = text.casefold().strip()
    for pattern, form in _OPENINGS:
        if re.match(pattern, folded):
            return form, text.strip()
    return "can-it", text.strip()


_OPENERS = re.compile(
    r"(?i)^(?:how many more|(?:in )?how many (?:different )?(?:ways|combinations|layouts)(?: to)?|"
    r"how many different|how many|how much|how fast|how large|how few|how little|how cheap|"
    r"what happens (?:if|when)|what if|what do (?:we|i|you) lose (?:if|when)|"
    r"what does the cheapest|what(?:'s| is)? (?:the )?|which|where|since when|when|what|"
    r"in which (?:slots?|zones?|places?))\s*"
)
_AUX = re.compile(r"(?i)\b(?:does|do|did|is|are|can|could|will|would|may|has|have)\b")


def _without_opening(text: str) -> str:
    """Return a question without the words that give its form."""
    return _OPENERS.sub("", text.strip().rstrip("?"), count=1)


def _positive(text: str) -> str:
    """Return a why-not question as the question whether it can be."""
    bare = re.sub(
        r"(?i)^what (?:stops|keeps|prevents) (?:me|us|you|one|it) from\s*", "you can fit ", text
    )
    bare = re.sub(
        r"(?i)^(you can) fit (?:fitting|having|using|taking|putting)\s+", r"\1 fit ", bare
    )
    bare = re.sub(r"(?i)^why (?:can't|cannot|can not|can|won't|may)\s+", "can ", bare)
    bare = re.sub(r"(?i)^why (?:does|do|is|are|isn't|will)\s+", "can ", bare)
    bare = re.sub(r"(?i)^why not\s+", "", bare)
    return re.sub(r"(?i)\bnot\b\s*", "", bare)


_LEADS = re.compile(
    r"(?i)^(?:and|so|but)\s+|^(?:with [^,]+),\s*(?=(?:can|does|do|is|are|will|may)\b)"
)
_MODALS = frozenset(["can", "could", "may", "might", "will", "would", "should"])
_PLAIN = frozenset(["does", "do", "did"])
_BE = frozenset(["is", "are", "has", "have", "was", "were"])


def _statements(text: str) -> Iterator[str]:
    """Yield the statements a question may turn, its first word moved behind its subject."""
    asked = text.strip().rstrip("?").strip()
    colon = re.sub(r"(?i):?\s*is (?:that|this|it) possible$", " can be fitted", asked)
    if colon != asked:
        yield colon
        return
    asked = re.sub(r"(?i)^is (?:it|that) possible to\b", "can you", asked)
    lead = ""
    held = re.match(r"(?i)^(?:and )?((?:with|at|on|in) [^?]*?),\s*(.*)$", asked)
    if held:
        lead, asked = f" {held[1]}", held[2]
    words = asked.split()
    if not words:
        return
    first = words[0].casefold()
    if first not in _MODALS | _PLAIN | _BE:
        yield asked + lead
        return
    auxiliary = "" if first in _PLAIN else "can" if first in _MODALS else words[0]
    if first in _BE:
        yield f"there {words[0]} {' '.join(words[2:])}{lead}" if words[1:2] == ["there"] else asked
    for at in range(2, len(words) + 1):
        moved = [*words[1:at], auxiliary, *words[at:]]
        yield " ".join(word for word in moved if word) + lead
        if first in _PLAIN:
            break


def _joined(claims: Sequence[Claim]) -> str:
    """Return the expression of claims, where they are one that the language has."""
    if len(claims) != 1 or claims[0].mode in ("fact", "date", "generation"):
        return ""
    claim = claims[0]
    if claim.mode == "can":
        return " and ".join(_bracketed(t) for t in (*claim.terms, *claim.given))
    return claim.text if claim.mode == "always" else ""


def _bracketed(term: str) -> str:
    return f"({term})" if " or " in term or term.startswith("not ") else term


def _and(terms: Sequence[str]) -> str:
    return " and ".join(_bracketed(term) for term in terms)


__all__ = ["Form", "Piece", "Query", "Questions", "Reading"]
