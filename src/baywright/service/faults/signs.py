"""Signs: every light, code, log line and symptom of a build, with the faults that show it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum

from baywright.facts.book import Book
from baywright.facts.citation import Citation
from baywright.facts.fact import Words
from baywright.facts.faults import NO_POWER, STOPPED
from baywright.facts.faults import Sign as SignFacts
from baywright.facts.sections import Light
from baywright.service.faults.found import Fault, covered
from baywright.service.losing.standing import label_of, place_of

BUILT_IN = {NO_POWER: "no power", STOPPED: "the machine has stopped"}
"""Names of the symptoms that any machine can show."""

Faults = frozenset[str]


class Shown(IntEnum):
    """Whether a sign is shown."""

    OFF = 0
    MAYBE = 1
    ON = 2


@dataclass(frozen=True, slots=True)
class Way:
    """A way of looking: what has to be off, and what is read.

    Args:
        behind: steps of access that have to be off.
        by: what it is read with, or empty for eyes alone.
    """

    behind: tuple[str, ...] = ()
    by: str = ""

    @property
    def outside(self) -> bool:
        """Whether it takes nothing but eyes."""
        return not self.behind and not self.by


OUTSIDE = Way()


@dataclass(frozen=True, slots=True)
class Sign:
    """Something that is seen or not.

    Args:
        key: its id, such as ``summary``, ``drive.A.3`` or ``display-code=21``.
        name: what people call it.
        phrases: other words for it.
        group: id of the light or symptom in the book.
        called: what all of that light or symptom are called.
        way: how it is looked at.
        always: faults that always show it.
        perhaps: faults that can show it and need not.
        masked_by: faults while which it cannot be seen.
        needs: part or kind of part without which it is not there, or empty.
        facts: the facts it stands on.
    """

    key: str
    name: str
    phrases: tuple[str, ...]
    group: str
    called: str
    way: Way
    always: Faults
    perhaps: Faults = frozenset()
    masked_by: Faults = frozenset()
    needs: str = ""
    facts: tuple[Citation, ...] = ()

    def shown(self, faults: Collection[str]) -> Shown:
        """Return whether some faults at once show it."""
        if not self.masked_by.isdisjoint(faults):
            return Shown.OFF
        if not self.always.isdisjoint(faults):
            return Shown.ON
        return Shown.OFF if self.perhaps.isdisjoint(faults) else Shown.MAYBE

    def masked(self, faults: Collection[str]) -> bool:
        """Say whether some faults at once hide it, though one of them would show it."""
        return not self.masked_by.isdisjoint(faults) and not self.always.isdisjoint(faults)


def signs_of(
    book: Book, faults: Sequence[Fault], perhaps: Mapping[str, Faults]
) -> tuple[Sign, ...]:
    """Return every sign that a book has for some faults, those of optional parts included.

    Args:
        book: the book.
        faults: what can be at fault.
        perhaps: by symptom of any machine, the faults that can show it.
    """
    return (*_lights(book, faults), *_symptoms(book, faults, perhaps))


def there(signs: Iterable[Sign], fitted: Collection[str]) -> tuple[Sign, ...]:
    """Return the signs that a build has, given the ids and kinds of its parts."""
    return tuple(sign for sign in signs if not sign.needs or sign.needs in fitted)


def _lights(book: Book, faults: Sequence[Fault]) -> Iterator[Sign]:
    for key, light in book.lights.items():
        whole = _sign(book, str(key), f"{str(key).replace('-', ' ')} light", light, faults)
        if light.codes:
            yield from _codes(book, whole, light, faults)
        elif light.each is not None and light.each.known:
            yield from _of_each(book, whole, faults)
        else:
            yield whole


def _symptoms(book: Book, faults: Sequence[Fault], perhaps: Mapping[str, Faults]) -> Iterator[Sign]:
    dead = _built_in(book, faults, NO_POWER, perhaps.get(NO_POWER, frozenset()))
    may_stop = perhaps.get(STOPPED, frozenset()) | dead.always | dead.perhaps
    yield from (dead, _built_in(book, faults, STOPPED, may_stop))
    for key, facts in book.symptoms.items():
        if key not in BUILT_IN:
            whole = _sign(book, str(key), str(key).replace("-", " "), facts, faults)
            each = facts.each is not None and facts.each.known
            yield from _of_each(book, whole, faults) if each else (whole,)


def _built_in(book: Book, faults: Sequence[Fault], key: str, perhaps: Faults) -> Sign:
    """Return a symptom of any machine, which faults show, or can show by what is lost with them."""
    facts = book.symptoms.get(key, SignFacts())
    sign = _sign(book, key, BUILT_IN[key], facts, faults)
    always = sign.always | _interlocked(book, faults, key)
    return replace(sign, always=always, perhaps=perhaps - always)


def _interlocked(book: Book, faults: Sequence[Fault], key: str) -> Faults:
    """Return the interlocks that keep the machine from starting, or stop it."""
    when = {NO_POWER: "starting", STOPPED: "running"}[key]
    words = [str(name) for name, each in book.interlocks.items() if each.while_ == when]
    return covered(faults, words)


def _sign(book: Book, key: str, name: str, facts: SignFacts, faults: Sequence[Fault]) -> Sign:
    called = facts.name.text if facts.name is not None else name
    return Sign(
        key,
        called,
        tuple(phrase.text for phrase in facts.phrases),
        key,
        called,
        way_of(facts),
        covered(faults, facts.covers),
        frozenset(),
        covered(faults, facts.masked_by),
        str(facts.needs or ""),
        book.cite(*_quoted(facts)),
    )


def way_of(facts: SignFacts) -> Way:
    """Return how a sign is looked at."""
    return Way(tuple(map(str, facts.behind)), facts.by.text if facts.by is not None else "")


def _quoted(facts: SignFacts) -> Iterator[Words | str | None]:
    if isinstance(facts, Light):
        yield from (facts.shows, facts.seen)
    yield from facts.covers


def _of_each(book: Book, whole: Sign, faults: Sequence[Fault]) -> Iterator[Sign]:
    """Yield the light of each of what a light covers."""
    for fault in faults:
        if fault.id in whole.always:
            words = (whole.name, *whole.phrases)
            labels = (fault.id, *_labels(book, fault))
            yield replace(
                whole,
                key=f"{whole.key}.{fault.id}",
                name=f"{whole.name} {fault.id}",
                phrases=tuple(f"{word} {label}" for word in words for label in labels)[1:],
                always=frozenset({fault.id}),
            )


def _labels(book: Book, fault: Fault) -> Iterator[str]:
    """Yield what the log calls a position."""
    record = book.record.places.get(place_of(fault.id))
    label = label_of(fault.id)
    for locator in record.locators if record is not None else ():
        if ("*" in locator) == bool(label):
            yield locator.replace("*", label.upper())


def _codes(book: Book, whole: Sign, light: Light, faults: Sequence[Fault]) -> Iterator[Sign]:
    """Yield each code; what stands before it goes before it where there are several faults."""
    earlier: Faults = frozenset()
    for word, code in light.codes.items():
        always = covered(faults, [word]) - earlier
        yield replace(
            whole,
            key=f"{whole.key}={code.text}",
            name=f"{whole.name} {code.text}",
            phrases=(code.text, *(f"{phrase} {code.text}" for phrase in whole.phrases)),
            always=always,
            masked_by=whole.masked_by | earlier,
            facts=(*whole.facts, *book.cite(code)),
        )
        earlier |= always
