"""Clauses that count features of a machine, or give the generation and length of its slots."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from baywright.facts.book import Book
from baywright.facts.places import Slot
from baywright.language.claims import Claim, FactClaim
from baywright.language.frames import Frame
from baywright.language.shapes.facts import Builder, Statings, measure_of
from baywright.language.shapes.items import NoItem
from baywright.language.stated import (
    Stated,
    features,
    generations,
)
from baywright.language.things import Condition, Measure, Thing


def feature(statings: Statings, measure: Measure, frame: Frame) -> Claim:
    """Return the claim that there are so many of a feature.

    Raises:
        NoItem: when that cannot be counted as it is asked.
    """
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
    measure = measure_of(frame, match, "field")
    if measure.thing.sort != "feature" or match["not"]:
        raise NoItem
    if match["owner"]:
        owner = measure_of(frame, match, "owner")
        if owner.thing.name != "processor" or owner.values or owner.quant not in ("", "every"):
            raise NoItem
        frame = replace(frame, conditions=(*frame.conditions, Condition(per="processor")))
    made = [feature(statings, measure, frame)]
    if measure.thing.generation:
        made.append(of_generation(statings, measure.thing, measure.thing.generation))
    return made


def of_generation(statings: Statings, thing: Thing | None, wanted: str) -> Claim:
    """Return the claim that memory, slots or lanes are of a generation.

    Raises:
        NoItem: when the book states none.
    """
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
        subject = measure_of(frame, match, "subject")
        thing = subject.thing
        if subject.values and thing.sort == "feature":
            made = feature(statings, subject, frame)
            return [made, of_generation(statings, thing, wanted)]
        if subject.values or thing.filters or thing.part:
            raise NoItem
    elif frame.conditions:
        raise NoItem
    return [of_generation(statings, thing, wanted)]


def _generation_of_thing(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine uses memory of a generation; it has slots of one."""
    measure = measure_of(frame, match, "field")
    thing = measure.thing
    if not thing.generation or frame.conditions or match["not"]:
        raise NoItem
    if measure.values or thing.filters or thing.part:
        raise NoItem
    return [of_generation(statings, thing, thing.generation)]


def _slot_fields(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Slots, or some of them, are of a length, a height, a width or a generation."""
    if frame.given or match["not"]:
        raise NoItem
    if match["subject"] == "P":
        names = frame.pieces[match.start("subject")].value
    else:
        subject = measure_of(frame, match, "subject")
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
    card, slots = measure_of(frame, match, "list"), measure_of(frame, match, "field")
    lengths = [f for f in card.thing.filters if f.startswith(("length", "height"))]
    if (
        frame.sides != ()
        or slots.thing.name != "slots"
        or slots.values
        or len(lengths) != 1
        or card.values
    ):
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
    (r"(?:M|(?P<owner>T))?m?(?P<not>n)?[HKD](?P<field>T)Z?", _has_feature),
    (r"(?P<owner>)(?P<field>T)m?(?P<not>n)?B?Z?", _has_feature),
    (r"(?P<subject>[TP])(?P<not>n)?[BH](?P<fields>[FG]+)", _slot_fields),
    (r"(?P<subject>[P])(?P<not>n)?B(?P<fields>[FG]+)T", _slot_fields),
    (r"(?P<subject>[MT])?[HBKD](?P<generation>G)", _generation),
    (r"M?m?(?P<not>n)?[HKB](?P<field>T)Z?", _generation_of_thing),
    (r"(?P<list>T)m?[KZB]*(?P<field>T)", _everywhere),
)
"""Patterns over letters, each with what it claims."""
