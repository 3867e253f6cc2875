"""Clauses about builds: what some can have, what all have, what is fitted where."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from baywright.language.attributes import with_filter
from baywright.language.claims import Claim, Mode
from baywright.language.frames import Frame
from baywright.language.named_places import Places, groups_of, how_of
from baywright.language.nouns import ANYTHING
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
    RANGE,
    Item,
    NoItem,
)
from baywright.language.things import Condition, Measure, Thing

ABLE = frozenset({"supported", "available", "possible", "allowed", "accepted", "offered", "fit",
                  "fits", "go", "goes", "sit", "sits", "work", "works", "ordered",
                  "added", "had", "fine", "valid", "legal", "ok", "okay", "permitted", "feasible",
                  "no problem", "an option", "option", "enough", "sufficient", "supported number",
                  "valid configuration", "valid memory configuration", "run", "runs", "usable",
                  "go together", "run together", "fit together", "work together", "get along",
                  "no trouble", "alright", "good enough", "a supported number", "do go together",
                  "a valid memory configuration", "a valid configuration"})  # fmt: skip
"""Predicates that say a build can have something; the others say every build has it."""


TOGETHER = frozenset({"combined", "mixed", "paired", "go together", "run together",
                      "fit together", "work together", "get along", "coexist"})  # fmt: skip
"""Predicates that say of several things that one build has them all."""


def _has(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine takes or has a list."""
    given = _of_machine(frame, match)
    pieces = pieces_of(frame, match, "list")
    items = builds.items.of(pieces, frame)
    if match["verb"] == "K" or match["can"]:
        items = tuple(_low_end(item) for item in items)
    runs = match["verb"] == "D" and all(_processors(item) for item in items)
    if match["verb"] == "D" and not match["can"] and not runs:
        raise NoItem
    able = (
        match["verb"] == "K" or (match["verb"] == "D" and not runs) or bool(match["can"])
    ) and "u" not in frame.letters
    up = any(i.measure is not None and i.measure.op == "up" for i in items)
    mode: Mode = "can" if able or up else "always"
    if match["can"] and not match["not"]:
        items = tuple(_none(item) if item.denied else item for item in items)
    either = any(piece.letter == "|" for piece in pieces)
    if match["not"]:
        return denied(builds, items, frame, given)
    return builds.claims(mode, items, frame, either=either, given=given)


_BUILT = ("machine", "build", "configuration", "socket")


def _of_machine(frame: Frame, match: re.Match[str]) -> tuple[str, ...]:
    """Return what a subject takes as given; both processors have things that are theirs alone."""
    pieces = pieces_of(frame, match, "subject") if match["subject"] else ()
    alone = len(pieces) == 1 and pieces[0].letter == "c"
    if alone and not any(word in pieces[0].text.casefold() for word in _BUILT):
        raise NoItem
    return subject_given(frame, match)


def _processors(item: Item) -> bool:
    """Say whether an item counts processors, which a machine runs without driving them."""
    return item.measure is not None and item.measure.thing.name == "processor"


def _low_end(item: Item) -> Item:
    """Return the low end of a range that can be had as just that number: it is no least."""
    measure = item.measure
    if item.limit != "least" or measure is None or measure.quant != RANGE:
        return item
    return Item((measure.expression(measure.values[0], "=="),), measure)


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
    able = match["can"] or frame.pieces[match.start("list") - 1].text.casefold() in ABLE
    if frame.pieces[0].letter == "T":
        items = (*items, *_of_parts(builds, frame))
    if match["not"]:
        return denied(builds, items, frame, ())
    if not either and len(items) > 1:
        raise NoItem
    return builds.claims("can" if able else "always", items, frame, either=either)


def _fitted(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A list is fitted, is possible, can be fitted, goes somewhere."""
    pieces = pieces_of(frame, match, "list")
    word = frame.pieces[match.start("verb")].text.casefold()
    able = bool(match["can"]) or word in ABLE
    only = _only_of_kind(builds, frame, match)
    if only:
        return only
    if any(piece.letter == "P" for piece in pieces) and any(map(_elsewhere, frame.given)):
        raise NoItem
    items = builds.items.of(pieces, frame)
    if word in TOGETHER and len(pieces) == 1 and " and " in pieces[0].text:
        items = tuple(Item((term,), item.measure) for item in items for term in item.terms)
    up = any(i.measure is not None and i.measure.op == "up" for i in items)
    able = able and "u" not in frame.letters
    if match["not"]:
        return denied(builds, items, frame, ())
    either = any(piece.letter == "|" for piece in pieces)
    found = builds.claims("can" if able or up else "always", items, frame, either=either)
    stands = word in ("sit", "sits") and not match["can"]
    return [replace(claim, unsure=stands) for claim in found]


def _elsewhere(given: str) -> bool:
    """Say whether a condition counts parts wherever they are, which may be meant of one place."""
    return given.startswith("count(") and "at=" not in given


def _only_of_kind(builds: Builds, frame: Frame, match: re.Match[str]) -> list[Claim]:
    """Return that only some parts of a kind can be had, and each of those; else nothing."""
    pieces = pieces_of(frame, match, "list")
    measures = [m for piece in pieces if piece.letter == "T" for m in piece.value]
    things = [builds.items.located(replace(m, quant=""), frame).thing for m in measures]
    kinds = {(thing.name, thing.at) for thing in things if thing.sort == "parts"}
    listed = len(pieces) == 1 and measures and all(m.quant == "only" for m in measures)
    if not listed or len(kinds) != 1 or any(m.values for m in measures) or match["not"]:
        return []
    if not all(thing.part or thing.filters for thing in things) or frame.given:
        return []
    whole = replace(things[0], part="", filters=()).expression
    numbers = [thing.expression for thing in things]
    each = [Claim("can", (f"{number} >= 1",)) for number in numbers]
    return [Claim("never", (f"{whole} > {' + '.join(numbers)}",)), *each]


def _may_be(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """There can be a list."""
    items = builds.items.of(pieces_of(frame, match, "list"), frame)
    if match["not"]:
        return denied(builds, items, frame, ())
    either = any(piece.letter == "|" for piece in frame.pieces)
    return builds.claims("can", items, frame, either=either)


def _bare(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A list alone. Things at most can be; things are, in every build."""
    if any(p.letter == "P" for p in frame.pieces) and any(map(_elsewhere, frame.given)):
        raise NoItem
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
    alone = len(groups_of(piece.value)) < 2 or how_of(piece.value)
    if alone or frame.each or "each" in piece.text.casefold():
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
    groups = groups_of(places) if apart else [tuple(places)]
    for group in groups:
        there = replace(frame, at=Places.of((group,)))
        items = builds.items.of(pieces, there)
        if any(item.measure is None for item in items):
            raise NoItem
        if match["not"]:
            found += denied(builds, items, there, ())
        else:
            up = any(item.measure is not None and item.measure.op == "up" for item in items)
            mode: Mode = "can" if able or up else "always"
            claims = builds.claims(mode, items, there, either=either)
            holds = "hold" in frame.pieces[match.start("verb")].text and not match["can"]
            found += [replace(claim, unsure=holds and _bare_parts(claim)) for claim in claims]
    return found


def _drives(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A part drives or takes a list: builds with just that many of it have the list."""
    subject = subject_items(builds, frame, match)
    items = tuple(_served(builds, frame, match)) or builds.items.of(
        pieces_of(frame, match, "list"), frame
    )
    if any(item.limit or item.denied for item in items) and match["not"]:
        raise NoItem
    if any(item.measure is None for item in items):
        raise NoItem  # a wide card takes a slot by covering it, not by being put in it
    mode: Mode = "never" if match["not"] else "can"
    return builds.claims(mode, items, frame, given=subject)


def _left_out(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Something can be left out."""
    if frame.pieces[match.start("list")].letter == "P":
        return _vacant(builds, frame, match)
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


def _of_memory(parts: Sequence[Measure], measures: Sequence[Measure]) -> bool:
    """Say whether amounts alone are those of memory modules."""
    units = {measure.unit for measure in measures}
    return units <= {"GB", "TB"} and all(part.thing.name == "memory" for part in parts)


def _made_of(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """So many parts make so much: wherever they are, so is that."""
    given = subject_items(builds, frame, match)
    measures = frame.pieces[match.start("list")].value
    if any(m.thing.sort != "number" or not m.values or m.op for m in measures):
        raise NoItem
    parts = frame.pieces[match.start("subject")].value
    if any(m.thing is ANYTHING for m in measures) and not _of_memory(parts, measures):
        raise NoItem
    items = builds.items.of(pieces_of(frame, match, "list"), frame)
    return builds.claims("always", items, frame, given=given)


def _of_parts(builds: Builds, frame: Frame) -> Sequence[Item]:
    """Return the parts whose setting is spoken of; a port is no part."""
    measures = frame.pieces[0].value
    if any(measure.thing.sort != "parts" for measure in measures):
        return ()
    return builds.items.of(frame.pieces[:1], frame)


def _served(builds: Builds, frame: Frame, match: re.Match[str]) -> Iterator[Item]:
    """Yield drives in each zone that a controller is said to serve."""
    pieces = pieces_of(frame, match, "list")
    subject = frame.pieces[match.start("subject")]
    served = len(pieces) == 1 and pieces[0].letter == "P" and subject.letter == "T"
    if not served or any(m.thing.name != "controller" for m in subject.value):
        return
    for place in pieces[0].value:
        if builds.book.places[place].type != "zone":
            raise NoItem
        yield Item((f"count(drive, at={place}) >= 1",), DRIVES)


DRIVES = Measure(Thing("parts", "drive", "drive", "drives"))


def _vacant(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A place stays empty, or can."""
    places = frame.pieces[match.start("list")].value
    if frame.at or frame.sides is not None or frame.dates or frame.condition.state:
        raise NoItem
    able = match["can"] or match["not"]
    mode: Mode = "never" if match["not"] else "can" if able else "always"
    return [Claim(mode, (f"{place} == empty",), frame.given) for place in places]


def _only_there(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Parts go into some places only: nowhere else, and into each of those."""
    measures = frame.pieces[match.start("list")].value
    only = any(piece.letter == "q" and piece.value == "only" for piece in frame.pieces)
    if not only and measures[0].quant != "only":
        raise NoItem
    if len(measures) != 1 or measures[0].values or frame.given:
        raise NoItem
    thing, where = measures[0].thing, frame.at
    place = frame.pieces[match.start("place")].value if match["place"] else ()
    where = where or place
    if thing.sort != "parts" or thing.at or not where:
        raise NoItem
    there = thing.placed(Places.of(groups_of(where)))
    elsewhere = Claim("never", (f"{thing.expression} > {there.expression}",))
    each = [thing.placed(group).expression for group in groups_of(where)]
    return [elsewhere, *(Claim("can", (f"{number} >= 1",)) for number in each)]


def _there_is(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Builds as the conditions say exist, or do not."""
    word = frame.pieces[match.start("verb")].text.casefold()
    if not frame.given or word not in ABLE:
        raise NoItem
    mode: Mode = "never" if match["not"] else "can"
    return builds.claims(mode, [Item(frame.given[:1])], _with_rest(frame))


def _with_rest(frame: Frame) -> Frame:
    """Return a clause without its first condition on a build, which is what is claimed."""
    first = next(condition for condition in frame.conditions if condition.expression)
    rest = tuple(each for each in frame.conditions if each is not first)
    return replace(frame, conditions=rest)


def _of_kinds(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Drives, or those in a place, are or can be of some kinds."""
    measure = frame.pieces[match.start("list")].value[0]
    if measure.values or measure.quant not in ("", "every") or frame.given:
        raise NoItem
    if len(frame.pieces[match.start("list")].value) != 1 or measure.thing.filters:
        raise NoItem
    whole = builds.items.located(replace(measure, quant=""), frame).thing
    kinds = [with_filter(builds.book, whole, piece.value) for piece in frame.pieces
             if piece.letter == "F"]  # fmt: skip
    if whole.sort != "parts" or any(kind is None or not kind.filters for kind in kinds):
        raise NoItem
    numbers = [kind.expression for kind in kinds if kind is not None]
    if match["can"]:
        return [Claim("can", (f"{number} >= 1",)) for number in numbers]
    rest = Claim("never", (f"{whole.expression} > {' + '.join(numbers)}",))
    return [rest, *(Claim("can", (f"{number} >= 1",)) for number in numbers)]


def _together_carry(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """So many supplies carry a total: so much they carry wherever they are fitted."""
    supplies = frame.pieces[match.start("subject")].value
    wanted = frame.pieces[match.start("amount")].value[0]
    if len(supplies) != 1 or supplies[0].thing.name != "supply" or not supplies[0].values:
        raise NoItem
    if wanted.op != "==" or wanted.unit not in ("W", "kW") or len(wanted.values) != 1:
        raise NoItem
    carried = Thing("number", "supplies_carry", "", "", dimension="power")
    item = Item(replace(wanted, thing=carried).alternatives, replace(wanted, thing=carried))
    given = builds.items.of(pieces_of(frame, match, "subject"), frame)
    return builds.claims("always", [item], frame, given=given[0].terms)


def _each_processor(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Each processor takes or has so much memory: that beside the first."""
    subject = frame.pieces[match.start("subject")].value
    named = len(subject) == 1 and subject[0].thing.name == "processor" and not subject[0].thing.part
    if not named or subject[0].values or subject[0].quant != "every":
        raise NoItem
    per = replace(frame, conditions=(*frame.conditions, Condition(per="processor")))
    return _has(builds, per, match)


SHAPES: tuple[tuple[str, Builder], ...] = (
    (
        rf"(?P<subject>c?M|[WOc])?(?:(?P<can>m)B?)?u?(?P<not>n)?(?P<verb>[KHD])(?P<list>{LIST})Z?",
        _has,
    ),
    (rf"(?P<subject>c?M|[WOc])?(?P<can>m)?u?(?P<verb>[KHD])(?P<not>n)(?P<list>{LIST})Z?", _has),
    (rf"(?P<subject>T)(?P<can>m)?(?P<not>n)?(?P<verb>[KHD])(?P<list>{LIST})Z?", _each_processor),
    (r"(?P<list>P)(?P<can>m)?u?(?P<not>n)?b", _vacant),
    (r"(?P<list>T)m?Z?B?(?P<place>P)?q", _only_there),
    (r"(?P<list>T)m?q?B?Z?q?(?P<place>P)", _only_there),
    (r"(?P<list>T)m?B?(?:qZ|Zq)(?P<place>)", _only_there),
    (r"M?m?(?P<not>n)?(?P<verb>Z)", _there_is),
    (r"(?P<subject>T)m?[HKD](?P<amount>A)", _together_carry),
    (rf"(?P<list>{LIST})(?P<can>m)?u?B?(?P<not>n)?B?m?(?P<verb>[Zs])Z?", _fitted),
    (rf"(?P<list>{LIST})(?P<can>m)?(?P<not>n)?(?P<verb>B)", _fitted),
    (r"[MT](?P<can>m)?(?P<not>n)?[BKHZ](?P<list>W(?:[|&]W)*)", _settings),
    (r"[MT](?P<can>m)(?P<not>n)?(?P<list>W(?:[|&]W)*)", _settings),
    (rf"(?P<list>{LIST})", _bare),
    (rf"(?P<can>m)(?P<not>n)?B?(?P<list>{LIST})(?P<verb>)", _may_be),
    (rf"(?P<subject>P)(?:(?P<can>m)B?)?(?P<not>n)?(?P<verb>[KHD])(?P<list>{LIST})", _place_has),
    (rf"(?P<subject>P)(?:(?P<can>m)B?)?(?P<not>n)?(?P<verb>[KHD])(?P<list>{LIST})", _places_have),
    (r"(?P<list>T)(?:(?P<can>m)B?|(?P<all>q)?B)(?P<kinds>F(?:[|&]?F)*)T?", _of_kinds),
    (rf"(?P<subject>[Tc])m?(?P<not>n)?[DK](?P<list>{LIST})Z?", _drives),
    (r"(?P<subject>T)H(?P<list>[TA])", _made_of),
    (r"(?P<list>[TP])(?P<can>m)?(?P<not>n)?B?Y", _left_out),
    (r"M?(?:m(?P<not>n)?[KDBZs]?|[KD])(?P<list>)", _without),
    (r"M(?P<not>n)[KD](?P<list>)", _without),
    (r"(?P<list>[TW])m?(?P<not>n)?[KDBZ]", _without),
)
"""Patterns over letters, each with what it claims."""
