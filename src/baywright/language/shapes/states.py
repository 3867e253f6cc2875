"""Clauses about states: what needs or excludes what, what runs where, what survives a loss."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from baywright.facts.places import Bank
from baywright.language.claims import Claim, Mode
from baywright.language.conditions import amount_condition, per_channel
from baywright.language.frames import Frame
from baywright.language.pieces import Piece
from baywright.language.shapes.building import (
    LIST,
    Builder,
    Builds,
    builds_mode,
    pieces_of,
    sited,
    subject_given,
)
from baywright.language.shapes.items import (
    Item,
    NoItem,
    condition_text,
    limit_value,
)
from baywright.language.things import Condition, Measure


def _needs(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Something needs something: wherever it is, so is the other."""
    subjects = builds.items.of([_any_of(p) for p in pieces_of(frame, match, "subject")], frame)
    needed = builds.items.of(pieces_of(frame, match, "list"), replace(frame, at=()))
    if any(i.limit or i.denied for i in subjects):
        raise NoItem
    found = []
    for subject in subjects:
        base = Claim("always", measures=tuple(i.measure for i in needed if i.measure), needs=True)
        given = (*subject.terms, *frame.given)
        least = [_at_least(item) for item in needed]
        if match["not"]:
            denied = tuple(f"not ({term})" for term in least)
            found.append(replace(base, mode="can", given=given, terms=denied, needs=False))
        elif len(needed) == 1 and _numbered(needed[0]):
            found.append(_least_needed(replace(base, given=given), needed[0]))
        else:
            found.append(replace(base, given=given, terms=tuple(least)))
    return found


def _any_of(piece: Piece) -> Piece:
    """Return a piece with every left out: every drive needs what drives need."""
    if piece.letter != "T" or any(m.quant != "every" or m.values for m in piece.value):
        return piece
    return replace(piece, value=tuple(replace(measure, quant="") for measure in piece.value))


def _numbered(item: Item) -> bool:
    measure = item.measure
    return measure is not None and len(measure.values) == 1 and measure.op in ("", "==", ">=")


def _least_needed(base: Claim, item: Item) -> Claim:
    """Return that so many are needed: with what needs them, that is the least there is."""
    if item.measure is None:
        raise NoItem
    value, unit = limit_value(item.measure)
    number = item.measure.thing.expression
    if not number:
        raise NoItem
    return replace(base, mode="least", number=number, value=value, unit=unit)


def _needs_always(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine needs something: every build has it."""
    items = builds.items.of(pieces_of(frame, match, "list"), frame)
    if match["not"]:
        raise NoItem
    if any(item.limit for item in items):
        return builds.claims("always", items, frame)
    return [Claim("always", tuple(_at_least(item) for item in items), frame.given)]


def _at_least(item: Item) -> str:
    """Return what is needed: that many or more."""
    measure = item.measure
    if measure is None or measure.thing.sort != "parts" or measure.op not in ("", "=="):
        return item.terms[0]
    return measure.expression(measure.values[0] if measure.values else None, ">=")


def _excludes(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Something excludes something: no build has both."""
    one = builds.items.of(pieces_of(frame, match, "subject"), frame)
    other = builds.items.of(pieces_of(frame, match, "list"), replace(frame, at=()))
    terms = tuple(item.terms[0] for item in (*one, *other))
    mode: Mode = "can" if match["not"] else "never"
    return [Claim(mode, terms, frame.given)]


def _channels_run_at(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """So many modules per channel run at such a speed."""
    measures = frame.pieces[match.start("subject")].value
    if frame.condition.per != "channel" or len(frame.conditions) != 1 or len(measures) != 1:
        raise NoItem
    banks = list(builds.book.places_of(Bank).items())
    given = per_channel(measures[0], banks[0][0], banks[0][1].channels.known) if banks else ""
    speed = builds.items.of(pieces_of(frame, match, "list"), replace(frame, conditions=()))
    if not given or len(speed) != 1 or len(speed[0].terms) != 1:
        raise NoItem
    mode: Mode = "never" if match["not"] else "always"
    return [Claim(mode, speed[0].terms, (given,))]


def _run_at(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """So much memory runs at such a speed."""
    return [
        Claim("always", (second.terms[0],), (first.terms[0], *frame.given))
        for first in builds.items.of(pieces_of(frame, match, "subject"), frame)
        for second in builds.items.of(pieces_of(frame, match, "list"), frame)
    ]


def _state(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine, or builds with some parts, are in a state such as redundant."""
    piece = frame.pieces[match.start("list")]
    given: tuple[str, ...] = ()
    if match["subject"] and match["subject"].startswith("T"):
        items = builds.items.of(pieces_of(frame, match, "subject"), frame)
        given = tuple(item.terms[0] for item in items)
    elif match["subject"] in ("W", "O"):
        given = subject_given(frame, match)
    term = condition_text(piece)
    mode: Mode = "can" if match["can"] else "always"
    terms: tuple[str, ...] = (f"not {term}",) if match["not"] else (term,)
    if match["can"] and match["not"]:
        raise NoItem
    return [sited(Claim(mode, terms, (*given, *frame.given)), frame.condition)]


def _runs_at(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Builds, or some parts, run at a voltage, an altitude or an inlet temperature."""
    terms: tuple[str, ...] = ("processors >= 1",)
    if match["subject"] == "T":
        items = builds.items.of(pieces_of(frame, match, "subject"), frame)
        if any(item.limit or item.denied for item in items):
            return _limit_at(builds, frame, match, items)
        terms = tuple(item.terms[0] for item in items)
    conditions = tuple(_amounts(frame, match)) if match["amount"] else ()
    whole = replace(frame, conditions=(*frame.conditions, *conditions))
    if not whole.given and not (whole.condition.altitude or whole.condition.inlet):
        raise NoItem
    if sum(text.startswith("voltage") for text in whole.given) > 1:
        raise NoItem  # it runs at one voltage or at another, and not at both
    speeds = tuple(text for text in whole.given if text.startswith("memory_speed"))
    if speeds and "m" not in frame.letters:
        if match["not"] or builds_mode(frame):
            raise NoItem
        others = tuple(text for text in whole.given if text not in speeds)
        return [sited(Claim("always", speeds, (*terms, *others)), whole.condition)]
    denied = match["not"] or builds_mode(frame) == "never"
    held = (*terms, *whole.given)
    condition = whole.condition
    unsure = match["subject"] == "M" and "m" not in frame.letters
    site = bool(condition.altitude or condition.inlet)
    claim = Claim("never" if denied else "can", held, unsure=unsure and site and not denied)
    return [sited(claim, condition)]


def _limit_at(
    builds: Builds, frame: Frame, match: re.Match[str], items: Sequence[Item]
) -> Sequence[Claim]:
    conditions = tuple(_amounts(frame, match)) if match["amount"] else ()
    if match["not"]:
        raise NoItem
    return builds.claims("can", items, replace(frame, conditions=(*frame.conditions, *conditions)))


def _amounts(frame: Frame, match: re.Match[str]) -> Iterator[Condition]:
    for piece in pieces_of(frame, match, "amount"):
        for measure in piece.value if piece.letter == "A" else ():
            op = "" if measure.op in ("", "==") else measure.op
            found = amount_condition(measure.values[0], measure.unit)
            if found is None or op or len(measure.values) != 1:
                raise NoItem
            yield found


def _of_builds(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Every build, some builds or no build has a state or a list."""
    mode = builds_mode(frame)
    items = builds.items.of(pieces_of(frame, match, "list"), frame)
    if mode == "always" and any(item.limit for item in items) and not match["lose"]:
        return builds.claims("always", items, frame)
    if any(item.limit or item.denied or len(item.terms) > 1 for item in items):
        raise NoItem
    given: tuple[str, ...] = ()
    if match["among"]:
        given = tuple(i.terms[0] for i in _among(builds, frame, match))
    terms = tuple(item.terms[0] for item in items)
    if match["lose"]:
        if len(terms) > 1:
            raise NoItem
        terms = (f"not ({terms[0]})",)
    if match["not"]:
        raise NoItem
    found: Mode = "can" if mode == "can" else "always" if mode == "always" else "never"
    return [sited(Claim(found, terms, (*given, *frame.given)), frame.condition)]


def _among(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Item]:
    """Return what builds above or below an amount are: those that draw so much."""
    measure = frame.pieces[match.start("among")].value[0]
    if measure.unit not in ("W", "kW") or len(measure.values) != 1 or not measure.op:
        raise NoItem
    number = Measure(replace(measure.thing, name="load"), measure.op, measure.values, measure.unit)
    return [Item(number.alternatives)]


def _fails(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """If a supply or a fan fails, the machine keeps running."""
    measures = frame.pieces[match.start("list")].value
    if len(measures) != 1 or measures[0].values not in ((), (Fraction(1),)) or match["not"]:
        raise NoItem
    term = {"supply": "supplies_redundant", "fan": "air_redundant"}.get(measures[0].thing.name)
    thing = measures[0].thing
    if term is None or measures[0].plural:
        raise NoItem
    several = len([p for p in builds.book.parts.values() if p.kind == thing.name]) > 1
    given = (measures[0].expression(None),) if thing.part and several else ()
    mode: Mode = "can" if builds_mode(frame) == "can" else "always"
    return [sited(Claim(mode, (term,), (*given, *frame.given)), frame.condition)]


SHAPES: tuple[tuple[str, Builder], ...] = (
    (rf"M?(?P<subject>{LIST})M?m?(?P<not>n)?R(?P<list>{LIST})", _needs),
    (rf"(?P<subject>{LIST})m?(?P<not>n)?X(?P<list>{LIST})", _excludes),
    (r"(?P<subject>A)m?[BKD](?P<list>A)", _run_at),
    (r"(?P<subject>T)(?P<not>n)?[BKD](?P<list>A)", _channels_run_at),
    (r"(?P<subject>[MWO]|T(?:&T)*)?(?P<can>m)?(?P<not>n)?[BKHZD]?(?P<list>c)", _state),
    (r"(?P<subject>[MTE])m?(?P<not>n)?[BKDk](?P<amount>A(?:&A)*)", _runs_at),
    (r"(?P<subject>)(?P<amount>A)m?B?(?P<not>n)?B?Z", _runs_at),
    (r"(?P<subject>[MTE])(?P<amount>)m?(?P<not>n)?B?[BKDkZ]", _runs_at),
    (r"(?P<subject>)(?P<amount>)m?B?(?P<not>n)?Z", _runs_at),
    (r"E(?P<among>A)?m?(?P<not>n)?(?:[BKH]|(?P<lose>z))(?P<list>[cTAP](?:&[cTAP])*)", _of_builds),
    (r"i(?P<not>n)?(?P<list>T)f[ME]?k", _fails),
    (r"[ME]?(?P<not>n)?ki(?P<list>T)f", _fails),
    (r"[ME]?m?(?P<not>n)?a(?P<list>T)", _fails),
    (r"(?P<list>T)m?(?P<not>n)?f", _fails),
    (rf"(?P<subject>M)m?(?P<not>n)?R(?P<list>{LIST})", _needs_always),
)
"""Patterns over letters, each with what it claims."""
