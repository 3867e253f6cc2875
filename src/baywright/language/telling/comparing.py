"""Statements that compare the machine with the one before it or after it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.language.claims import Claim, Comparison, FactClaim
from baywright.language.stated import Stated, features, generations
from baywright.language.telling.fields import FIELDS, machine_field
from baywright.language.telling.looked_up import Looked, looked_up
from baywright.language.telling.terms import Amount, Bag, Group, NotTold
from baywright.language.things import Condition, Thing
from baywright.units import Quantity, UnitError

FILLERS = ("be", "filler", "modal=can", "join=and|comma", "quant", "one", "than", "act=support")

ADJECTIVES: Mapping[str, tuple[str, str]] = {
    "deeper": ("depth", ">"), "shallower": ("depth", "<"), "taller": ("height", ">"),
    "lower": ("height", "<"), "wider": ("width", ">"), "narrower": ("width", "<"),
    "heavier": ("mass", ">"), "lighter": ("mass", "<"), "louder": ("noise", ">"),
    "quieter": ("noise", "<"),
}  # fmt: skip
"""Comparatives, by the field they compare and how."""

OPS = {"more": ">", "less": "<", "same": "==", "faster": ">", "slower": "<"}
TURNED = {">": "<", "<": ">", "==": "==", ">=": "<=", "<=": ">="}
FACTORS = {"twice": Fraction(2), "half_of": Fraction(1, 2), "three": Fraction(3)}
STATE_FIELDS = {
    ("mass", "empty"): "mass_empty", ("mass", "loaded"): "mass_most",
    ("noise", "idle"): "noise_idle", ("noise", "full"): "noise_full",
}  # fmt: skip


@dataclass(frozen=True)
class Comparing:
    """Reads comparisons of machines.

    Args:
        book: the book.
        related: books of the machines it is compared with, by id.
    """

    book: Book
    related: Mapping[str, Book]

    def compared(self, bag: Bag) -> list[Claim]:
        """Read that the machine has more, less or as much of something as another."""
        other, turned = self._other(bag)
        op, factor, field = self._how(bag)
        if bag.took("neg"):
            op = {">": "<=", "<": ">=", "==": ""}[op]
        if not op or bag.has("neg"):
            raise NotTold
        if turned:
            op, factor = TURNED[op], 1 / factor
        return [self._claim(bag, other, op, factor, field)]

    def _other(self, bag: Bag) -> tuple[str, bool]:
        """Take the other machine out; say whether it is the one that is spoken of."""
        at, than = bag.where("other"), self._than(bag)
        if at is None or than is None:
            raise NotTold
        subject = at < than and bag.terms[at].text not in ("",)
        machine = bag.where("machine")
        turned = subject and machine is not None and machine > than
        found = bag.all("other")
        if len(set(found)) != 1 or (subject and not turned and machine is None):
            raise NotTold
        return str(found[0]), turned

    def _than(self, bag: Bag) -> int | None:
        """Return the position of the last word such as than."""
        places = [i for i, term in enumerate(bag.terms) if term.has("than")]
        return places[-1] if places else None

    def _how(self, bag: Bag) -> tuple[str, Fraction, str]:
        """Take the words that compare out: the operator, a factor, the field of an adjective."""
        words = [w for t in bag.terms if t.has("compare") for w in t.senses["compare"]]
        bag.terms = [term for term in bag.terms if not term.has("compare")]
        chosen = [word for word in words if word != "same"] or words[:1]
        if len(set(chosen)) != 1:
            raise NotTold
        word = chosen[0]
        if word in FACTORS:
            return "==", FACTORS[word], ""
        if word in ADJECTIVES:
            return ADJECTIVES[word][1], Fraction(1), ADJECTIVES[word][0]
        return OPS[word], Fraction(1), "speed" if word in ("faster", "slower") else ""

    def _claim(self, bag: Bag, other: str, op: str, factor: Fraction, field: str) -> Claim:
        field = field or self._field(bag)
        if bag.took("figure", "memory_speed"):
            field = "speed"
        difference = self._difference(bag)
        if field:
            return self._of_field(bag, other, op, factor, self._by_state(bag, field), difference)
        thing = self._thing(bag)
        count = self._count(bag, thing)
        bag.done(*FILLERS)
        if difference is not None or (count is not None and (factor != 1 or op in ("==", "<="))):
            raise NotTold
        if isinstance(thing, Thing):
            return self._of_feature(other, thing, op, factor, count)
        return _of_builds(other, thing.thing, op, factor, count)

    def _field(self, bag: Bag) -> str:
        for word in ("depth", "height", "width", "mass", "noise", "speed"):
            if bag.took("field", word) or bag.took("hint", word):
                return word
        return ""

    def _by_state(self, bag: Bag, field: str) -> str:
        if field == "speed":
            return field
        states = [s for f, s in STATE_FIELDS if f == field and bag.has("state", s)]
        if field in ("mass", "noise") and len(states) != 1:
            raise NotTold
        bag.all("state")
        return STATE_FIELDS[field, states[0]] if states else field

    def _difference(self, bag: Bag) -> Amount | None:
        at = bag.where("amount")
        return bag.terms.pop(at).senses["amount"][0] if at is not None else None

    def _of_field(self, bag: Bag, other: str, op: str, factor: Fraction, field: str,
                  difference: Amount | None) -> Claim:  # fmt: skip
        groups: list[Group] = bag.all("group")
        bag.all("figure", "memory")
        bag.all("field", "speed")
        bag.done(*FILLERS)
        if field == "speed":
            if not all(group.thing.name == "memory" and not group.thing.part for group in groups):
                raise NotTold
            pair = [_fastest(book) for book in (self.book, self.related[other])]
        elif groups:
            raise NotTold
        else:
            found = [machine_field(b, FIELDS[field]) for b in (self.book, self.related[other])]
            if not all(found):
                raise NotTold
            pair = [each[0] for each in found]
        so = _holds(pair[0].value, pair[1].value, op, factor, difference)
        looked: list[Looked] = [(each, so) for each in pair]
        return looked_up(field, looked, f"{op} {other}")

    def _thing(self, bag: Bag) -> Thing | Group:
        groups: list[Group] = bag.all("group")
        names = bag.all("feature")
        figure = bag.take("figure")
        if len(groups) + len(names) != 1 or (figure and figure != "memory"):
            if figure and not groups and not names:
                return Group(Thing("number", figure, figure, figure), ())
            raise NotTold
        bag.all("field")
        return groups[0] if groups else Thing("feature", names[0], names[0], names[0])

    def _count(self, bag: Bag, thing: Thing | Group) -> Fraction | None:
        held = thing.count if isinstance(thing, Group) else None
        numbers = bag.all("number")
        if held is not None:
            numbers.append((held,))
        if len(numbers) > 1 or any(len(values) != 1 for values in numbers):
            raise NotTold
        return Fraction(numbers[0][0]) if numbers else None

    def _of_feature(self, other: str, thing: Thing, op: str, factor: Fraction,
                    count: Fraction | None) -> Claim:  # fmt: skip
        pair = []
        for book in (self.book, self.related[other]):
            found = features(book, thing, Condition())
            if len(found) != 1:
                raise NotTold
            pair.append(replace(found[0], owner=book.book.name))
        mine, theirs = (each.value for each in pair)
        if not isinstance(mine, Fraction) or not isinstance(theirs, Fraction):
            raise NotTold
        so = _compare(mine, theirs * factor, op, count)
        return looked_up(thing.name, [(each, so) for each in pair], f"{op} {other}")

    def unlike(self, bag: Bag) -> list[Claim]:
        """Read that the machine has a generation that the other has not, or has too."""
        wanted = bag.take("generation") or bag.take("generation_word")
        other = bag.need("other")
        same = bag.took("quant") or bag.took("compare", "same")
        text = " ".join(term.text.casefold() for term in bag.terms)
        if not wanted or bag.has("neg") or not (same or "unlike" in text or "contrast" in text):
            raise NotTold
        bag.all("group")
        bag.done(*FILLERS, "gen_filler", "feature=slots", "other", "compare=same")
        subject = "memory" if str(wanted).startswith("DDR") else "slots"
        pairs: list[Looked] = []
        for book, has in ((self.book, True), (self.related[other], bool(same))):
            for path, value in generations(book, subject).items():
                pairs.append((Stated(path, value, book.book.name), (value == wanted) == has))
        own = tuple(each for each, _ in pairs if each.owner == self.book.book.name)
        held = FactClaim("generation", own, word=str(wanted))
        others = [pair for pair in pairs if pair[0] not in own]
        return [
            Claim("generation", facts=(held,)),
            looked_up("generation", others, str(wanted), whole=True),
        ]

    def both(self, bag: Bag) -> list[Claim]:
        """Read that both machines have a field of one amount: both are 2U machines."""
        other = bag.need("other")
        if not bag.took("quant", "every") or not bag.has("machine") or bag.has("neg"):
            raise NotTold
        field = self._field(bag)
        amount = bag.amount(("length", "mass", "sound"))
        field = self._by_state(bag, field) if field else ("height" if amount.unit == "U" else "")
        if field not in FIELDS or amount.op or len(amount.values) != 1:
            raise NotTold
        bag.done(*FILLERS)
        looked: list[Looked] = []
        for book in (self.book, self.related[other]):
            for each in machine_field(book, FIELDS[field]):
                wanted = Quantity(amount.values[0], amount.unit)
                looked.append((each, each.value == wanted))
        return [looked_up(field, looked, f"{amount.values[0]} {amount.unit}", whole=True)]


def _fastest(book: Book) -> Stated:
    speeds = [entry.speed for entry in book.memory.speeds] if book.memory else []
    if not speeds:
        raise NotTold
    best = max(speeds, key=lambda fact: fact.known.canonical)
    return Stated(best.path, best.known, book.book.name, (best,))


def _holds(
    mine: object, theirs: object, op: str, factor: Fraction, difference: Amount | None
) -> bool:
    if not isinstance(mine, Quantity) or not isinstance(theirs, Quantity):
        raise NotTold
    apart = None
    if difference is not None:
        if len(difference.values) != 1 or difference.op or factor != 1 or op not in (">", "<"):
            raise NotTold
        try:
            apart = Quantity(difference.values[0], difference.unit, mine.dimension).canonical
        except UnitError as error:
            raise NotTold from error
    return _compare(mine.canonical, theirs.canonical * factor, op, apart)


def _compare(mine: Fraction, theirs: Fraction, op: str, apart: Fraction | None) -> bool:
    if apart is not None:
        return mine - theirs == (apart if op == ">" else -apart)
    return {
        ">": mine > theirs, "<": mine < theirs, "==": mine == theirs,
        ">=": mine >= theirs, "<=": mine <= theirs,
    }[op]  # fmt: skip


def _of_builds(
    other: str, thing: Thing, op: str, factor: Fraction, count: Fraction | None
) -> Claim:
    """Return the claim that the most of something compares so."""
    if thing.part or not thing.expression:
        raise NotTold
    return Claim(
        "compare", number=thing.expression, comparison=Comparison(other, op, factor, count)
    )
