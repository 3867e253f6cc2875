"""What has to be at hand for a walkthrough."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.walk.walk import Walk
from baywright.facts.book import Book

CAUTION_KIT = {"static": ("a grounded strap", "static electricity")}
"""What a caution asks to have at hand."""


def kit_of(made: Walk) -> tuple[tuple[str, str], ...]:
    """Return tools, keys, kits and parts, each with what it is for."""
    return tuple(dict.fromkeys(_kit(made)))


def _kit(made: Walk) -> Iterator[tuple[str, str]]:
    book = made.opened.machine.book
    yield book.book.name, "the machine, stopped once before to see that it starts"
    for lock in book.locks.values():
        name = lock.name.text
        yield (name if "key" in name else f"key of the {name}"), "not to be left behind"
    needs = book.parts.get(made.asked.stance.needs)
    if needs is not None:
        yield needs.name, f"it stands {made.asked.stance.name}"
    yield from _tools(made, book)
    if made.build is not None:
        for fitted in made.build.places.values():
            for item in fitted.items:
                part = book.parts.get(str(item.part))
                if part is not None:
                    yield f"{item.count} × {part.name}", f"fitted for {made.build.name.text}"
    yield "the drawings of the shots", "for the overlay of call-outs"


def _tools(made: Walk, book: Book) -> Iterator[tuple[str, str]]:
    topics = {line.topic for shot in made.shots for line in shot.lines}
    for topic, kit in CAUTION_KIT.items():
        if f"caution {topic}" in topics:
            yield kit
    deepest = max(shot.station.off for shot in made.shots)
    if not deepest:
        return
    shown = {name for shot in made.shots for name in shot.station.places}
    kinds = {part.kind for name in shown for part in book.taken(_takes(book, name)).values()}
    for kind, work in book.service.work.items():
        if kind in kinds:
            for tool in work.tools:
                yield f"a {tool.text}", "for work on what is shown"


def _takes(book: Book, place: str) -> list[str]:
    held = book.places[place]
    kind = {"socket": "processor", "bank": "memory"}.get(held.type)
    return [kind] if kind else list(getattr(held, "takes", []))
