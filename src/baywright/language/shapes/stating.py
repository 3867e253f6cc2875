"""Clauses about what a book states: sizes, weights, fields of parts, features, generations."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.places import Slot
from baywright.language.claims import Claim, FactClaim, Mode
from baywright.language.frames import Frame
from baywright.language.nouns import ANYTHING
from baywright.language.shapes.items import Items, NoItem, mixed
from baywright.language.stated import (
    Stated,
    drive_link_rates,
    features,
    generations,
    port_speeds,
    stated,
)
from baywright.language.things import Condition, Measure, Thing
from baywright.units import Quantity, UnitError

Builder = Callable[["Statings", Frame, "re.Match[str]"], Sequence[Claim]]

ADJECTIVES = {"deep": "depth", "tall": "height", "wide": "width"}
VERB_FIELDS = {"draw": "power", "cost": "price"}


@dataclass(frozen=True)
class Statings:
    """Builds claims about what a book states.

    Args:
        book: the book.
    """

    book: Book

    def field(self, name: str, owner: Thing | None, frame: Frame, wanted: Measure) -> Claim:
        """Return the claim that a field has a value.

        Raises:
            NoItem: when the book states no such field, or the claim is vague.
        """
        found = stated(self.book, name, owner, frame.condition)
        return self.fact(name, found, wanted, frame, owner.many if owner else "")

    def fact(
        self, name: str, found: Sequence[Stated], wanted: Measure, frame: Frame, whose: str = ""
    ) -> Claim:
        """Return the claim that what is stated has a value."""
        if not found or wanted.op in ("~", "most", "least") or not wanted.values:
            raise NoItem
        op = wanted.op or "=="
        held = FactClaim(name, tuple(found), op, wanted.values, wanted.unit, whose=whose)
        given = tuple(text for text in frame.given if not _line_only(text, name))
        condition = frame.condition
        if condition.altitude or (condition.inlet and not _at_life(found, condition.inlet)):
            raise NoItem
        if frame.sides or frame.at or (given and not all("processors" in t for t in given)):
            raise NoItem
        return Claim("fact", facts=(held,))


def _at_life(found: Sequence[Stated], inlet: str) -> bool:
    """Say whether a temperature is the one that a life is stated for."""
    texts = [each.note for each in found]
    return bool(texts) and all(text == inlet for text in texts)


def _line_only(text: str, name: str) -> bool:
    """Say whether a condition names a line, for which a rating was looked up."""
    return name == "rating" and text.startswith(("line ==", "voltage =="))


def _piece(frame: Frame, match: re.Match[str], name: str) -> Measure:
    measures = frame.pieces[match.start(name)].value
    if len(measures) != 1 or measures[0].quant == "no":
        raise NoItem
    found: Measure = measures[0]
    return found


def _sized(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine is so deep."""
    pieces = frame.pieces[match.start("sizes") : match.end("sizes")]
    return [
        statings.field(ADJECTIVES[adjective.value], None, frame, measure)
        for amount, adjective in zip(pieces[::2], pieces[1::2], strict=True)
        for measure in amount.value
    ]


def _weighs(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Something weighs, draws or costs so much."""
    verb = frame.pieces[match.start("verb")].value
    wanted = _piece(frame, match, "amount")
    owner = _piece(frame, match, "owner").thing if match["owner"] == "T" else None
    if match["not"]:
        raise NoItem
    if verb == "weigh":
        return [statings.field("mass", owner, frame, wanted)]
    if owner is not None and owner.sort == "parts":
        name = VERB_FIELDS[verb]
        return [statings.field(name, owner, frame, wanted)]
    if owner is not None:
        raise NoItem
    return [_of_number("load" if verb == "draw" else "price", wanted, frame, can=bool(match["can"]))]


def _of_number(name: str, wanted: Measure, frame: Frame, *, can: bool) -> Claim:
    """Return the claim that a number of builds has a value."""
    if name == "memory" and wanted.unit == "MT/s":
        name = "memory_speed"
    if wanted.op in ("~", "most", "least") or len(wanted.values) != 1:
        raise NoItem
    condition = frame.condition
    site = {"altitude": condition.altitude, "inlet": condition.inlet}
    measure = Measure(Thing("number", name, "", ""), wanted.op, wanted.values, wanted.unit)
    if wanted.op in ("<=", ">=", "up"):
        mode: Mode = "least" if wanted.op == ">=" else "most"
        return Claim(mode, (), frame.given, name, wanted.values[0], wanted.unit,
                     measures=(measure,), **site)  # fmt: skip
    mode = "can" if can else "always"
    return Claim(mode, measure.alternatives, frame.given, measures=(measure,), **site)


def _equals(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A number, a field or a feature is, or goes up to, an amount or a number."""
    subject, wanted = _piece(frame, match, "subject"), _piece(frame, match, "amount")
    thing = subject.thing
    if match["not"] and thing.sort == "number" and wanted.op in ("<", ">") and not subject.values:
        op = ">=" if wanted.op == "<" else "<="
        return [_of_number(thing.name, replace(wanted, op=op), frame, can=False)]
    if match["not"] or subject.values:
        raise NoItem
    if thing.sort == "number":
        return _number_is(subject, wanted, frame, grows=match["verb"] == "K" or bool(match["can"]))
    if thing.sort == "field":
        return [statings.field(thing.name, None, frame, wanted)]
    if thing.sort == "feature":
        return [_feature(statings, replace(wanted, thing=thing), frame)]
    return [_rated(statings, thing, wanted, frame)]


def _bounded(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A number stays below, or never exceeds, an amount."""
    if _piece(frame, match, "amount").op not in ("<", ">"):
        raise NoItem
    return _equals(statings, frame, match)


def _number_is(subject: Measure, wanted: Measure, frame: Frame, *, grows: bool) -> list[Claim]:
    name = subject.thing.name
    if bool(wanted.unit) != bool(subject.thing.dimension):
        raise NoItem
    if subject.op in ("most", "least"):
        op = "<=" if subject.op == "most" else ">="
        return [_of_number(name, replace(wanted, op=op), frame, can=False)]
    if grows and wanted.op in ("", "up"):
        op = "up" if "K" in frame.letters and len(wanted.values) == 1 else ""
        found = [replace(wanted, op=op, values=(value,)) for value in wanted.values]
        return [_of_number(name, each, frame, can=True) for each in found]
    if len(wanted.values) > 1:
        found = [replace(wanted, op="", values=(value,)) for value in wanted.values]
        every = Measure(subject.thing, "", wanted.values, wanted.unit)
        among = f"({' or '.join(every.alternatives)})"
        return [
            *(_of_number(name, each, frame, can=True) for each in found),
            Claim("always", (among,), frame.given, measures=(every,)),
        ]
    return [_of_number(name, wanted, frame, can=False)]


_RATE_FIELD = {
    ("supply", "power"): "rating", ("processor", "power"): "tdp", ("fan", "flow"): "flow",
    ("network", "data_rate"): "speed", ("memory", "transfer_rate"): "speed",
    ("accelerator", "power"): "power", ("drive", "power"): "power", ("card", "power"): "power",
    ("drive", "capacity"): "capacity", ("memory", "capacity"): "capacity",
    ("controller", "power"): "power", ("pack", "time"): "life", ("fan", "power"): "power",
}  # fmt: skip
"""The field of a kind of part that an amount alone speaks of."""


def _rated(statings: Statings, thing: Thing, wanted: Measure, frame: Frame) -> Claim:
    """Return the claim that parts or ports are rated at an amount."""
    if wanted.thing is not ANYTHING or not wanted.unit:
        raise NoItem
    if thing.sort == "port":
        found = port_speeds(statings.book, thing)
        return statings.fact("speed", found, wanted, replace(frame, sides=None), thing.many)
    try:
        dimension = Quantity(wanted.values[0], wanted.unit).dimension
    except UnitError as error:
        raise NoItem from error
    name = _RATE_FIELD.get((thing.name, dimension))
    if thing.name == "drive" and dimension == "data_rate":
        interface = next((f.split('"')[1] for f in thing.filters if f.startswith("interface")), "")
        found = drive_link_rates(statings.book, interface)
        return statings.fact("link rate", found, wanted, frame, thing.many)
    if name is None and thing.name in ("network", "fan"):
        own = stated(statings.book, "speed" if thing.name == "network" else "flow", thing, frame.condition)
        return statings.fact("speed", own, wanted, frame, thing.many)
    if name is None:
        raise NoItem
    return statings.field(name, thing, frame, wanted)


def _has_field(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Parts or the machine have a field of an amount."""
    wanted = _piece(frame, match, "field")
    if wanted.thing.sort != "field" or match["not"]:
        raise NoItem
    owner = _piece(frame, match, "subject").thing if match["subject"] == "T" else None
    return [statings.field(wanted.thing.name, owner, frame, wanted)]


def _delivers(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Parts give, move or are rated at an amount."""
    subject, wanted = _piece(frame, match, "subject"), _piece(frame, match, "amount")
    if match["not"] or subject.values or subject.thing.sort == "number":
        raise NoItem
    return [_rated(statings, subject.thing, wanted, frame)]


def _feature(statings: Statings, measure: Measure, frame: Frame) -> Claim:
    thing = measure.thing
    values = measure.values
    condition = frame.condition
    found = features(statings.book, thing, condition)
    if any("processors" not in each for each in frame.given) or frame.at:
        raise NoItem
    if not condition.per and thing.name in _SHARED:
        each = features(statings.book, thing, replace(condition, per="processor"))
        sockets = features(statings.book, replace(thing, name="processor_sockets"), condition)
        alone = any(e.value in values for e in each) and sockets and sockets[0].value != 1
        if alone and not condition.expression and not any(f.value in values for f in found):
            return Claim("fact", open_scope=True)
    if measure.quant == "no" or not values:
        raise NoItem
    kept = replace(frame, conditions=(), sides=None)
    return statings.fact(thing.many, found, replace(measure, values=values), kept)


_SHARED = frozenset({"memory_sockets", "channels", "lanes"})
"""Features counted per processor by some and in the machine by others."""


def _has_feature(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine has so many of a feature."""
    measure = _piece(frame, match, "field")
    if measure.thing.sort != "feature" or match["not"]:
        raise NoItem
    if match["owner"]:
        owner = _piece(frame, match, "owner")
        if owner.thing.name != "processor" or owner.values or owner.quant not in ("", "every"):
            raise NoItem
        frame = replace(frame, conditions=(*frame.conditions, Condition(per="processor")))
    made = [_feature(statings, measure, frame)]
    if measure.thing.generation:
        made.append(_of_generation(statings, measure.thing, measure.thing.generation))
    return made


def _of_generation(statings: Statings, thing: Thing | None, wanted: str) -> Claim:
    subject = "memory" if wanted.startswith("DDR") else "slots"
    if thing is not None and thing.name == "lanes":
        subject = "lanes"
    found = tuple(
        Stated(path, value, statings.book.book.name)
        for path, value in generations(statings.book, subject).items()
    )
    if not found or (thing is not None and thing.name not in _GENERATED):
        raise NoItem
    held = FactClaim(f"generation of {subject}", found, word=wanted)
    return Claim("generation", facts=(held,))


_GENERATED = frozenset({"memory", "slots", "lanes"})


def _generation(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Memory, slots or lanes are of a generation."""
    if frame.given or frame.at:
        raise NoItem
    wanted = frame.pieces[match.start("generation")].value
    thing = None
    if match["subject"] and match["subject"] == "T":
        subject = _piece(frame, match, "subject")
        thing = subject.thing
        if subject.values and thing.sort == "feature":
            made = _feature(statings, subject, frame)
            return [made, _of_generation(statings, thing, wanted)]
        if subject.values or thing.filters or thing.part:
            raise NoItem
    elif frame.conditions:
        raise NoItem
    return [_of_generation(statings, thing, wanted)]


def _generation_of_thing(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine uses memory of a generation; it has slots of one."""
    measure = _piece(frame, match, "field")
    thing = measure.thing
    if not thing.generation or frame.conditions or match["not"]:
        raise NoItem
    if measure.values or thing.filters or thing.part:
        raise NoItem
    return [_of_generation(statings, thing, thing.generation)]


def _mixed(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Parts of a kind are mixed, or two parts are combined."""
    if "u" in frame.letters and not match["not"]:
        raise NoItem
    piece = frame.pieces[match.start("list")]
    measures = [m for p in frame.pieces if p.letter == "T" for m in p.value]
    mode: Mode = "never" if match["not"] else "can"
    if len(measures) == 1 and piece.letter == "T" and not measures[0].values:
        expression = mixed(statings.book, measures[0].thing.name)
        if not expression or measures[0].thing.part:
            raise NoItem
        return [Claim(mode, (expression,), frame.given)]
    items = Items(statings.book).of(
        [replace(piece, value=(measure,)) for measure in measures], frame
    )
    if any(len(item.terms) > 1 or item.limit or item.denied for item in items):
        raise NoItem
    terms = tuple(item.terms[0] for item in items)
    if any(item.measure is not None and item.measure.values for item in items):
        return [Claim(mode, terms, frame.given)]
    return [Claim(mode, terms[:1], (*terms[1:], *frame.given))]


def _extreme(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """So many are the most of something."""
    wanted, measure = _piece(frame, match, "amount"), _piece(frame, match, "list")
    thing = Items(statings.book).located(measure, frame).thing
    side = measure.op or frame.pieces[match.start("amount") + 1].value
    if len(wanted.values) != 1 or not thing.expression or measure.values:
        raise NoItem
    mode: Mode = "least" if side == "least" else "most"
    return [Claim(mode, (), frame.given, thing.expression, wanted.values[0], wanted.unit)]


def _most(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A number of something is the most."""
    measure = Items(statings.book).located(_piece(frame, match, "list"), frame)
    side = frame.pieces[match.start("side")].value
    if side not in ("most", "least", "<=", ">=") or len(measure.values) != 1:
        raise NoItem
    mode: Mode = "least" if side in ("least", ">=") else "most"
    expression = measure.thing.expression
    if not expression or measure.op:
        raise NoItem
    value = Fraction(measure.values[0])
    return [Claim(mode, (), frame.given, expression, value, measure.unit, measures=(measure,))]


def _alike(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Parts of a kind are always alike, or need not be."""
    piece = frame.pieces[match.start("list")]
    if piece.letter == "c":
        if piece.value != "processors == 2":
            raise NoItem
        both = mixed(statings.book, "processor")
        return [Claim("can" if match["not"] else "never", (both,), frame.given)]
    thing = _piece(frame, match, "list").thing
    expression = mixed(statings.book, thing.name) if thing.sort == "parts" else ""
    if not expression or thing.part or thing.filters:
        raise NoItem
    return [Claim("can" if match["not"] else "never", (expression,), frame.given)]


def _inlet_type(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Supplies have an inlet of a type."""
    owner = _piece(frame, match, "subject").thing if match["subject"] == "T" else None
    found = stated(statings.book, "inlet", owner, frame.condition)
    if not found or match["not"] or frame.given:
        raise NoItem
    word = frame.pieces[match.start("word")].value
    return [Claim("fact", facts=(FactClaim("inlet", tuple(found), word=word),))]


def _dated(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine or a part ships, is announced or can be ordered, on a day or now."""
    if frame.conditions and frame.given or match["not"] or len(frame.dates) > 1:
        raise NoItem
    part = ""
    if match["subject"] == "T":
        measure = _piece(frame, match, "subject")
        part = measure.thing.part
        if not part or not frame.dates:
            raise NoItem
    verb = frame.pieces[match.start("verb")].value
    date = frame.dates[0].value if frame.dates else None
    event = "announced" if verb == "announce" else "ships"
    if date is not None and date.word == "until":
        event = "last_order"
    elif date is not None and match["still"] and date.word == "on":
        event = "orderable"
    if date is None and event == "announced":
        raise NoItem
    return [
        Claim("date", day=date.day if date else None, event=event, subject=part,
              month_only=bool(date and date.month_only))
    ]  # fmt: skip


def _drive_ports(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Drive ports of a rate."""
    measure = _piece(frame, match, "field")
    if measure.thing.name != "drive_ports" or not measure.unit:
        raise NoItem
    found = drive_link_rates(statings.book, "")
    claim = statings.fact("link rate", found, measure, frame, measure.thing.many)
    return [replace(claim, facts=tuple(replace(fact, some=True) for fact in claim.facts))]


def _interface(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """An interface runs at a rate."""
    path, _, interface = frame.pieces[match.start("field")].value.partition("=")
    if path != "drive.interface":
        raise NoItem
    found = drive_link_rates(statings.book, interface)
    return [statings.fact("link rate", found, _piece(frame, match, "amount"), frame, interface)]


def _loud(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine makes so much noise."""
    wanted = _piece(frame, match, "amount")
    if wanted.unit != "dB(A)":
        raise NoItem
    return [statings.field("noise", None, frame, wanted)]


def _optional(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Something is optional: some builds have it and some have not."""
    items = Items(statings.book).of(frame.pieces[match.start("list") : match.end("list")], frame)
    if match["not"] or any(len(i.terms) != 1 or i.limit or i.denied for i in items):
        raise NoItem
    return [
        Claim("can", (term,), frame.given)
        for item in items
        for term in (item.terms[0], f"not ({item.terms[0]})")
    ]


def _cheapest(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The cheapest build costs so much; the smallest draws less than so much."""
    number = frame.pieces[match.start("which")].value
    wanted = _piece(frame, match, "amount")
    verb = frame.pieces[match.start("verb")].value
    if {"cost": "price", "draw": "load"}.get(verb) != number or len(wanted.values) != 1:
        raise NoItem
    if wanted.op in ("<", "<="):
        op = Measure(Thing("number", number, "", ""), wanted.op, wanted.values, wanted.unit)
        return [Claim("can", op.alternatives, frame.given, measures=(op,))]
    if wanted.op not in ("", "=="):
        raise NoItem
    return [_of_number(number, replace(wanted, op=">="), frame, can=False)]


def _slot_fields(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Slots, or some of them, are of a length, a height, a width or a generation."""
    if frame.given or match["not"]:
        raise NoItem
    if match["subject"] == "P":
        names = frame.pieces[match.start("subject")].value
    else:
        subject = _piece(frame, match, "subject")
        if subject.thing.name != "slots" or subject.thing.filters or subject.values:
            raise NoItem
        names = _card_slots(statings.book)
    claims = []
    for piece in frame.pieces[match.start("fields") : match.end("fields")]:
        if piece.letter == "G":
            field, value = "generation", piece.value
        else:
            path, _, value = piece.value.partition("=")
            kind, _, field = path.partition(".")
            if kind != "slots":
                raise NoItem
        claims.append(_of_slots(statings.book, names, field, value))
    return claims


def _card_slots(book: Book) -> list[str]:
    return [n for n, slot in book.places_of(Slot).items() if "network" not in slot.takes]


def _of_slots(book: Book, names: Sequence[str], field: str, value: str) -> Claim:
    slots = [(name, book.places_of(Slot).get(name)) for name in names]
    found = []
    for name, slot in slots:
        fact = getattr(slot, field, None)
        if slot is None or fact is None:
            raise NoItem
        text = fact if isinstance(fact, str) else fact.text
        facts = () if isinstance(fact, str) else (fact,)
        found.append(Stated(f"places.{name}.{field}", text, slot.name, facts))
    held = FactClaim(f"{field} of slots", tuple(found), word=value)
    return Claim("generation" if field == "generation" else "fact", facts=(held,))


def _everywhere(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Cards of a length in all slots."""
    card, slots = _piece(frame, match, "list"), _piece(frame, match, "field")
    lengths = [f for f in card.thing.filters if f.startswith(("length", "height"))]
    if frame.sides != () or slots.thing.name != "slots" or slots.values or len(lengths) != 1 or card.values:
        raise NoItem
    name, _, value = lengths[0].partition("=")
    found = tuple(
        Stated(f"places.{key}.{name}", fact.text, slot.name, (fact,))
        for key, slot in statings.book.places_of(Slot).items()
        for fact in (getattr(slot, name),)
        if fact is not None
    )
    held = FactClaim(f"{name} of slots", found, word=value.strip('"'), every=True)
    return [Claim("fact", facts=(held,))]


SHAPES: tuple[tuple[str, Builder], ...] = (
    (r"[MO]?B(?P<sizes>(?:Ay)+)", _sized),
    (r"(?P<owner>[MT])?(?P<can>m)?(?P<not>n)?(?P<verb>w)(?P<amount>A)", _weighs),
    (r"(?P<subject>T)(?P<can>m)?(?P<not>n)?(?P<verb>[BKDZ])(?P<amount>[AN])", _equals),
    (r"(?P<subject>T)(?P<can>)(?P<not>)(?P<verb>)(?P<amount>A)", _bounded),
    (r"(?P<subject>[MT])(?P<not>n)?[HK](?P<field>T)", _has_field),
    (r"(?P<subject>T)m?(?P<not>n)?[HKBD]Z?(?P<amount>A)", _delivers),
    (r"(?:M|(?P<owner>T))?m?(?P<not>n)?[HKD](?P<field>T)Z?", _has_feature),
    (r"(?P<owner>)(?P<field>T)m?(?P<not>n)?B?Z?", _has_feature),
    (r"(?P<field>T)", _drive_ports),
    (r"(?P<list>[TP](?:&[TP])*)B(?P<not>n)?p", _optional),
    (r"(?P<which>e)M(?P<verb>w)(?P<amount>A)", _cheapest),
    (r"(?P<subject>[TP])(?P<not>n)?[BH](?P<fields>[FG]+)", _slot_fields),
    (r"(?P<subject>[P])(?P<not>n)?B(?P<fields>[FG]+)T", _slot_fields),
    (r"(?P<field>F)[BKD](?P<amount>A)", _interface),
    (r"M?[HB](?P<amount>A)", _loud),
    (r"(?P<subject>[MT])?[HBKD](?P<generation>G)", _generation),
    (r"M?m?(?P<not>n)?[HKB](?P<field>T)Z?", _generation_of_thing),
    (r"(?P<list>T)m?[KZB]*(?P<field>T)", _everywhere),
    (r"M?[um]*(?P<not>n)?x(?P<list>T)(?:&T)*", _mixed),
    (r"(?P<list>T)(?:&T)*V?[um]*(?P<not>n)?B?x", _mixed),
    (r"V(?P<list>T)[um]*(?P<not>n)?B?[Zx]", _mixed),
    (r"(?P<list>T)V[um]*(?P<not>n)?B?Z", _mixed),
    (r"M?[um]*(?P<not>n)?[KHx]V(?P<list>T)", _mixed),
    (r"M?[um]*(?P<not>n)?[KHx](?P<list>T)V", _mixed),
    (r"(?P<list>[Tc])[um]*(?P<not>n)?u?B(?P<all>q)?J", _alike),
    (r"(?P<amount>[NA])Bo?(?P<list>T)(?:M?m?[KHZ])?", _extreme),
    (r"(?P<list>T)(?:m?B|Z)(?P<side>o)(?:M?m?[KHZ])?", _most),
    (r"(?P<subject>[MT])(?P<not>n)?[HB](?P<word>j)T?", _inlet_type),
    (r"(?P<subject>[MT])(?P<still>m)?B?(?P<not>n)?B?(?P<verb>s)", _dated),
    (r"(?P<subject>)(?P<verb>s)(?P<not>)(?P<still>)M", _dated),
)
"""Patterns over letters, each with what it claims."""
