"""Questions in plain words: which form they have, and what they ask of the book."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.parts import Part
from baywright.facts.places import Bank, PlaceBase, Position, Socket, Supplies
from baywright.language.asked_plainly import plainly
from baywright.language.attributes import known_kind
from baywright.language.claims import Claim
from baywright.language.frames import Frame, frame
from baywright.language.glossary import Slot
from baywright.language.named_places import family
from baywright.language.pieces import Piece, unknown
from baywright.language.question_forms import (
    Form,
    opening,
    positive,
    subject_of_need,
    with_choice,
    without_loss,
    without_opening,
)
from baywright.language.reading import Reader, Reading
from baywright.language.shapes.items import NoItem
from baywright.language.things import Measure, Thing
from baywright.language.turning import Asked, asked_in, counting, statements


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
        others: other ways to read a question that yes or no answers.
        same: expressions whose answers must be the same for there to be one.
        altitude: altitude of the site that is named, with its unit.
        inlet: temperature of the air taken in that is named, with its unit.
        choices: what may be named in answer, each with the statement that it has to make true.
    """

    form: Form
    expression: str = ""
    claims: tuple[Claim, ...] = ()
    thing: Thing | None = None
    given: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    others: tuple[tuple[Claim, ...], ...] = ()
    same: tuple[str, ...] = ()
    choices: tuple[tuple[str, str], ...] = ()
    altitude: str = ""
    inlet: str = ""

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
        rest = plainly(text)
        form = opening(rest)
        if form == "why-not":
            return replace(self._whether(positive(rest)), form="why-not")
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
        return self._whether(rest)

    def _whether(self, text: str) -> Query:
        """Read a question that yes or no answers."""
        ways = list(self._turned(text))
        if not ways:
            return Query("can-it", words=self._left(text))
        claims, *others = ways
        if _TOGETHER.search(text):
            claims, others = _as_one(claims), [_as_one(way) for way in others]
        together = any(len(claim.terms) > 1 and claim.mode == "can" for claim in claims)
        form: Form = "can-it" if claims[0].mode == "can" else "is-it"
        if together and _TOGETHER.search(text):
            form = "together"
        return Query(form, _joined(claims), claims, others=tuple(others))

    def _turned(self, text: str) -> Iterator[tuple[Claim, ...]]:
        """Yield readings of a question as the statement that yes would make."""
        turned = list(statements(text))
        for statement in sorted(turned, key=self._breaks_subject):
            reading = self.reader.read(statement)
            if reading.ways:
                yield from reading.ways
                return

    def _breaks_subject(self, statement: str) -> bool:
        """Say whether the word after can is no verb, so that it may stand inside the subject."""
        words = statement.split()
        if "can" not in words:
            return False
        rest = self.reader.glossary.slots(" ".join(words[words.index("can") + 1 :]))
        return not rest or not (rest[0].has("verb") or rest[0].has("not"))

    def _left(self, text: str) -> tuple[str, ...]:
        left = unknown(self.reader.glossary.slots(text))
        return left or (text.strip(" ?"),)

    def _frames(self, text: str) -> Iterator[Frame]:
        slots = self.reader.glossary.slots(text)
        if unknown(slots):
            return
        for sequence in self.reader.cut(slots):
            held = frame(sequence)
            if not held.muddled and not held.condition.state:
                yield held

    def _anywhere(self, text: str) -> Iterator[Frame]:
        """Yield the frames that name no site, or the one that is meant where none is named."""
        for held in self._frames(text):
            if held.condition.altitude in ("", "0 m") and not held.condition.inlet:
                yield held

    def _extreme(self, text: str, form: Form) -> Query:
        """Read how many of something at most, or at least, under conditions."""
        asked = self._counted(text)
        several = [n for n, p in self.reader.book.parts_of("boot").items() if holds_several(p)]
        if any(f'"{name}"' in each.number for name in several for each in asked):
            return Query(form, words=(text,))  # which of the several are counted is not said
        if asked and (not asked[0].least or _NEEDED.search(text)):
            return self._of_numbers(asked, form)
        fixed = {"how cheap": "price", "cheapest": "price", "cost": "price"}
        number = next((n for word, n in fixed.items() if word in text.casefold()), "")
        for held in self._frames(without_opening(text)):
            try:
                found = self._number(held, number)
            except NoItem:
                continue
            if found is not None:
                given = f", given={_and(held.given)}" if held.given else ""
                expression = f"{form}({found.expression}{given})"
                return _sited(Query(form, expression, thing=found, given=held.given), held)
        return Query(form, words=self._left(text))

    def _counted(self, text: str) -> tuple[Asked, ...]:
        """Return the numbers that are asked for, one for each place where there are several."""
        for statement in counting(text):
            for way in self.reader.read(statement).ways:
                found = [asked_in(claim) for claim in way]
                if found and all(found):
                    return tuple(each for each in found if each is not None)
        return ()

    def _of_numbers(self, asked: Sequence[Asked], form: Form) -> Query:
        side: Form = "least" if asked[0].least else form
        every = []
        for each in asked:
            given = f", given={_and(each.given)}" if each.given else ""
            every.append(f"{side}({each.number}{given})")
        return Query(side, every[0], given=asked[0].given, same=tuple(every[1:]),
                     altitude=asked[0].altitude, inlet=asked[0].inlet)  # fmt: skip

    def _number(self, held: Frame, fixed: str) -> Thing | None:
        """Return the number that is asked for."""
        if fixed:
            rest = [p for p in held.pieces if p.letter not in "MmuKHBZwoqse"]
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
        rest = _FILLING.sub(" ", text.strip().rstrip("?")).strip()
        for held in self._frames(rest):
            places = self._places_in(held)
            if places:
                given = f", given={_and(held.given)}" if held.given else ""
                expression = f"ways({', '.join(places)}{given})"
                return _sited(Query(form, expression, given=held.given), held)
        return Query(form, words=self._left(rest))

    def _which(self, text: str, form: Form) -> Query:
        """Read which parts there are, or what a place can hold."""
        for held in self._frames(without_opening(text)):
            places = self._places_in(held)
            if places:
                given = f", given={_and(held.given)}" if held.given else ""
                expression = f"list({', '.join(places)}{given})"
                query = Query(form, expression, given=held.given, places=places)
                return _sited(query, held)
        choices = tuple(self._choices(text))
        if choices:
            return Query(form, choices=choices)
        return Query(form, words=self._left(text))

    def _choices(self, text: str) -> Iterator[tuple[str, str]]:
        """Yield what a which may be answered with, each with the statement it has to make true."""
        words = text.strip().rstrip("?").split()[1:]
        for length in range(min(3, len(words)), 0, -1):
            slots = self.reader.glossary.slots(" ".join(words[:length]))
            named = self._named(slots[0]) if len(slots) == 1 else ()
            if named:
                rest = " ".join(words[length:]) or "fit"
                rest = re.sub(r"(?i)^(?:are|is) there\b", "are available", rest)
                yield from ((name, with_choice(name, rest)) for name in named)
                return

    def _named(self, slot: Slot) -> tuple[str, ...]:
        """Return the names of the parts of a kind, or of the places of a kind."""
        book = self.reader.book
        groups = [group for f in slot.of("feature")[:1] for group in family(book, f)]
        if groups:
            return tuple(book.places[group[0]].name for group in groups)
        kind = next(iter(slot.of("kind")), "")
        if kind == "card" and not known_kind(book, kind):
            kind = "accelerator"
        return tuple(part.name for part in book.parts.values() if part.kind == kind)

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
        for held in self._anywhere(without_opening(text)):
            things = [p for p in held.pieces if p.letter == "T"]
            others = [p for p in held.pieces if p.letter not in "TMmuKHBZsD"]
            if len(things) == 1 and not others and not things[0].value[0].values:
                return Query(form, thing=things[0].value[0].thing, given=held.given)
        return Query(form, words=self._left(text))

    def _needs(self, text: str, form: Form) -> Query:
        """Read what something needs."""
        if re.match(r"(?i)^what (?:line |input )?voltage\b", text):
            return Query(form, thing=Thing("number", "voltage", "voltage", "voltages"))
        subject = subject_of_need(text)
        for held in self._anywhere(subject):
            if not held.pieces and held.given:
                return Query(form, given=held.given)
            for piece in held.pieces[:1] if len(held.pieces) == 1 and not held.given else ():
                if piece.letter == "P" and len(piece.value) == 1:
                    return Query(form, given=(f"{piece.value[0]} != empty",))
                if piece.letter == "T" and piece.value[0].thing.expression:
                    return Query(form, given=piece.value[0].alternatives[:1])
        return Query(form, words=self._left(subject))

    def _fails(self, text: str, form: Form) -> Query:
        """Read what happens when a supply, a fan or a processor fails."""
        text = without_loss(text)
        for held in self._anywhere(without_opening(text)):
            if any(piece.letter not in "TcPfBZMHai" for piece in held.pieces):
                continue
            for piece in held.pieces:
                if piece.letter == "T" and piece.value[0].values not in ((), (Fraction(1),)):
                    return Query(form, words=self._left(text))
                if piece.letter == "T" and piece.value[0].thing.sort == "parts":
                    thing = piece.value[0].thing
                    return Query(form, thing=thing, given=held.given)
                if piece.letter == "c" and "processors == 2" in piece.value:
                    return Query(form, thing=Thing("parts", "processor", "", ""))
            if not held.pieces and held.given == ("processors == 1",):
                return Query(form, thing=Thing("parts", "processor", "", ""))
        event = re.sub(r"(?i)^what (?:happens )?(?:if|when) |^what if ", "", text.strip(" ?"))
        ways = self.reader.read(f"If {event}, the machine keeps running").ways
        if ways:
            return Query(form, claims=ways[0], others=ways[1:])
        return Query(form, words=self._left(text))

    def _when(self, text: str, form: Form) -> Query:
        """Read since when the machine ships, or when it was announced."""
        bare = re.sub(r"(?i)^(?:until|till|from) (?=when)|\bdate\b", "", text.strip())
        slots = self.reader.glossary.slots(without_opening(bare))
        left = unknown(slots)
        if left:
            return Query(form, words=left)
        part = self._part_named(bare)
        if part is None:
            return Query(form, words=(bare.strip(" ?"),))
        announced = any("announced" in slot.text.casefold() for slot in slots)
        last = re.search(r"(?i)\b(?:until|till|last)\b", text) is not None
        event = "announced" if announced else "last_order" if last else "ships"
        return Query(form, claims=(Claim("date", event=event, subject=part),))

    def _feature_named(self, text: str) -> Thing | None:
        """Return the feature that is counted, such as memory sockets."""
        for slot in self.reader.glossary.slots(text)[:1]:
            for name in slot.of("feature"):
                return Thing("feature", name, slot.text, slot.text)
        return None

    def _part_named(self, text: str) -> str | None:
        """Return the id of the part whose day is asked for; empty for the machine itself."""
        found: set[str] = set()
        for held in self._frames(without_opening(text)):
            measures = [m for p in held.pieces if p.letter == "T" for m in p.value]
            if any(not measure.thing.part for measure in measures):
                return None
            found |= {measure.thing.part for measure in measures}
        return found.pop() if len(found) == 1 else None if found else ""

    def _changed(self, text: str, form: Form) -> Query:
        """Read how much more of something there is than in the machine before."""
        rest = re.sub(r"(?i)\bthan\b.*$", "", without_opening(text)).strip()
        feature = self._feature_named(rest)
        if feature is not None:
            return Query(form, thing=feature)
        asked = self._counted(f"how many {rest}") or self._counted(f"how much {rest}")
        if len(asked) == 1 and not asked[0].given:
            return Query(form, thing=Thing("number", asked[0].number, "", ""))
        for held in self._frames(rest):
            things = [p for p in held.pieces if p.letter == "T"]
            if len(things) == 1 and things[0].value[0].thing.expression:
                return Query(form, thing=things[0].value[0].thing)
        return Query(form, words=self._left(text))


_FILLING = re.compile(
    r"(?i)^(?:in )?how many\b|\b(?:different|kinds? of|types? of|sizes? of|models? of|possible|"
    r"sizes|kinds|types|models|"
    r"ways|combinations|layouts|configurations|setups?|choices|"
    r"arrangements|possibilities|variants|options)\b|\b(?:to|of) (?:fill|filling|equip|populate|"
    r"configure|arrange|use)\b|\b(?:are|is) there\b|\b(?:do|can) (?:i|we|you) "
    r"(?:have|pick|choose|select)\b"
)
"""What in a question for a number of ways says no more than that."""

_NEEDED = re.compile(r"(?i)\b(?:needs?|requires?|least|minimum|few|fewest|little|enough)\b")
"""Words of a question for the least there has to be."""

_TOGETHER = re.compile(
    r"(?i)\b(?:together|at once|at the same time|get along|go with|in one (?:box|machine|"
    r"server|system)|combined?|side by side)\b"
)


def _sited(query: Query, held: Frame) -> Query:
    return replace(query, altitude=held.condition.altitude, inlet=held.condition.inlet)


def holds_several(part: Part) -> bool:
    """Say whether one part is several media, such as a pair of boot drives."""
    media = getattr(part, "media", None)
    return media is not None and media.known > 1


def _as_one(claims: tuple[Claim, ...]) -> tuple[Claim, ...]:
    """Return what can be one by one as what can be together."""
    plain = all(claim.mode == "can" and not claim.altitude and not claim.inlet for claim in claims)
    if len(claims) < 2 or not plain:
        return claims
    terms = tuple(term for claim in claims for term in claim.terms)
    given = tuple(dict.fromkeys(term for claim in claims for term in claim.given))
    measures = tuple(measure for claim in claims for measure in claim.measures)
    return (replace(claims[0], terms=terms, given=given, measures=measures),)


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
