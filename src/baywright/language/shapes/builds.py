"""Clauses about builds: what some can have, what all have, what is fitted where."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from baywright.language.claims import Claim, Mode
from baywright.language.frames import Frame
from baywright.language.shapes.building import (
    LIST,
    Builder,
    Builds,
    denied,
    pieces_of,
    sited,
    subject_given,
    subject_items,
)
from baywright.language.shapes.items import (
    Item,
    NoItem,
)

ABLE = frozenset({"supported", "available", "possible", "allowed", "accepted", "offered", "fit",
                  "fits", "go", "goes", "sit", "sits", "work", "works", "ordered",
                  "added", "had", "fine", "valid", "legal", "ok", "okay", "permitted", "feasible",
                  "no problem", "an option", "option", "enough", "sufficient", "supported number",
                  "valid configuration", "valid memory configuration", "run", "runs", "usable",
                  "go together", "run together", "fit together", "work together", "get along",
                  "no trouble", "alright", "good enough", "a supported number", "do go together",
                  "a valid memory configuration", "a valid configuration"})  # fmt: skip
"""Predicates that say a build can have something; the others say every build has it."""


def _has(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine takes or has a list."""
    given = subject_given(frame, match)
    pieces = pieces_of(frame, match, "list")
    items = builds.items.of(pieces, frame)
    if match["verb"] == "D" and not match["can"]:
        raise NoItem
    able = (match["verb"] in "KD" or bool(match["can"])) and "u" not in frame.letters
    up = any(i.measure is not None and i.measure.op == "up" for i in items)
    mode: Mode = "can" if able or up else "always"
    if match["can"] and not match["not"]:
        items = tuple(_none(item) if item.denied else item for item in items)
    either = any(piece.letter == "|" for piece in pieces)
    if match["not"]:
        return denied(builds, items, frame, given)
    return builds.claims(mode, items, frame, either=either, given=given)


def _none(item: Item) -> Item:
    """Return what can be had with no such part: builds that have none of it."""
    if item.measure is None or item.measure.values:
        raise NoItem
    return Item((item.measure.expression(Fraction(0), "=="),), item.measure)


def _settings(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine, or what a setting is about, is set so or so."""
    pieces = pieces_of(frame, match, "list")
    items = builds.items.of(pieces, frame)
    either = any(piece.letter == "|" for piece in pieces)
    if match["not"]:
        return denied(builds, items, frame, ())
    if not either and len(items) > 1:
        raise NoItem
    return builds.claims("can" if match["can"] else "always", items, frame, either=either)


def _fitted(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A list is fitted, is possible, can be fitted, goes somewhere."""
    pieces = pieces_of(frame, match, "list")
    items = builds.items.of(pieces, frame)
    word = frame.pieces[match.start("verb")].text.casefold()
    able = bool(match["can"]) or word in ABLE
    up = any(i.measure is not None and i.measure.op == "up" for i in items)
    able = able and "u" not in frame.letters
    if match["not"]:
        return denied(builds, items, frame, ())
    either = any(piece.letter == "|" for piece in pieces)
    found = builds.claims("can" if able or up else "always", items, frame, either=either)
    stands = word in ("sit", "sits") and not match["can"]
    return [replace(claim, unsure=stands) for claim in found]


def _bare(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A list alone. Things at most can be; things are, in every build."""
    items = builds.items.of(pieces_of(frame, match, "list"), frame)
    up = any(i.measure is not None and i.measure.op == "up" for i in items)
    speeds = tuple(text for text in frame.given if text.startswith("memory_speed"))
    if speeds:
        kept = tuple(c for c in frame.conditions if c.expression not in speeds)
        frame = replace(frame, conditions=kept)
        items = (*items, *(Item((text,)) for text in speeds))
    if not up:
        found = builds.claims("always", items, frame)
        return [replace(claim, bare=True) for claim in found]
    return builds.claims("can", items, frame)


def _places_have(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Several places take or hold a list in all, unless each is said to."""
    piece = frame.pieces[match.start("subject")]
    if len(piece.value) < 2 or frame.each or "each" in piece.text.casefold():
        raise NoItem
    return _place_has(builds, frame, match, apart=False)


def _place_has(
    builds: Builds, frame: Frame, match: re.Match[str], *, apart: bool = True
) -> Sequence[Claim]:
    """A place takes or holds a list."""
    places = frame.pieces[match.start("subject")].value
    pieces = pieces_of(frame, match, "list")
    able = match["verb"] in "KD" or bool(match["can"])
    either = any(piece.letter == "|" for piece in pieces)
    found: list[Claim] = []
    groups = [(place,) for place in places] if apart else [places]
    for group in groups:
        there = replace(frame, at=group)
        items = builds.items.of(pieces, there)
        if any(item.measure is None for item in items):
            raise NoItem
        if match["not"]:
            found += denied(builds, items, there, ())
        else:
            claims = builds.claims("can" if able else "always", items, there, either=either)
            holds = "hold" in frame.pieces[match.start("verb")].text and not match["can"]
            found += [replace(claim, unsure=holds and _bare_parts(claim)) for claim in claims]
    return found


def _drives(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A part drives or takes a list: builds with just that many of it have the list."""
    subject = subject_items(builds, frame, match)
    items = builds.items.of(pieces_of(frame, match, "list"), frame)
    if any(item.limit or item.denied for item in items) and match["not"]:
        raise NoItem
    if any(item.measure is None for item in items):
        raise NoItem  # a wide card takes a slot by covering it, not by being put in it
    mode: Mode = "never" if match["not"] else "can"
    return builds.claims(mode, items, frame, given=subject)


def _left_out(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Something can be left out."""
    measures = frame.pieces[match.start("list")].value
    if len(measures) != 1 or measures[0].values or not measures[0].thing.expression:
        raise NoItem
    term = measures[0].expression(Fraction(0), "==")
    return [Claim("never" if match["not"] else "can", (term,), frame.given)]


def _without(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine, or some parts, can be as the conditions say."""
    if not frame.given:
        raise NoItem
    terms: tuple[str, ...] = ()
    if match["list"]:
        items = builds.items.of(pieces_of(frame, match, "list"), frame)
        if any(item.limit or item.denied or len(item.terms) > 1 for item in items):
            raise NoItem
        terms = tuple(item.terms[0] for item in items)
    mode: Mode = "never" if match["not"] else "can"
    return [sited(Claim(mode, (*terms, *frame.given)), frame.condition)]


def _bare_parts(claim: Claim) -> bool:
    """Say whether parts are named without a number."""
    return not any(measure.values for measure in claim.measures)


def _made_of(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """So many parts make so much: wherever they are, so is that."""
    given = subject_items(builds, frame, match)
    measures = frame.pieces[match.start("list")].value
    if any(m.thing.sort != "number" or not m.values or m.op for m in measures):
        raise NoItem
    items = builds.items.of(pieces_of(frame, match, "list"), frame)
    return builds.claims("always", items, frame, given=given)


SHAPES: tuple[tuple[str, Builder], ...] = (
    (rf"(?P<subject>[MWO])?(?P<can>m)?u?(?P<not>n)?(?P<verb>[KHD])(?P<list>{LIST})Z?", _has),
    (rf"(?P<subject>[MWO])?(?P<can>m)?u?(?P<verb>[KHD])(?P<not>n)(?P<list>{LIST})Z?", _has),
    (rf"(?P<list>{LIST})(?P<can>m)?u?B?(?P<not>n)?B?m?(?P<verb>[Zs])Z?", _fitted),
    (rf"(?P<list>{LIST})(?P<can>m)?(?P<not>n)?(?P<verb>B)", _fitted),
    (r"[MT](?P<can>m)?(?P<not>n)?[BKHZ](?P<list>W(?:[|&]W)*)", _settings),
    (r"[MT](?P<can>m)(?P<not>n)?(?P<list>W(?:[|&]W)*)", _settings),
    (rf"(?P<list>{LIST})", _bare),
    (rf"(?P<subject>P)(?P<can>m)?(?P<not>n)?(?P<verb>[KHD])(?P<list>{LIST})", _place_has),
    (rf"(?P<subject>P)(?P<can>m)?(?P<not>n)?(?P<verb>[KHD])(?P<list>{LIST})", _places_have),
    (rf"(?P<subject>[Tc])m?(?P<not>n)?[DK](?P<list>{LIST})Z?", _drives),
    (r"(?P<subject>T)H(?P<list>T)", _made_of),
    (r"(?P<list>T)m?(?P<not>n)?B?Y", _left_out),
    (r"M?(?:m(?P<not>n)?[KDBZs]?|[KD])(?P<list>)", _without),
    (r"M(?P<not>n)[KD](?P<list>)", _without),
    (r"(?P<list>[TW])m?(?P<not>n)?[KDBZ]", _without),
)
"""Patterns over letters, each with what it claims."""
