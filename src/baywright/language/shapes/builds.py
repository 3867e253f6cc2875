"""Clauses about builds: what some can have, what all have, what needs or excludes what."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.language.claims import Claim, Mode
from baywright.language.conditions import amount_condition
from baywright.language.frames import Frame
from baywright.language.pieces import Piece
from baywright.language.shapes.items import (
    Item,
    Items,
    NoItem,
    condition_text,
    limit_value,
    open_scope,
)
from baywright.language.things import Condition, Measure

LIST = r"[TANPcW](?:[&|][TANPcW])*"
ABLE = frozenset({"supported", "available", "possible", "allowed", "accepted", "offered", "fit",
                  "fits", "go", "goes", "sit", "sits", "work", "works", "ordered",
                  "added", "had", "fine", "valid", "legal", "ok", "okay", "permitted", "feasible",
                  "no problem", "an option", "option", "enough", "sufficient", "supported number",
                  "valid configuration", "valid memory configuration", "run", "runs", "usable",
                  "go together", "run together", "fit together", "work together", "get along",
                  "no trouble", "alright", "good enough", "a supported number", "do go together",
                  "a valid memory configuration", "a valid configuration"})  # fmt: skip
"""Predicates that say a build can have something; the others say every build has it."""

Builder = Callable[["Builds", Frame, "re.Match[str]"], Sequence[Claim]]


@dataclass(frozen=True)
class Builds:
    """Builds claims about builds from clauses.

    Args:
        book: the book.
    """

    book: Book

    @property
    def items(self) -> Items:
        """What lists claim."""
        return Items(self.book)

    def claims(self, mode: Mode, items: Sequence[Item], frame: Frame, *, either: bool = False,
               given: Sequence[str] = ()) -> list[Claim]:  # fmt: skip
        """Return the claims of a list.

        Args:
            mode: can, always or never.
            items: the items.
            frame: the clause.
            either: whether each item is claimed alone, as in a list with or.
            given: further conditions.
        """
        condition = frame.condition
        if frame.dates:
            raise NoItem
        whole = Claim(
            mode,
            given=(*given, *frame.given),
            altitude=condition.altitude,
            inlet=condition.inlet,
            open_scope=any(i.measure and open_scope(self.book, i.measure) for i in items),
            absent=any(i.measure and i.measure.thing.absent for i in items),
            measures=tuple(i.measure for i in items if i.measure),
        )
        if self._reaches_outside(whole):
            raise NoItem
        if condition.only:
            return self._only(whole, items)
        return self._claims(whole, items, either=either)

    def _reaches_outside(self, claim: Claim) -> bool:
        """Say whether drives are counted with a controller whose drives are outside."""
        outside = [n for n, p in self.book.parts.items() if getattr(p, "external", None)]
        drives = any(measure.thing.name == "drive" for measure in claim.measures)
        return drives and any(f'"{name}"' in text for name in outside for text in claim.given)

    def _claims(self, whole: Claim, items: Sequence[Item], *, either: bool) -> list[Claim]:
        if any(item.limit for item in items):
            return [_limit(whole, item) for item in items]
        if any(item.denied for item in items):
            return [replace(whole, mode="never", terms=item.terms) for item in items]
        many = any(len(item.terms) > 1 for item in items)
        if either or (many and len(items) == 1 and whole.mode != "always"):
            return [replace(whole, terms=(term,)) for item in items for term in item.terms]
        terms = tuple(f"({' or '.join(i.terms)})" if len(i.terms) > 1 else i.terms[0] for i in items)
        return [replace(whole, terms=terms)]

    def _only(self, whole: Claim, items: Sequence[Item]) -> list[Claim]:
        """Return what only under a condition means: wherever it is so, the condition holds."""
        if len(whole.given) != 1 or any(i.limit or i.denied or len(i.terms) > 1 for i in items):
            raise NoItem
        return [
            replace(whole, mode="always", given=item.terms, terms=whole.given) for item in items
        ]


def _limit(whole: Claim, item: Item) -> Claim:
    """Return a limit as the extreme it claims."""
    if not item.limit:
        return replace(whole, terms=item.terms)
    if item.measure is None or len(item.measure.values) != 1:
        raise NoItem
    measure = item.measure
    value, unit = limit_value(measure)
    number = measure.thing.expression or "memory"
    mode: Mode = "most" if item.limit == "most" else "least"
    return replace(whole, mode=mode, number=number, value=value, unit=unit, terms=item.terms)


def _pieces(frame: Frame, match: re.Match[str], name: str) -> tuple[Piece, ...]:
    return frame.pieces[match.start(name) : match.end(name)]


def _subject_given(frame: Frame, match: re.Match[str]) -> tuple[str, ...]:
    """Return what a subject such as the fixed-drive variant or a model takes as given."""
    pieces = _pieces(frame, match, "subject") if match["subject"] else ()
    return tuple(condition_text(piece) for piece in pieces if piece.letter in "WO")


def _has(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine takes or has a list."""
    given = _subject_given(frame, match)
    pieces = _pieces(frame, match, "list")
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
        return _denied(builds, items, frame, given)
    return builds.claims(mode, items, frame, either=either, given=given)


def _none(item: Item) -> Item:
    """Return what can be had with no such part: builds that have none of it."""
    if item.measure is None or item.measure.values:
        raise NoItem
    return Item((item.measure.expression(Fraction(0), "=="),), item.measure)


def _settings(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine, or what a setting is about, is set so or so."""
    pieces = _pieces(frame, match, "list")
    items = builds.items.of(pieces, frame)
    either = any(piece.letter == "|" for piece in pieces)
    if match["not"]:
        return _denied(builds, items, frame, ())
    if not either and len(items) > 1:
        raise NoItem
    return builds.claims("can" if match["can"] else "always", items, frame, either=either)


def _denied(
    builds: Builds, items: Sequence[Item], frame: Frame, given: Sequence[str]
) -> Sequence[Claim]:
    """Return what is denied: there is no such build; not fewer than is a least."""
    if any(item.denied or item.limit for item in items):
        raise NoItem
    found = builds.claims("never", items, frame, given=given)
    return [_least_of(claim) for claim in found]


def _least_of(claim: Claim) -> Claim:
    """Return never fewer than a number as the least, never more than as the most."""
    if len(claim.measures) != 1 or claim.measures[0].op not in ("<", ">"):
        return claim
    measure = claim.measures[0]
    value, unit = limit_value(measure)
    mode: Mode = "least" if measure.op == "<" else "most"
    return replace(
        claim, mode=mode, number=measure.thing.expression, value=value, unit=unit, terms=()
    )


def _fitted(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A list is fitted, is possible, can be fitted, goes somewhere."""
    pieces = _pieces(frame, match, "list")
    items = builds.items.of(pieces, frame)
    word = frame.pieces[match.start("verb")].text.casefold()
    able = bool(match["can"]) or word in ABLE
    up = any(i.measure is not None and i.measure.op == "up" for i in items)
    able = able and "u" not in frame.letters
    if match["not"]:
        return _denied(builds, items, frame, ())
    either = any(piece.letter == "|" for piece in pieces)
    return builds.claims("can" if able or up else "always", items, frame, either=either)


def _bare(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A list alone. Things at most can be; things are, in every build."""
    items = builds.items.of(_pieces(frame, match, "list"), frame)
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
    pieces = _pieces(frame, match, "list")
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
            found += _denied(builds, items, there, ())
        else:
            found += builds.claims("can" if able else "always", items, there, either=either)
    return found


def _needs(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Something needs something: wherever it is, so is the other."""
    subjects = builds.items.of(_pieces(frame, match, "subject"), frame)
    needed = builds.items.of(_pieces(frame, match, "list"), replace(frame, at=()))
    if any(i.limit or i.denied for i in subjects):
        raise NoItem
    found = []
    for subject in subjects:
        base = Claim(
            "always", measures=tuple(i.measure for i in needed if i.measure), needs=True
        )
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
    items = builds.items.of(_pieces(frame, match, "list"), frame)
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
    one = builds.items.of(_pieces(frame, match, "subject"), frame)
    other = builds.items.of(_pieces(frame, match, "list"), replace(frame, at=()))
    terms = tuple(item.terms[0] for item in (*one, *other))
    mode: Mode = "can" if match["not"] else "never"
    return [Claim(mode, terms, frame.given)]


def _drives(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """A part drives or takes a list: builds with just that many of it have the list."""
    subject = _subject_items(builds, frame, match)
    items = builds.items.of(_pieces(frame, match, "list"), frame)
    if any(item.limit or item.denied for item in items) and match["not"]:
        raise NoItem
    mode: Mode = "never" if match["not"] else "can"
    return builds.claims(mode, items, frame, given=subject)


def _subject_items(builds: Builds, frame: Frame, match: re.Match[str]) -> tuple[str, ...]:
    piece = frame.pieces[match.start("subject")]
    if piece.letter == "c":
        return (condition_text(piece),)
    found: list[str] = []
    for measure in piece.value:
        part = builds.book.parts.get(measure.thing.part)
        if part is not None and getattr(part, "external", None):
            raise NoItem
        if measure.thing.sort != "parts" or measure.op or measure.thing.absent:
            raise NoItem
        if measure.plural and not measure.values:
            found.append(measure.expression(None))
        else:
            found.append(Measure(measure.thing, "==", measure.values or (Fraction(1),)).alternatives[0])
    return tuple(found)


def _run_at(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """So much memory runs at such a speed."""
    return [
        Claim("always", (second.terms[0],), (first.terms[0], *frame.given))
        for first in builds.items.of(_pieces(frame, match, "subject"), frame)
        for second in builds.items.of(_pieces(frame, match, "list"), frame)
    ]


def _state(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """The machine, or builds with some parts, are in a state such as redundant."""
    piece = frame.pieces[match.start("list")]
    given: tuple[str, ...] = ()
    if match["subject"] == "T":
        items = builds.items.of(_pieces(frame, match, "subject"), frame)
        given = tuple(item.terms[0] for item in items)
    elif match["subject"] in ("W", "O"):
        given = _subject_given(frame, match)
    term = condition_text(piece)
    mode: Mode = "can" if match["can"] else "always"
    terms: tuple[str, ...] = (f"not {term}",) if match["not"] else (term,)
    return [_sited(Claim(mode, terms, (*given, *frame.given)), frame.condition)]


def _sited(claim: Claim, condition: Condition) -> Claim:
    return replace(claim, altitude=condition.altitude, inlet=condition.inlet)


def _runs_at(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Builds, or some parts, run at a voltage, an altitude or an inlet temperature."""
    terms: tuple[str, ...] = ("processors >= 1",)
    if match["subject"] == "T":
        items = builds.items.of(_pieces(frame, match, "subject"), frame)
        if any(item.limit or item.denied for item in items):
            return _limit_at(builds, frame, match, items)
        terms = tuple(item.terms[0] for item in items)
    conditions = tuple(_amounts(frame, match)) if match["amount"] else ()
    whole = replace(frame, conditions=(*frame.conditions, *conditions))
    if not whole.given and not (whole.condition.altitude or whole.condition.inlet):
        raise NoItem
    denied = match["not"] or _builds_mode(frame) == "never"
    held = (*terms, *whole.given)
    return [_sited(Claim("never" if denied else "can", held), whole.condition)]


def _limit_at(
    builds: Builds, frame: Frame, match: re.Match[str], items: Sequence[Item]
) -> Sequence[Claim]:
    conditions = tuple(_amounts(frame, match)) if match["amount"] else ()
    if match["not"]:
        raise NoItem
    return builds.claims("can", items, replace(frame, conditions=(*frame.conditions, *conditions)))


def _amounts(frame: Frame, match: re.Match[str]) -> Iterator[Condition]:
    for piece in _pieces(frame, match, "amount"):
        for measure in piece.value if piece.letter == "A" else ():
            op = "" if measure.op in ("", "==") else measure.op
            found = amount_condition(measure.values[0], measure.unit)
            if found is None or op or len(measure.values) != 1:
                raise NoItem
            yield found


def _builds_mode(frame: Frame) -> str:
    """Return what is said of which builds: always, can or never; empty where none are named."""
    return next((str(p.value) for p in frame.pieces if p.letter == "E"), "")


def _of_builds(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """Every build, some builds or no build has a state or a list."""
    mode = _builds_mode(frame)
    items = builds.items.of(_pieces(frame, match, "list"), frame)
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
    return [_sited(Claim(found, terms, (*given, *frame.given)), frame.condition)]


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
    mode: Mode = "can" if _builds_mode(frame) == "can" else "always"
    return [_sited(Claim(mode, (term,), (*given, *frame.given)), frame.condition)]


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
        items = builds.items.of(_pieces(frame, match, "list"), frame)
        if any(item.limit or item.denied or len(item.terms) > 1 for item in items):
            raise NoItem
        terms = tuple(item.terms[0] for item in items)
    mode: Mode = "never" if match["not"] else "can"
    return [_sited(Claim(mode, (*terms, *frame.given)), frame.condition)]


def _made_of(builds: Builds, frame: Frame, match: re.Match[str]) -> Sequence[Claim]:
    """So many parts make so much: wherever they are, so is that."""
    given = _subject_items(builds, frame, match)
    measures = frame.pieces[match.start("list")].value
    if any(m.thing.sort != "number" or not m.values or m.op for m in measures):
        raise NoItem
    items = builds.items.of(_pieces(frame, match, "list"), frame)
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
    (rf"M?(?P<subject>{LIST})M?m?(?P<not>n)?R(?P<list>{LIST})", _needs),
    (rf"(?P<subject>{LIST})m?(?P<not>n)?X(?P<list>{LIST})", _excludes),
    (rf"(?P<subject>[Tc])m?(?P<not>n)?[DK](?P<list>{LIST})Z?", _drives),
    (r"(?P<subject>T)H(?P<list>T)", _made_of),
    (r"(?P<subject>A)m?[BKD](?P<list>A)", _run_at),
    (r"(?P<subject>[MTWO])?(?P<can>m)?(?P<not>n)?[BKHZD]?(?P<list>c)", _state),
    (r"(?P<subject>[MTE])m?(?P<not>n)?[BKDk](?P<amount>A(?:&A)*)", _runs_at),
    (r"(?P<subject>)(?P<amount>A)m?B?(?P<not>n)?B?Z", _runs_at),
    (r"(?P<subject>[MTE])(?P<amount>)m?(?P<not>n)?B?[BKDkZ]", _runs_at),
    (r"E(?P<among>A)?m?(?P<not>n)?(?:[BKH]|(?P<lose>z))(?P<list>[cT](?:&[cT])*)", _of_builds),
    (r"i(?P<not>n)?(?P<list>T)f[ME]?k", _fails),
    (r"[ME]?(?P<not>n)?ki(?P<list>T)f", _fails),
    (r"[ME]?m?(?P<not>n)?a(?P<list>T)", _fails),
    (r"(?P<list>T)m?(?P<not>n)?f", _fails),
    (r"(?P<list>T)m?(?P<not>n)?B?Y", _left_out),
    (r"M?(?:m(?P<not>n)?[KDBZs]?|[KD])(?P<list>)", _without),
    (r"M(?P<not>n)[KD](?P<list>)", _without),
    (r"(?P<list>[TW])m?(?P<not>n)?[KDBZ]", _without),
    (rf"(?P<subject>M)m?(?P<not>n)?R(?P<list>{LIST})", _needs_always),
)
"""Patterns over letters, each with what it claims."""
