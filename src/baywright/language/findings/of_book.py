"""What findings compare a draft with, taken from a book."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby

from baywright.facts.book import Book
from baywright.facts.cautions import CAUTIONS
from baywright.facts.fact import Fact
from baywright.facts.sections import Interlock
from baywright.language.findings.amounts_of_book import amounts_of
from baywright.language.findings.grounds import WORDS_PER_MINUTE, Grounds, Hazard, Needed
from baywright.language.findings.tellings_of_book import tellings_of
from baywright.language.trade import NOUNS
from baywright.language.word_forms import several

SIGNS: Mapping[str, str] = {
    "several-cords": r"\b(?:pull|unplug|every|all|both)\b.*\bcords?\b|\bstandby power\b",
    "stored-energy": r"\bstored?\b.*\benergy\b|\benergy\b.*\bstored?\b|\bcharge[sd]?\b|\bcapacitor",
    "no-airflow": r"\bair ?flow\b|\boverheat|\bwithout air\b",
    "lifting": r"\blift|\bheavy\b|\bweigh|\btwo people\b|\btip\b",
    "rebuild": r"\brebuil",
    "write-cache": r"\bcache\b",
    "hot-surface": r"\bhot\b(?!-)|\bburn|\bcool",
    "moving-fan": r"\bfingers?\b|\bblades?\b|\bfans?\b.*\b(?:stop|turn|spin|still)|\bsharp\b",
    "static": r"\bstatic\b|\bstrap\b|\bgrounded\b|\besd\b",
    "moving-array": r"\barray",
    "forced-off": r"\bstop the (?:system|machine)\b|\bshut\b.*\bdown\b|\bgood order\b",
    "removed-media": r"\bencrypt|\bhold data\b|\berase",
}
"""What a sentence says, in small letters, that tells the hazard of a caution."""

_POWER_GOES = (
    r"\b(?:cut|lose|drop|kill|switch(?:es)? off|turn(?:s)? off)\w*\b.*\bpower\b"
    r"|\bpower\b.*\b(?:off|cut|lost|gone|drops?|fails?|stops?)\b"
    r"|\b(?:stops?|goes? down|shuts? down) (?:at once|in an orderly way|by itself)"
    r"|\b(?:shut|switch|power|turn)\b.*\b(?:down|off)\b|\bpull\b.*\bcords?\b"
)
TOO_GENERAL = several("part chip module card unit pack display stick")
"""Words that are used for many things, and so are no second name of one."""

_FIRST = "Stop the system in good order, and pull every cord first."


def grounds_of(book: Book, words_per_minute: float = WORDS_PER_MINUTE) -> Grounds:
    """Return what a draft about a machine is compared with.

    Args:
        book: the book of the machine.
        words_per_minute: the fastest speech that captions may ask for.
    """
    amounts = amounts_of(book)
    return Grounds(
        names=dict(_names(book)),
        places=tuple(place.name for place in book.places.values()),
        amounts=amounts,
        tellings=tellings_of(book, amounts),
        hazards=(*_interlocks(book), *_work(book)),
        needed=tuple(_needed(book)),
        words_per_minute=words_per_minute,
    )


def _names(book: Book) -> Iterator[tuple[str, str]]:
    """Yield the names of kinds of part; a part of a kind is another thing than its kind."""
    for kind, phrases in NOUNS["kind"].items():
        if book.parts_of(kind):
            yield from _names_of(kind, (phrase.strip() for phrase in phrases.split(",")))
    for key, words in book.words.items():
        if key not in book.parts:
            yield from _names_of(str(key), words)


def _names_of(thing: str, phrases: Iterable[str]) -> Iterator[tuple[str, str]]:
    return ((str(phrase), thing) for phrase in phrases if phrase not in TOO_GENERAL)


def _interlocks(book: Book) -> Iterator[Hazard]:
    """Yield a hazard for each thing whose removal the machine answers while it runs."""
    running = [(key, lock) for key, lock in book.interlocks.items() if lock.while_ == "running"]
    for key, lock in running:
        if lock.action.value is None or lock.effect.value is None:
            continue
        effect = re.escape(lock.effect.known.casefold())
        yield Hazard(
            f"interlocks.{key}",
            (_subject(lock),),
            re.compile(rf"{_POWER_GOES}|{effect}"),
            f"Caution: when {lock.action.known} while the machine is running, "
            f"{lock.effect.known}. {_FIRST}",
            book.cite(lock.action, lock.effect),
            immediate=True,
        )


def _subject(lock: Interlock) -> str:
    """Return what an action is done to: ``the lid is opened`` is about a lid."""
    before = re.split(r" (?:is|are) ", lock.action.known.casefold(), maxsplit=1)[0]
    return before.removeprefix("the ")


def _work(book: Book) -> Iterator[Hazard]:
    """Yield a hazard for each caution of work on a kind of part or on a part."""
    phrases = {
        kind: tuple(name for name, _ in named)
        for kind, named in groupby(_names(book), key=lambda pair: pair[1])
    }
    for key, work in book.service.work.items():
        part = book.parts.get(key)
        things = phrases.get(key, ()) if part is None else (part.name, str(key))
        for caution in work.cautions:
            if things and caution in CAUTIONS and caution in SIGNS:
                yield _caution(book, str(key), things, caution)


def _caution(book: Book, key: str, things: tuple[str, ...], name: str) -> Hazard:
    held = CAUTIONS[name]
    return Hazard(
        f"service.work.{key}.{name}",
        tuple(thing.casefold() for thing in things),
        re.compile(SIGNS[name]),
        f"{held.word.capitalize()}: {held.hazard} {held.consequence} {held.avoidance}",
        book.cite(name),
    )


def _needed(book: Book) -> Iterator[Needed]:
    for key, needed in book.must_say.items():
        if needed.says.value is not None:
            yield Needed(
                str(key),
                needed.says.known,
                _known(needed.counts),
                _known(needed.about),
                book.cite(needed.says),
            )


def _known(facts: list[Fact[str]]) -> tuple[str, ...]:
    return tuple(fact.known for fact in facts if fact.value is not None)
