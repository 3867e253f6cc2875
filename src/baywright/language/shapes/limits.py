"""Clauses about the most and the least, about mixing, about what is optional, and about dates."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from baywright.language.claims import Claim, Mode
from baywright.language.frames import Frame
from baywright.language.shapes.facts import Builder, Statings, measure_of, of_number
from baywright.language.shapes.items import Items, NoItem, mixed
from baywright.language.things import Measure, Thing


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
    if len({m.thing.name for m in measures}) > 1 or not all(m.thing.part for m in measures):
        raise NoItem
    return [Claim(mode, terms[:1], (*terms[1:], *frame.given))]


def _alike(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Parts of a kind are always alike, or need not be."""
    piece = frame.pieces[match.start("list")]
    if piece.letter == "c":
        if piece.value != "processors == 2":
            raise NoItem
        both = mixed(statings.book, "processor")
        return [Claim("can" if match["not"] else "never", (both,), frame.given)]
    thing = measure_of(frame, match, "list").thing
    expression = mixed(statings.book, thing.name) if thing.sort == "parts" else ""
    if not expression or thing.part or thing.filters:
        raise NoItem
    return [Claim("can" if match["not"] else "never", (expression,), frame.given)]


def _unlike(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Parts of a kind can be of different kinds, or cannot."""
    if "m" not in frame.letters and not match["not"]:
        raise NoItem
    piece = frame.pieces[match.start("list")]
    name = "processor" if piece.value == "processors == 2" else ""
    if piece.letter == "T":
        thing = measure_of(frame, match, "list").thing
        name = thing.name if thing.sort == "parts" and not thing.part and not thing.filters else ""
    expression = mixed(statings.book, name) if name else ""
    if not expression:
        raise NoItem
    return [Claim("never" if match["not"] else "can", (expression,), frame.given)]


def _extreme_is(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The most or the least of something is a number."""
    measure, wanted = measure_of(frame, match, "list"), measure_of(frame, match, "amount")
    if measure.op not in ("most", "least") or measure.values or wanted.op not in ("", "=="):
        raise NoItem
    thing = Items(statings.book).located(measure, frame).thing
    if (thing.sort == "number" and thing.dimension) or len(wanted.values) != 1:
        raise NoItem  # the most of an amount is read as what it equals
    if not thing.expression or wanted.unit or frame.dates or frame.condition.state:
        raise NoItem
    mode: Mode = "least" if measure.op == "least" else "most"
    return [Claim(mode, (), frame.given, thing.expression, wanted.values[0], measures=(measure,))]


def _extreme(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """So many are the most of something."""
    wanted, measure = measure_of(frame, match, "amount"), measure_of(frame, match, "list")
    thing = Items(statings.book).located(measure, frame).thing
    side = measure.op or frame.pieces[match.start("amount") + 2].value
    if side not in ("most", "least"):
        raise NoItem
    if len(wanted.values) != 1 or not thing.expression or measure.values:
        raise NoItem
    mode: Mode = "least" if side == "least" else "most"
    return [Claim(mode, (), frame.given, thing.expression, wanted.values[0], wanted.unit)]


def _most(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A number of something is the most."""
    measure = Items(statings.book).located(measure_of(frame, match, "list"), frame)
    side = frame.pieces[match.start("side")].value
    if side not in ("most", "least", "<=", ">=") or len(measure.values) != 1:
        raise NoItem
    mode: Mode = "least" if side in ("least", ">=") else "most"
    expression = measure.thing.expression
    if not expression or measure.op:
        raise NoItem
    value = Fraction(measure.values[0])
    return [Claim(mode, (), frame.given, expression, value, measure.unit, measures=(measure,))]


def _dated(statings: Statings, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine or a part ships, is announced or can be ordered, on a day or now."""
    if frame.given or match["not"] or len(frame.dates) > 1:
        raise NoItem
    part = ""
    if match["subject"] == "T":
        measure = measure_of(frame, match, "subject")
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
    wanted = measure_of(frame, match, "amount")
    verb = frame.pieces[match.start("verb")].value
    if {"cost": "price", "draw": "load"}.get(verb) != number or len(wanted.values) != 1:
        raise NoItem
    if wanted.op in ("<", "<="):
        op = Measure(Thing("number", number, "", ""), wanted.op, wanted.values, wanted.unit)
        return [Claim("can", op.alternatives, frame.given, measures=(op,))]
    if wanted.op not in ("", "=="):
        raise NoItem
    return [of_number(number, replace(wanted, op=">="), frame, can=False)]


SHAPES: tuple[tuple[str, Builder], ...] = (
    (r"(?P<list>[TPc](?:&[TPc])*)B(?P<not>n)?p", _optional),
    (r"(?P<which>e)M(?P<verb>w)(?P<amount>A)", _cheapest),
    (r"M?[um]*(?P<not>n)?x(?P<list>T)(?:&T)*", _mixed),
    (r"(?P<list>T)(?:&T)*V?[um]*(?P<not>n)?B?x", _mixed),
    (r"V(?P<list>T)[um]*(?P<not>n)?B?[Zx]", _mixed),
    (r"(?P<list>T)V[um]*(?P<not>n)?B?Z", _mixed),
    (r"M?[um]*(?P<not>n)?[KHx]V(?P<list>T)", _mixed),
    (r"M?[um]*(?P<not>n)?[KHx](?P<list>T)V", _mixed),
    (r"(?P<list>[Tc])[um]*(?P<not>n)?u?[BH](?P<all>q)?J", _alike),
    (r"(?P<list>[Tc])[um]*(?P<not>n)?B?(?P<all>q)?V", _unlike),
    (r"(?P<list>T)B(?P<amount>[NA])", _extreme_is),
    (r"(?P<amount>[NA])Bo?(?P<list>T)(?:M?m?[KHZ])?", _extreme),
    (r"(?P<list>T)(?:m?B|Z)(?P<side>o)(?:M?m?[KHZ])?", _most),
    (r"(?P<subject>[MT])(?P<still>m)?B?(?P<not>n)?B?(?P<verb>s)", _dated),
    (r"(?P<subject>)(?P<verb>s)(?P<not>)(?P<still>)M", _dated),
)
"""Patterns over letters, each with what it claims."""
