"""Clauses about sizes, weights, rates and other fields of the machine and its parts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from baywright.language.claims import Claim, FactClaim
from baywright.language.frames import Frame
from baywright.language.nouns import ANYTHING
from baywright.language.shapes.facts import Builder, Statings, measure_of, of_number
from baywright.language.shapes.features import feature
from baywright.language.shapes.items import NoItem
from baywright.language.stated import (
    drive_link_rates,
    port_speeds,
    stated,
)
from baywright.language.things import Measure, Thing
from baywright.units import Quantity, UnitError

ADJECTIVES = {"deep": "depth", "tall": "height", "wide": "width"}


VERB_FIELDS = {"draw": "power", "cost": "price"}


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
    wanted = measure_of(frame, match, "amount")
    owner = measure_of(frame, match, "owner").thing if match["owner"] == "T" else None
    if match["not"]:
        raise NoItem
    if verb == "weigh":
        return [statings.field("mass", owner, frame, wanted)]
    if owner is not None and owner.sort == "parts":
        name = VERB_FIELDS[verb]
        return [statings.field(name, owner, frame, wanted)]
    if owner is not None:
        raise NoItem
    number = "load" if verb == "draw" else "price"
    return [of_number(number, wanted, frame, can=bool(match["can"]))]


def _equals(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A number, a field or a feature is, or goes up to, an amount or a number."""
    subject, wanted = measure_of(frame, match, "subject"), measure_of(frame, match, "amount")
    thing = subject.thing
    if match["not"] and thing.sort == "number" and wanted.op in ("<", ">") and not subject.values:
        op = ">=" if wanted.op == "<" else "<="
        return [of_number(thing.name, replace(wanted, op=op), frame, can=False)]
    if match["not"] or subject.values:
        raise NoItem
    if thing.sort == "number":
        return _number_is(subject, wanted, frame, grows=match["verb"] == "K" or bool(match["can"]))
    if thing.sort == "field":
        return [statings.field(thing.name, None, frame, wanted)]
    if thing.sort == "feature":
        return [feature(statings, replace(wanted, thing=thing), frame)]
    return [_rated(statings, thing, wanted, frame)]


def _bounded(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A number stays below, or never exceeds, an amount."""
    if measure_of(frame, match, "amount").op not in ("<", ">"):
        raise NoItem
    return _equals(statings, frame, match)


def _number_is(subject: Measure, wanted: Measure, frame: Frame, *, grows: bool) -> list[Claim]:
    name = subject.thing.name
    if bool(wanted.unit) != bool(subject.thing.dimension):
        raise NoItem
    if subject.op in ("most", "least"):
        op = "<=" if subject.op == "most" else ">="
        return [of_number(name, replace(wanted, op=op), frame, can=False)]
    if grows and wanted.op in ("", "up"):
        op = "up" if "K" in frame.letters and len(wanted.values) == 1 else ""
        found = [replace(wanted, op=op, values=(value,)) for value in wanted.values]
        return [of_number(name, each, frame, can=True) for each in found]
    if len(wanted.values) > 1:
        found = [replace(wanted, op="", values=(value,)) for value in wanted.values]
        every = Measure(subject.thing, "", wanted.values, wanted.unit)
        among = f"({' or '.join(every.alternatives)})"
        return [
            *(of_number(name, each, frame, can=True) for each in found),
            Claim("always", (among,), frame.given, measures=(every,)),
        ]
    return [of_number(name, wanted, frame, can=False)]


_RATE_FIELD = {
    ("supply", "power"): "rating", ("processor", "power"): "tdp", ("fan", "flow"): "flow",
    ("network", "data_rate"): "speed",
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
        field = "speed" if thing.name == "network" else "flow"
        own = stated(statings.book, field, thing, frame.condition)
        return statings.fact("speed", own, wanted, frame, thing.many)
    if name is None:
        raise NoItem
    return statings.field(name, thing, frame, wanted)


def _has_field(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Parts or the machine have a field of an amount."""
    wanted = measure_of(frame, match, "field")
    if wanted.thing.sort != "field" or match["not"]:
        raise NoItem
    owner = measure_of(frame, match, "subject").thing if match["subject"] == "T" else None
    return [statings.field(wanted.thing.name, owner, frame, wanted)]


def _delivers(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Parts give, move or are rated at an amount."""
    subject, wanted = measure_of(frame, match, "subject"), measure_of(frame, match, "amount")
    if match["not"] or subject.values or subject.thing.sort == "number":
        raise NoItem
    return [_rated(statings, subject.thing, wanted, frame)]


def _inlet_type(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Supplies have an inlet of a type."""
    measure = measure_of(frame, match, "subject") if match["subject"] == "T" else None
    owner = measure.thing if measure else None
    every = bool(measure and measure.quant == "every")
    found = stated(statings.book, "inlet", owner, frame.condition)
    if not found or match["not"] or frame.given:
        raise NoItem
    word = frame.pieces[match.start("word")].value
    return [Claim("fact", facts=(FactClaim("inlet", tuple(found), word=word, every=every),))]


def _drive_ports(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Drive ports of a rate."""
    measure = measure_of(frame, match, "field")
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
    return [statings.fact("link rate", found, measure_of(frame, match, "amount"), frame, interface)]


def _loud(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine makes so much noise."""
    wanted = measure_of(frame, match, "amount")
    if wanted.unit != "dB(A)":
        raise NoItem
    return [statings.field("noise", None, frame, wanted)]


SHAPES: tuple[tuple[str, Builder], ...] = (
    (r"[MO]?B(?P<sizes>(?:Ay)+)", _sized),
    (r"(?P<owner>[MT])?(?P<can>m)?(?P<not>n)?(?P<verb>w)(?P<amount>A)", _weighs),
    (r"(?P<subject>T)(?P<can>m)?(?P<not>n)?(?P<verb>[BKDZ])(?P<amount>[AN])", _equals),
    (r"(?P<subject>T)(?P<can>)(?P<not>n)?(?P<verb>)(?P<amount>A)", _bounded),
    (r"(?P<subject>[MT])(?P<not>n)?[HK](?P<field>T)", _has_field),
    (r"(?P<subject>T)m?(?P<not>n)?[HKBD]Z?(?P<amount>A)", _delivers),
    (r"(?P<field>T)", _drive_ports),
    (r"(?P<field>F)[BKD](?P<amount>A)", _interface),
    (r"M?[HB](?P<amount>A)", _loud),
    (r"(?P<subject>[MT])(?P<not>n)?[HB](?P<word>j)T?", _inlet_type),
)
"""Patterns over letters, each with what it claims."""
