"""Statements that a field has an amount: the hold-up of supplies is 12 ms, a box is 760 mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import EnergyPack, Supply
from baywright.facts.sections import Line
from baywright.language.claims import Claim, FactClaim
from baywright.language.stated import Stated, line_of
from baywright.language.telling.fields import (
    ALONE,
    FIELDS,
    SAID,
    Field,
    machine_field,
    part_field,
)
from baywright.language.telling.looked_up import Looked, denied, looked_up
from baywright.language.telling.terms import Amount, Bag, Group, NotTold, Term
from baywright.units import Quantity, UnitError

PAIRS = {
    "rails": ("rails_from", "rails_to"), "mass": ("mass_empty", "mass_most"),
    "voltages": ("full", "empty"),
}  # fmt: skip
"""Fields that are the two ends of what one word names."""

BY_STATE = {
    ("mass", "empty"): "mass_empty", ("mass", "loaded"): "mass_most",
    ("noise", "idle"): "noise_idle", ("noise", "full"): "noise_full",
}  # fmt: skip
STATES = {"mass": ("empty", "loaded"), "noise": ("idle", "full")}


@dataclass(frozen=True)
class Amounts:
    """Reads statements of amounts.

    Args:
        book: the book.
    """

    book: Book

    def read(self, bag: Bag) -> list[Claim]:
        """Return the claims of a statement of one or more amounts.

        Raises:
            NotTold: when it is none.
        """
        if bag.has("neg") and not bag.has("act", "exceed"):
            raise NotTold
        below = bag.took("neg", "") and bag.took("act", "exceed")
        owner = self._owner(bag)
        words, used = self._words(bag), set[str]()
        bridged = any(term.has("hint", "hold_up") for term in words)
        claims: list[Claim] = []
        while bag.has("amount"):
            claims.append(self._claim(bag, owner, words, used, below=below or bridged))
        if any(not _used(term, used) for term in words):
            raise NotTold
        names = [fact.name for claim in claims for fact in claim.facts]
        if not claims or len(set(names)) < len(names):
            raise NotTold  # two amounts of one field belong to two clauses
        bag.done(
            "filler", "modal=can", "join=and|comma|but", "between", "to", "quant", "one", "only"
        )
        return [*claims, *_so_many(owner)]

    def full_rating(self, bag: Bag) -> list[Claim]:
        """Read whether supplies keep their full rating on a line."""
        kept = bag.took("full_rating")
        reduced = bag.took("reduced") if not kept else False
        owner = self._owner(bag)
        if not (kept or reduced) or owner is None or owner.thing.name != "supply":
            raise NotTold
        refused = bag.took("neg")
        every = bag.took("volts", "any")
        line = "" if every else self._line(bag)
        bag.done("be", "filler", "hint=rating", "modal=can", "only", "quant")
        if not line and not every:
            raise NotTold
        found = [
            pair for name, part in self._supplies(owner) for pair in _of_full(name, part, line)
        ]
        claim = looked_up("rating", found, "full")
        return [denied(claim) if refused != reduced else claim]

    def lines(self, bag: Bag) -> list[Claim]:
        """Read the ranges of voltage the machine runs on."""
        groups: list[Group] = bag.all("group")
        if any(g.thing.name != "supply" or g.thing.part or g.count is not None for g in groups):
            raise NotTold
        wanted = []
        while _has_dimension(bag, "voltage"):
            wanted.append(bag.amount(("voltage",)))
        currents = set(bag.all("current"))
        only = bag.took("only") or bag.took("need")
        if not wanted or bag.has("neg") or (len(wanted) > 1 and len(currents) == 1):
            raise NotTold
        bag.done("be", "filler", "act=support|feed", "hint=rating", "modal=can", "quant",
                 "join=and|or|comma", "between", "to", "volts")  # fmt: skip
        current = next(iter(currents)) if len(currents) == 1 else ""
        found = [self._on_line(amount, current) for amount in wanted]
        if only and len(wanted) < len(self.book.power.lines):
            raise NotTold
        return [looked_up("lines", found, "so many volts", whole=True)]

    def _on_line(self, amount: Amount, current: str) -> Looked:
        """Return the line that a range or a voltage is of, or all of them where it is of none."""
        lines = [line for line in self.book.power.lines.values() if current in ("", line.current)]
        low, high = (Quantity(v, amount.unit) for v in (min(amount.values), max(amount.values)))
        if amount.op:
            return self._to_or_from(amount.op, low)
        if len(amount.values) > 1 and not amount.ends:
            raise NotTold
        for line in lines:
            ends = (line.volts_from.known, line.volts_to.known)
            if (low, high) == ends or (low == high and ends[0] <= low <= ends[1]):
                return _line_stated(line), True
            if low < high and ends[0] <= low and high <= ends[1]:
                raise NotTold  # a part of what the line takes
        everything = list(self.book.power.lines.values())
        return _line_stated(everything[0]), False

    def _to_or_from(self, op: str, volts: Quantity) -> Looked:
        """Return whether a voltage is the lowest the machine takes, or the highest."""
        lines = list(self.book.power.lines.values())
        lowest = min(lines, key=lambda line: line.volts_from.known.canonical)
        highest = max(lines, key=lambda line: line.volts_to.known.canonical)
        if op == ">=":
            return _line_stated(lowest), lowest.volts_from.known == volts
        if op in ("up", "<="):
            return _line_stated(highest), highest.volts_to.known == volts
        raise NotTold

    def _owner(self, bag: Bag) -> Group | None:
        groups: list[Group] = bag.all("group")
        each = bag.has("quant", "every")
        if len(groups) > 1 or any(_number(g) and not (each or g.every) for g in groups):
            raise NotTold
        if not groups or (groups[0].thing.name == "fan" and _has_dimension(bag, "sound")):
            return None
        every = bag.has("quant", "every") or groups[0].every
        return replace(groups[0], every=every)

    def _words(self, bag: Bag) -> list[Term]:
        """Take the words for fields out; verbs that may mean one come last."""
        held = [t for t in bag.terms if t.has("field") or t.has("hint")]
        bag.terms = [t for t in bag.terms if t not in held]
        return sorted(held, key=lambda term: not term.has("field"))

    def _claim(self, bag: Bag, owner: Group | None, words: list[Term], used: set[str],
               *, below: bool) -> Claim:  # fmt: skip
        for term in words:
            for word in (*term.senses.get("field", ()), *term.senses.get("hint", ())):
                for name in self._names(bag, word, owner):
                    if _fits(bag, FIELDS[name]):
                        used.add(word)
                        return self._of_field(bag, name, owner, word, below=below)
        return self._alone(bag, owner, below=below)

    def _names(self, bag: Bag, word: str, owner: Group | None) -> Iterator[str]:
        """Yield the fields a word may mean for its owner."""
        ends = any(a.ends for t in bag.terms for a in t.senses.get("amount", ()))
        ops = {a.op for t in bag.terms for a in t.senses.get("amount", ())}
        if owner is None and ends and word in PAIRS:
            yield PAIRS[word][0]
        elif owner is None and word == "mass" and not bag.has("state"):
            yield from ("mass_most",) if ops <= {"up", "<="} else ()
            yield from ("mass_empty",) if ops == {">="} else ()
        elif owner is None and word == "rails":
            yield from ("rails_to",) if ops <= {"up", "<="} else ()
            yield from ("rails_from",) if ops == {">="} else ()
        elif owner is None and word in STATES:
            state = next((s for s in STATES[word] if bag.has("state", s)), "")
            yield from (n for n in [BY_STATE.get((word, state), "")] if n)
        for name in SAID.get(word, (word,)):
            if name in FIELDS and self._has(name, owner):
                yield name

    def _has(self, name: str, owner: Group | None) -> bool:
        kinds = FIELDS[name].kinds
        if owner is None:
            return not kinds or FIELDS[name].usual
        return owner.thing.name in kinds

    def _alone(self, bag: Bag, owner: Group | None, *, below: bool) -> Claim:
        """Return the claim of an amount without a word for its field."""
        at = bag.where("amount")
        term = bag.terms[at if at is not None else 0]
        for dimension in term.senses["dimension"]:
            name = (
                ALONE.get((owner.thing.name, dimension)) if owner else _of_machine(bag, dimension)
            )
            if name:
                word = {"full": "voltages", "height": ""}.get(name, "")
                return self._of_field(bag, name, owner, word, below=below)
        raise NotTold

    def _of_field(
        self, bag: Bag, name: str, owner: Group | None, word: str, *, below: bool
    ) -> Claim:
        held = FIELDS[name]
        amount = bag.amount(_dimensions(held))
        if below and amount.op in ("", "up"):
            amount = replace(amount, op="<=" if name != "hold_up" else ">=")
        if word in STATES and owner is None:
            for state in STATES[word]:
                if name == BY_STATE.get((word, state)):
                    bag.took("state", state)
        if "voltage" in _dimensions(held) and word != "voltages":
            raise NotTold
        if amount.ends or (word in PAIRS and len(amount.values) == 2):
            return self._ends(word, amount)
        found = self._stated(bag, name, owner)
        if name == "efficiency" and bag.took("best") and amount.op == "":
            amount = replace(amount, op="up")
        if name.startswith("noise"):
            self._distance(bag)
        return amount_claim(name, found, amount, owner)

    def _distance(self, bag: Bag) -> None:
        """Take the distance of a noise out; it has to be the one it is stated for."""
        held = self.book.air.noise_distance
        if held is None or not _has_dimension(bag, "length"):
            return
        said = bag.amount(("length",))
        if said.op or Quantity(said.values[0], said.unit) != held.known:
            raise NotTold
        bag.took("distance")

    def _ends(self, word: str, amount: Amount) -> Claim:
        """Return the claim that a range has two ends that the book states."""
        pair = PAIRS.get(word)
        if pair is None or len(amount.values) != 2 or amount.op:
            raise NotTold
        values = sorted(amount.values) if word != "voltages" else list(amount.values)
        if word == "voltages":
            values = sorted(values, reverse=True)
        claims = []
        for name, value in zip(pair, values, strict=True):
            found = self._fields(name, None)
            claims.append(FactClaim(name, tuple(_some(found)), "==", (value,), amount.unit))
        return Claim("fact", facts=tuple(claims))

    def _fields(self, name: str, owner: Group | None) -> list[Stated]:
        held = FIELDS[name]
        if not held.kinds:
            return machine_field(self.book, held)
        parts = owner.parts if owner else tuple(self.book.parts_of(*held.kinds))
        return part_field(self.book, held, parts)

    def _stated(self, bag: Bag, name: str, owner: Group | None) -> list[Stated]:
        if name == "rating":
            return self._ratings(bag, owner)
        if name == "efficiency":
            return self._efficiency(bag, owner)
        found = self._fields(name, owner)
        if name == "life":
            self._life_at(bag)
        if name == "failure_rate":
            bag.all("year")
        return found

    def _supplies(self, owner: Group | None) -> Iterator[tuple[str, Supply]]:
        for name, part in self.book.parts.items():
            if isinstance(part, Supply) and (owner is None or name in owner.parts):
                yield name, part

    def _ratings(self, bag: Bag, owner: Group | None) -> list[Stated]:
        line = self._line(bag)
        return [
            Stated(f"parts.{name}.ratings.{key}", rating.known, part.name, (rating,))
            for name, part in self._supplies(owner)
            for key, rating in part.ratings.items()
            if line in ("", key)
        ]

    def _line(self, bag: Bag) -> str:
        """Take the line that is named out: by a word, or by a voltage."""
        volts = bag.take("volts")
        if volts in self.book.power.lines:
            return str(volts)
        try:
            amount = bag.amount(("voltage",))
        except NotTold:
            return ""
        found = line_of(self.book, f"voltage == {amount.values[0]} {amount.unit}")
        if len(amount.values) != 1 or not found:
            raise NotTold
        return found

    def _efficiency(self, bag: Bag, owner: Group | None) -> list[Stated]:
        load = self._load(bag)
        return [
            Stated(f"parts.{name}.efficiency.{key}", share.known, part.name, (share,))
            for name, part in self._supplies(owner)
            for key, share in part.efficiency.items()
            if load in ("any", key.partition(" ")[0])
        ]

    def _load(self, bag: Bag) -> str:
        """Take the load out: the amount of per cent beside it, or a word for one."""
        load = bag.take("load")
        if load is None:
            return "any"
        if load:
            return str(load)
        amount = bag.amount(("ratio",))
        return str(amount.values[0])

    def _life_at(self, bag: Bag) -> None:
        """Take the temperature of a life out; it has to be the one the life is stated for."""
        if not any("temperature" in t.senses.get("dimension", ()) for t in bag.terms):
            return
        wanted = bag.amount(("temperature",))
        packs = [p for p in self.book.parts.values() if isinstance(p, EnergyPack)]
        held = {p.life_temperature.known for p in packs if p.life_temperature}
        if held != {Quantity(wanted.values[0], wanted.unit, "temperature")}:
            raise NotTold


_GO_TOGETHER = {
    "life": {"inrush", "hold_up", "cover_off"},
    "flush_size": {"flush_rate"},
    "flush_rate": {"flush_size"},
    "power": {"inrush", "inlet_current", "surge", "base", "tdp"},
}
"""Verbs for one field that are used of others too, which have a word of their own."""


def _used(term: Term, used: set[str]) -> bool:
    """Say whether a word for a field has its part in a claim."""
    if term.has("filler") or term.has("stop"):
        return True
    words = {*term.senses.get("field", ()), *term.senses.get("hint", ())}
    return bool(words & used) or any(_GO_TOGETHER.get(word, set()) & used for word in words)


def _number(group: Group) -> bool:
    return group.count not in (None, 1) or bool(group.op)


def _so_many(owner: Group | None) -> list[Claim]:
    """Return the claim that there are as many parts as the sentence names beside an amount."""
    if owner is None or not _number(owner) or not owner.thing.expression:
        return []
    if owner.op:
        raise NotTold
    return [Claim("always", (f"{owner.thing.expression} == {owner.count}",))]


def _has_dimension(bag: Bag, dimension: str) -> bool:
    return any(dimension in term.senses.get("dimension", ()) for term in bag.terms)


def _line_stated(line: Line) -> Stated:
    facts = (line.volts_from, line.volts_to)
    text = f"{facts[0].text} to {facts[1].text} {line.current}"
    return Stated(f"power.lines ({line.name})", text, line.name, facts)


def _of_full(name: str, part: Supply, line: str) -> Iterator[Looked]:
    most = max(rating.known for rating in part.ratings.values())
    for key, rating in part.ratings.items():
        if line in ("", key):
            path = f"parts.{name}.ratings.{key}"
            yield Stated(path, rating.known, part.name, (rating,)), rating.known == most


def _fits(bag: Bag, held: Field) -> bool:
    wanted = _dimensions(held)
    return any(set(wanted) & set(term.senses.get("dimension", ())) for term in bag.terms)


def _dimensions(held: Field) -> tuple[str, ...]:
    return ("capacity", "memory") if held.dimension == "capacity" else (held.dimension,)


def _of_machine(bag: Bag, dimension: str) -> str:
    """Return the field of the machine that an amount and a state speak of."""
    word = {"mass": "mass", "sound": "noise"}.get(dimension, "")
    for state in STATES.get(word, ()):
        if bag.took("state", state):
            return BY_STATE[word, state]
    at = bag.where("amount")
    unit = bag.terms[at].senses["amount"][0].unit if at is not None else ""
    return "height" if unit == "U" else ""


def _some(found: Sequence[Stated]) -> Sequence[Stated]:
    if not found:
        raise NotTold
    return found


def amount_claim(
    name: str, found: Sequence[Stated], amount: Amount, owner: Group | None = None
) -> Claim:
    """Return the claim that what is stated has an amount.

    Raises:
        NotTold: when nothing is stated, or the amount is vague or a loose limit.
    """
    if amount.op in ("~", "most", "least") or amount.ends:
        raise NotTold
    if amount.op in ("<=", ">=") and _loose(_some(found), amount):
        raise NotTold
    every = bool(owner and owner.every)
    whose = owner.thing.many if owner else ""
    op = amount.op or "=="
    held = FactClaim(
        name, tuple(_some(found)), op, amount.values, amount.unit, whose=whose, every=every
    )
    return Claim("fact", facts=(held,))


def _loose(found: Sequence[Stated], amount: Amount) -> bool:
    """Say whether a limit holds but is not reached, so that it says less than is so."""
    values = [_difference(each.value, amount) for each in found]
    sign = 1 if amount.op == "<=" else -1
    return all(v is not None and v * sign < 0 for v in values)


def _difference(value: object, amount: Amount) -> Fraction | None:
    wanted = amount.values[0]
    if isinstance(value, Fraction):
        return value - (wanted / 100 if amount.unit == "%" else wanted)
    if not isinstance(value, Quantity):
        return None
    try:
        return value.canonical - Quantity(wanted, amount.unit, value.dimension).canonical
    except UnitError:
        return None
