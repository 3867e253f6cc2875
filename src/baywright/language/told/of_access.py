"""What a book tells of locks, interlocks, lights and service work."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from baywright.facts.book import Book
from baywright.facts.sections import Light
from baywright.language.told.telling import Told, with_article
from baywright.laws.wording import capitalised, listed

_PARTS = {
    "processor": "processor", "memory": "memory module", "cage": "cage", "drive": "drive",
    "controller": "controller", "pack": "energy pack", "accelerator": "accelerator",
    "network": "network module", "boot": "boot medium", "display": "fault display",
    "supply": "supply", "fan": "fan",
}  # fmt: skip
"""What one part of a kind is called."""


def of_locks(book: Book) -> Iterator[Told]:
    """Yield what each lock holds, what it leaves, and the remark on it."""
    for lock in book.locks.values():
        held = listed(with_article(each.text) for each in lock.covers)
        yield Told("lock", f"The {lock.name.text} covers {held}.", book.cite(*lock.covers))
        if lock.leaves:
            free = listed(each.text for each in lock.leaves)
            says = f"When it is locked, {free} can still be reached."
            yield Told("lock", says, book.cite(*lock.leaves))
        if lock.note is not None:
            yield Told("lock", f"{capitalised(lock.note.text)}.", book.cite(lock.note))


def of_interlocks(book: Book) -> Iterator[Told]:
    """Yield what the machine does by itself."""
    for lock in book.interlocks.values():
        cited = book.cite(lock.action, lock.effect, lock.after)
        if lock.while_ != "running":
            yield Told("interlock", f"When {lock.action.text}, {lock.effect.text}.", cited)
            continue
        when = "when"
        if lock.after is not None and lock.after.value is not None and lock.after.known.magnitude:
            when = f"{lock.after.text} after"
        says = f"Caution: while the machine runs, {lock.effect.text} {when} {lock.action.text}."
        yield Told("interlock", says, cited)


def of_lights(book: Book) -> Iterator[Told]:
    """Yield what the lights show, those that are seen alike together."""
    for (seen, needs), group in groupby(book.lights.values(), key=_seen):
        lights = list(group)
        cited = book.cite(*(fact for each in lights for fact in (each.shows, each.seen)))
        shown = listed(_a_fault(each.shows.text) for each in lights)
        part = book.parts.get(needs)
        where = f"With the {part.name} fitted, at the {seen}" if part else _where(seen)
        noun = "a light shows" if len(lights) == 1 else "lights show"
        yield Told("lights", f"{capitalised(where)}, {noun} {shown}.", cited)
        for light in lights:
            if light.lasts is not None:
                thing = light.shows.text.rpartition(" that ")[2]
                says = f"The light of a {thing} stays on for {light.lasts.text} without power."
                yield Told("lights", says, book.cite(light.lasts, light.shows))


def of_service(book: Book) -> Iterator[Told]:
    """Yield the order of removal, what may be done while running, waits and marks."""
    service = book.service
    if service.order:
        says = f"From outside in, the order is {listed(each.text for each in service.order)}."
        yield Told("service", says, book.cite(*service.order))
    for work in service.running:
        thing, colon, how = work.text.partition(": ")
        says = f"While the machine runs, you may change {thing}{f' ({how})' if colon else ''}."
        yield Told("running", says, book.cite(work))
    for thing, wait in service.waits.items():
        note = ""
        if wait.note:
            note = f", {wait.note}" if wait.note.startswith("until") else f": it is {wait.note}"
        says = f"Wait {wait.text} before you touch the {thing}{note}."
        yield Told(f"wait {thing}", says, book.cite(wait))
    for mark, where in service.marks.items():
        yield Told("marks", f"The mark {mark} stands on {where.text}.", book.cite(where))
    yield from _work(book)


def _work(book: Book) -> Iterator[Told]:
    """Yield how long work on one part takes, and with which tools."""
    for kind, work in book.service.work.items():
        noun = _PARTS.get(str(kind))
        if noun is None or work.time is None:
            continue
        tools = listed(f"a {tool.text}" for tool in work.tools)
        using = f" with {tools}" if tools else ""
        says = f"Fitting or taking out one {noun} takes {work.time.text} of work{using}."
        yield Told(f"work {kind}", says, book.cite(work.time, *work.tools))


def _seen(light: Light) -> tuple[str, str]:
    return light.seen.text, str(light.needs or "")


def _where(seen: str) -> str:
    return f"at the {seen}" if " " not in seen and seen != "inside" else seen


def _a_fault(shows: str) -> str:
    """Return what a light shows with its article."""
    if shows.startswith("fault"):
        return f"a {shows}"
    return f"the {shows}" if shows.startswith("code") else shows
