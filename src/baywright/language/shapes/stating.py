"""Clauses about what a book states: sizes, weights, fields of parts, features, generations."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.book import Book
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
from baywright.language.things import Measure, Thing
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
        op = {"up": "==", "": "=="}.get(wanted.op, wanted.op)
        held = FactClaim(name, tuple(found), op, wanted.values, wanted.unit, whose=whose)
        given = tuple(text for text in frame.given if not _line_only(text, found))
        if frame.sides or frame.at or (given and not all("processors" in t for t in given)):
            raise NoItem
        return Claim("fact", facts=(held,))


def _line_only(text: str, found: Sequence[Stated]) -> bool:
    return text.startswith(("line ==", "voltage ==")) and any(each.given for each in found)


def _piece(frame: Frame, match: re.Match[str], name: str) -> Measure:
    measures = frame.pieces[match.start(name)].value
    if len(measures) != 1:
        raise NoItem
    found: Measure = measures[0]
    return found


def _sized(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine is so deep."""
    adjective = frame.pieces[match.start("adjective")].value
    wanted = _piece(frame, match, "amount")
    return [statings.field(ADJECTIVES[adjective], None, frame, wanted)]


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
    if match["not"] or subject.values:
        raise NoItem
    thing = subject.thing
    if thing.sort == "number":
        return _number_is(subject, wanted, frame, grows=match["verb"] == "K" or bool(match["can"]))
    if thing.sort == "field":
        return [statings.field(thing.name, None, frame, wanted)]
    if thing.sort == "feature":
        return [_feature(statings, replace(wanted, thing=thing), frame)]
    return [_rated(statings, thing, wanted, frame)]


def _number_is(subject: Measure, wanted: Measure, frame: Frame, *, grows: bool) -> list[Claim]:
    name = subject.thing.name
    if bool(wanted.unit) != bool(subject.thing.dimension):
        raise NoItem
    if subject.op in ("most", "least"):
        op = "<=" if subject.op == "most" else ">="
        return [_of_number(name, replace(wanted, op=op), frame, can=False)]
    if grows and wanted.op in ("", "up"):
        found = [replace(wanted, op="", values=(value,)) for value in wanted.values]
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
    if thing.name == "drive" and dimension in ("data_rate", "capacity"):
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
    if measure.quant == "no" or not values:
        raise NoItem
    kept = replace(frame, conditions=(), sides=None)
    return statings.fact(thing.many, found, replace(measure, values=values), kept)


def _has_feature(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine has so many of a feature."""
    measure = _piece(frame, match, "field")
    if measure.thing.sort != "feature" or match["not"]:
        raise NoItem
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
    if frame.conditions or frame.at:
        raise NoItem
    wanted = frame.pieces[match.start("generation")].value
    thing = None
    if match["subject"] and match["subject"] == "T":
        thing = _piece(frame, match, "subject").thing
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
    return [Claim(mode, tuple(item.terms[0] for item in items), frame.given)]


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


SHAPES: tuple[tuple[str, Builder], ...] = (
    (r"(?P<owner>[MO])?B(?P<amount>A)(?P<adjective>y)", _sized),
    (r"(?P<owner>[MT])?(?P<can>m)?(?P<not>n)?(?P<verb>w)(?P<amount>A)", _weighs),
    (r"(?P<subject>T)(?P<can>m)?(?P<not>n)?(?P<verb>[BK])(?P<amount>[AN])", _equals),
    (r"(?P<subject>[MT])(?P<not>n)?[HK](?P<field>T)", _has_field),
    (r"(?P<subject>T)m?(?P<not>n)?[HKBD]Z?(?P<amount>A)", _delivers),
    (r"M?(?P<not>n)?H(?P<field>T)Z?", _has_feature),
    (r"(?P<subject>[MT])?[HBKD](?P<generation>G)", _generation),
    (r"M?m?(?P<not>n)?[HKB](?P<field>T)Z?", _generation_of_thing),
    (r"M?[um]*(?P<not>n)?x(?P<list>T)(?:&T)*", _mixed),
    (r"(?P<list>T)(?:&T)*[um]*(?P<not>n)?B?x", _mixed),
    (r"(?P<amount>[NA])Bo?(?P<list>T)(?:M?m?[KHZ])?", _extreme),
    (r"(?P<list>T)(?:m?B|Z)(?P<side>o)(?:M?m?[KHZ])?", _most),
)
"""Patterns over letters, each with what it claims."""
