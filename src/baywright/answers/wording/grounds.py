"""Reasons and facts in words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import TypeAlias

from baywright.answers.verdicts import Change, More, OtherReasons, Reason
from baywright.answers.wording.names import Names
from baywright.answers.wording.numbers import small, total_words
from baywright.answers.wording.sheet import Ground, OtherGrounds, Quote, Sheet, Turn
from baywright.facts.citation import Citation

Tell: TypeAlias = Callable[[Iterable[Reason]], tuple[Ground, ...]]
"""Says the reasons of one set."""

BEYOND = "wish:beyond"
"""Key of the wish for more than the most, or less than the least."""


def quote(citation: Citation, sentence: str = "") -> Quote:
    """Return a fact as it is quoted; a value that the sentence says already is left out."""
    value = citation.text
    if value.rstrip(".").casefold() == sentence.rstrip(".").casefold():
        value = ""
    dated = f", {citation.date.isoformat()}" if citation.date else ""
    status = f", {citation.status}" if citation.status != "stated" else ""
    source = f"{citation.source}{dated}{status}" if citation.source else status.removeprefix(", ")
    where = f"{citation.mark.file}:{citation.mark.line}" if citation.mark else ""
    return Quote(value, citation.path, source, where)


def grounds(reasons: Iterable[Reason], names: Names, beyond: str = "") -> tuple[Ground, ...]:
    """Return reasons in words, laws and rules first.

    Args:
        reasons: the reasons.
        names: what the book calls things.
        beyond: how the wish for more than the most is said.
    """
    ordered = sorted(reasons, key=lambda reason: reason.kind == "wish")
    return tuple(_ground(reason, names, beyond) for reason in ordered)


def _ground(reason: Reason, names: Names, beyond: str) -> Ground:
    is_beyond = reason.key == BEYOND and beyond
    return Ground(
        reason.key,
        "asked" if reason.kind == "wish" else reason.kind,
        beyond if is_beyond else reason.sentence,
        "" if is_beyond else total_words(reason.key, reason.tally, names),
        tuple(dict.fromkeys(quote(fact, reason.sentence) for fact in reason.facts)),
    )


def needed(reasons: Sequence[Reason]) -> str:
    """Say that each reason is needed."""
    if not reasons:
        return ""
    number = len(reasons)
    which = {1: "it", 2: "either of the two"}.get(number, f"any one of the {small(number)}")
    return f"Without {which} a build exists."


def with_others(sheet: Sheet, others: OtherReasons | None, told: Tell) -> Sheet:
    """Return a sheet with further sets of reasons, and whether those are all.

    Args:
        sheet: the sheet with the first set.
        others: the further sets, where they were asked for.
        told: says the reasons of one set.
    """
    if others is None:
        return sheet
    sets = tuple(
        OtherGrounds(f"{sheet.grounds_title}, set {number}", told(reasons), needed(reasons))
        for number, reasons in enumerate(others.sets, 2)
    )
    return replace(sheet, others=sets, complete=_complete(len(sets) + 1, others.more))


def _complete(number: int, more: More) -> str:
    match more:
        case "none" if number == 1:
            return "There is no other minimal set of reasons."
        case "none":
            return f"These {small(number)} minimal sets of reasons are all there are."
        case "some":
            return "There are more minimal sets of reasons."
        case "unknown":
            return "There may be more minimal sets of reasons; the time was up."


def turns(changes: Sequence[Change], names: Names) -> tuple[Turn, ...]:
    """Return changes in words; places that change alike are said together."""
    alike: dict[tuple[str, str], list[str]] = {}
    for change in changes:
        alike.setdefault((change.asked, change.instead), []).append(change.what)
    return tuple(
        Turn(_together(what), *_values(names, what[0], asked, instead))
        for (asked, instead), what in alike.items()
    )


def _together(what: Sequence[str]) -> str:
    return " and ".join((", ".join(what[:-1]), what[-1])) if len(what) > 1 else what[0]


def _values(names: Names, what: str, asked: str, instead: str) -> tuple[str, str]:
    """A setting is said by its meaning; what replaces an expression is said to do so."""
    if what in names.book.settings:
        return names.label(what, asked), names.label(what, instead)
    if asked == "asked":
        return asked, instead if instead == "given up" else f"{instead} instead"
    return asked, instead
