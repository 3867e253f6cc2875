"""True sentences made untrue by one change, and what they claim changed along with them.

A change is made in the sentence and in what it stands on at the same time: its expressions, or its
grounds where it has none. Some changes leave a sentence true ("up to 24" holds for 12 as well), so
only those are given that the desk does not find true. No reader of sentences may pass one of them
as true.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice
from typing import Literal

from baywright.problems import Problems
from baywright.terms import Expression, conjunction, parse, text
from baywright.terms.syntax import And, Call, Compare, Not
from tests.desk.demo import opened
from tests.language.corpus import Statement
from tests.language.truth import Truth, holds, site, truth

Kind = Literal["number", "unit", "quantifier", "scope", "part", "negation"]


@dataclass(frozen=True, slots=True)
class Mutation:
    """A true sentence with one change.

    Args:
        kind: what was changed.
        statement: the sentence afterwards, with what it claims now.
    """

    kind: Kind
    statement: Statement


_WORDS = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
    "fifteen sixteen seventeen eighteen nineteen twenty"
)
_NUMBERS = {word: value for value, word in enumerate(_WORDS.split())} | {
    "twenty-four": 24,
    "thirty-two": 32,
    "ninety-six": 96,
}
_DIGITS = r"(?<![\w.,-])\d+(?:,\d{3})*(?:\.\d+)?(?![\w-]|[.,]\d)"
_NUMBER = re.compile(rf"{_DIGITS}|\b(?:{'|'.join(sorted(_NUMBERS, reverse=True))})\b(?!-)", re.I)

_UNITS = {
    "TB": "GB",
    "GB": "TB",
    "W": "kW",
    "V": "kV",
    "MT/s": "GT/s",
    "Gb/s": "GB/s",
    "mm": "cm",
    "kg": "g",
    "CFM": "L/s",
}

_LIMIT = re.compile(
    r"\b(?:no more|at most|no further|limit|at least|least|fewer than|or more|slower than)\b", re.I
)

# How a sentence names a side or a zone, and how expressions name it.
_SIDES = {"at the front": '"front"', "at the rear": '"rear"', "inside": '"inside"'}

_ZONES = {zone: zone for zone in "ABC"}

# What a sentence calls a part, and what expressions call it; both are changed together.
_PARTS = (
    (("fast", '"fast"'), ("SAS", '"sas"')),
    (("double-wide", '"accel-dw"'), ("single-wide", '"accel-sw"')),
    (("C16", '"C16"'), ("X8", '"X8"')),
    (("S8i", '"S8i"'), ("S16i", '"S16i"')),
    (("48-core", '"cpu-48"'), ("16-core", '"cpu-16"')),
    (("32-core", '"cpu-32"'), ("48-core", '"cpu-48"')),
    (("128 GB", '"dimm-128"'), ("16 GB", '"dimm-16"')),
    (("1300 W", '"ps-1300"'), ("800 W", '"ps-800"')),
    (("2000 W", '"ps-2000"'), ("800 W", '"ps-800"')),
    (("1100 W", '"ps-1100"'), ("750 W", '"ps-750"')),
    (("350 W", '"accel-350"'), ("250 W", '"accel-250"')),
    (("USB", '"usb"'), ("video", '"video"')),
    (("boot module", '"boot-module"'), ("USB stick", '"usb-stick"')),
    (("wall", '"wall"'), ("tray", '"tray"')),
    (("Reedbed 9", '"reedbed_9"'), ("Reedbed 10", '"reedbed_10"')),
    (("DDR5", '"DDR5"'), ("DDR4", '"DDR4"')),
)

MORE = "more than"

Wording = tuple[str, str, str]
"""A pattern, what stands in its place, and the word that a claim has to start with for it."""

_QUANTIFIERS: tuple[Wording, ...] = (
    (r"\btakes up to\b", "always has", "can"),
    (r"\bsupports up to\b", "always has", "can"),
    (r"\bcan\b(?= (?:hold|take|have|run|carry|be|sit)\b)", "must", "can"),
    (r"\bmay\b", "must", "can"),
    (r"\b[Ss]ome builds\b", "all builds", "can"),
    (r"\bis possible\b", "is always there", "can"),
    (r"\bare possible\b", "are always there", "can"),
    (rf"\bat most\b(?= (?:{_NUMBER.pattern}))", MORE, "most"),
    (r"\b[Nn]o more than\b", MORE, "most"),
    (r"\bgoes up to\b", "starts at", "most"),
    (r"\b[Tt]he least\b", "the most", "least"),
)

_NEGATIONS: tuple[Wording, ...] = (
    (r"\bcan\b", "cannot", "can"),
    (r"\bmay\b", "may not", "can"),
    (r"\btakes\b", "does not take", "can"),
    (r"\bsupports\b", "does not support", "can"),
    (r"\bfits\b", "does not fit", "can"),
    (r"\bfit\b", "do not fit", "can"),
    (r"\bis possible\b", "is not possible", "can"),
    (r"\bare possible\b", "are not possible", "can"),
    (r"\bcannot\b", "can", "not can"),
    (r"\bnever\b", "sometimes", "not can"),
    (r"\bmust not\b", "may", "not can"),
    (r"\bdoes not run\b", "runs", "not can"),
    (r"\bNo\b", "Some", "not can"),
    (r"\bneeds\b", "does not need", "always"),
    (r"\bneed\b", "do not need", "always"),
    (r"\brequires\b", "does not require", "always"),
    (r"\brequire\b", "do not require", "always"),
    (r"\balways\b", "never", "always"),
    (r"\bhas\b", "does not have", "always"),
    (r"\bis\b", "is not", "always"),
    (r"\bare\b(?! no\b)", "are not", "always"),
    (r"\bcomes with\b", "comes without", "always"),
)


def mutations(statement: Statement) -> Iterator[Mutation]:
    """Yield every change of a true sentence that makes it untrue."""
    for made in _changes(statement):
        if not is_true(made.statement) and not _is_true_if_read_loosely(made.statement):
            tidy = replace(made.statement, text=_tidied(made.statement.text))
            yield replace(made, statement=tidy)


def _tidied(said: str) -> str:
    """Return a sentence with a capital at its start and the article that a part asks for."""
    return (said[0].upper() + said[1:]).replace(" a X8", " an X8").replace("an USB", "a USB")


def is_true(statement: Statement) -> bool:
    """Say whether all that a sentence claims is so; what a book cannot know is not."""
    _ = opened(*site(statement)).machine  # a book that is not sound has to raise, not to deny
    if not statement.expressions:
        return all(holds(ground, statement) for ground in statement.grounds)
    try:
        return all(truth(site(statement), claim) is Truth.TRUE for claim in statement.expressions)
    except Problems:
        return False


def _is_true_if_read_loosely(statement: Statement) -> bool:
    """Say whether a limit holds as one that nothing reaches, which some readers let pass."""
    if not _LIMIT.search(statement.text) or len(statement.expressions) != 1:
        return False
    claim = parse(statement.expressions[0])
    if _form(claim) not in ("most", "least"):
        return False
    return not is_true(replace(statement, expressions=(text(_exceeded(claim)),)))


def _changes(statement: Statement) -> Iterator[Mutation]:
    makers: tuple[tuple[Kind, Callable[[Statement], Iterator[Statement]]], ...] = (
        ("number", _other_numbers),
        ("unit", _other_units),
        ("quantifier", _other_quantifiers),
        ("scope", _other_scopes),
        ("part", _other_parts),
        ("negation", _negations),
    )
    for kind, make in makers:
        yield from (Mutation(kind, made) for made in make(statement))


def _other_numbers(statement: Statement) -> Iterator[Statement]:
    found = list(_NUMBER.finditer(statement.text))
    values = [_value(match.group()) for match in found]
    for match, value in zip(found, values, strict=True):
        if values.count(value) > 1:
            continue  # which of them an expression means is not known
        for other in _others(value):
            said = f"{statement.text[: match.start()]}{other}{statement.text[match.end() :]}"
            yield from _swapped(replace(statement, text=said), str(value), other)


def _value(written: str) -> Fraction:
    known = _NUMBERS.get(written.lower())
    return Fraction(written.replace(",", "")) if known is None else Fraction(known)


def _others(value: Fraction) -> list[str]:
    """Return numbers near a number, and twice and half of it."""
    if value.denominator > 1:
        return [f"{float(value * 2):g}"]
    whole = [value + 1, value - 1, value * 2, value // 2]
    return [str(other) for other in dict.fromkeys(whole) if other not in (0, value)]


def _swapped(statement: Statement, old: str, new: str) -> Iterator[Statement]:
    """Yield a sentence with a number changed in what it stands on, where it stands there once."""
    number = float(Fraction(old))
    pattern = re.compile(rf"(?<![\w.-]){re.escape(f'{number:.10g}')}(?![\w.-])")
    claims = _claims(statement)
    places = [statement.altitude, statement.inlet, *claims]
    if sum(len(pattern.findall(place)) for place in places) != 1:
        return
    altitude, inlet, *changed = (pattern.sub(new, place) for place in places)
    yield replace(_with_claims(statement, changed), altitude=altitude, inlet=inlet)


def _other_units(statement: Statement) -> Iterator[Statement]:
    for old, new in _UNITS.items():
        pattern = re.compile(rf"(?<=\d ){re.escape(old)}(?![\w/])")
        if len(pattern.findall(statement.text)) == 1:
            yield from _rewritten(statement, (pattern, new), (pattern, new))


def _other_scopes(statement: Statement) -> Iterator[Statement]:
    yield from _moved(statement, _ZONES, "(?<=[Zz]one )")
    if len(set(re.findall(r"\b(?:front|rear|inside)\b", statement.text.lower()))) == 1:
        yield from _moved(statement, _SIDES, r"\b")


def _moved(statement: Statement, names: Mapping[str, str], before: str) -> Iterator[Statement]:
    """Yield a sentence with the one scope that it names changed for each other."""
    said = {name: re.compile(rf"{before}{name}\b") for name in names}
    held = [name for name in names if said[name].search(statement.text)]
    if len(held) != 1:
        return
    claimed = re.compile(rf"(?<![\w-]){re.escape(names[held[0]])}(?![\w-])")
    for other in names:
        if other != held[0]:
            yield from _rewritten(statement, (said[held[0]], other), (claimed, names[other]))


def _other_parts(statement: Statement) -> Iterator[Statement]:
    for pair in _PARTS:
        for (said, meant), (other, other_meant) in (pair, pair[::-1]):
            if not re.search(rf"\b{other}\b", statement.text, re.IGNORECASE):
                here = re.compile(rf"\b{said}\b")
                there = re.compile(re.escape(meant))
                yield from _rewritten(statement, (here, other), (there, other_meant))


def _rewritten(
    statement: Statement, said: tuple[re.Pattern[str], str], meant: tuple[re.Pattern[str], str]
) -> Iterator[Statement]:
    """Yield a sentence rewritten by two patterns, where both of them occur."""
    claims = [meant[0].sub(meant[1], claim) for claim in _claims(statement)]
    if said[0].search(statement.text) and claims != _claims(statement):
        rewritten = replace(statement, text=said[0].sub(said[1], statement.text))
        yield _with_claims(rewritten, claims)


def _claims(statement: Statement) -> list[str]:
    return list(statement.expressions or statement.grounds)


def _with_claims(statement: Statement, claims: Iterable[str]) -> Statement:
    if statement.expressions:
        return replace(statement, expressions=tuple(claims))
    return replace(statement, grounds=tuple(claims))


def _other_quantifiers(statement: Statement) -> Iterator[Statement]:
    for pattern, new, form in _QUANTIFIERS:
        yield from _reworded(statement, (pattern, new, form), _exceeded if new == MORE else _turned)


def _negations(statement: Statement) -> Iterator[Statement]:
    """Yield a sentence with the first of its verbs denied."""
    found = (
        denied
        for wording in _NEGATIONS
        for denied in _reworded(statement, wording, _not_needed if _need(wording) else _denied)
    )
    yield from islice(found, 1)


def _need(wording: Wording) -> bool:
    return "need" in wording[0] or "require" in wording[0]


def _reworded(
    statement: Statement, wording: Wording, changed: Callable[[Expression], Expression]
) -> Iterator[Statement]:
    """Yield a sentence with a wording that suits what it claims, once, and its claim changed."""
    pattern, new, form = wording
    if len(statement.expressions) != 1 or not re.search(pattern, statement.text):
        return
    claim = parse(statement.expressions[0])
    if form == _form(claim):
        said = re.sub(pattern, new, statement.text, count=1)
        yield replace(statement, text=said, expressions=(text(changed(claim)),))


def _form(claim: Expression) -> str:
    """Return the word that a claim starts with."""
    match claim:
        case Call(name) | Compare(Call(name)):
            return name
        case Not(term):
            return f"not {_form(term)}"
        case _:
            return ""


def _turned(claim: Expression) -> Expression:
    """Return a claim about some build as one about each, and the most as the least."""
    match claim:
        case Call("can", terms):
            return Call("always", terms)
        case Compare(Call(name, terms, given)):
            other = "least" if name == "most" else "most"
            return replace(claim, left=Call(other, terms, given))
        case _:
            return claim


def _exceeded(claim: Expression) -> Expression:
    """Return that some build goes beyond the most or the least that is claimed."""
    match claim:
        case Compare(Call(name, (number,), given), _, limit):
            beyond = Compare(number, ">" if name == "most" else "<", limit)
            conditions = (keyword.value for keyword in given)
            return Call("can", (conjunction((beyond, *conditions)),))
        case _:
            return claim


def _not_needed(claim: Expression) -> Expression:
    """Return that a condition can be without what it is said to need."""
    match claim:
        case Call("always", (Call("implies", (condition, then)),)):
            return Call("can", (And((condition, Not(then))),))
        case _:
            return _denied(claim)


def _denied(claim: Expression) -> Expression:
    """Return the opposite of a claim, under the same condition where it has one."""
    match claim:
        case Not(term):
            return term
        case Call("always", (Call("implies", (condition, then)),)):
            return Call("always", (Call("implies", (condition, Not(then))),))
        case Call("always", (term,)):
            return Call("always", (Not(term),))
        case _:
            return Not(claim)
