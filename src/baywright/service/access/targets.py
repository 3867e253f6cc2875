"""What is to be changed, as people and logs name it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from baywright.facts.access import CORDS, POWER
from baywright.facts.book import Book
from baywright.facts.build import Fitted, Item
from baywright.facts.naming import matches
from baywright.facts.parts import KINDS, Cage
from baywright.facts.places import Zone
from baywright.problems import Problem, Problems, suggestion
from baywright.service.access.circumstances import Doing

CABLE = "cable"


@dataclass(frozen=True, slots=True)
class Target:
    """Parts alike that are changed in one place, or one of the steps on the way in.

    Args:
        place: id of the place, or empty for a step.
        part: id of the part; ``cable`` for the cable of a zone; the name of a step.
        number: how many.
        labels: what the log calls each that was named so.
    """

    place: str
    part: str
    number: int
    labels: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """What it is called in a plan, such as ``M1:dimm-64``."""
        return f"{self.place}:{self.part}" if self.place else self.part


@dataclass(frozen=True, slots=True)
class _Named:
    """A text that names a place, with what it says beyond that."""

    text: str
    place: str
    part: str
    label: str


def read_targets(
    book: Book,
    places: Mapping[str, Fitted],
    texts: Sequence[str],
    doing: Doing,
    steps: Iterable[str],
) -> tuple[Target, ...]:
    """Return what texts name: a place, PLACE:PART, a label of the log, or a step.

    A text that stands twice names two parts alike.

    Args:
        book: the book.
        places: what the build has in each place.
        texts: as typed.
        doing: what is done with it.
        steps: steps of access that the build has.

    Raises:
        Problems: kinds ``unknown-reference`` and ``no-part``, all of them.
    """
    found: list[Problem] = []
    known = [step for step in steps if step not in (POWER, CORDS)]
    counts: Counter[tuple[str, str]] = Counter()
    labels: dict[tuple[str, str], list[str]] = {}
    if not texts:
        raise Problems([Problem("no-part", "Nothing is named.", None, "Name one or more places.")])
    for text in texts:
        try:
            key, label = _read(book, places, text, doing, known)
        except Problems as problems:
            found += problems.problems
            continue
        counts[key] += 1
        labels.setdefault(key, []).extend([label] if label else [])
    found += _too_many(places, counts, labels, doing)
    if found:
        raise Problems(found)
    return tuple(
        Target(place, part, number, tuple(labels[place, part]))
        for (place, part), number in counts.items()
    )


def _read(
    book: Book, places: Mapping[str, Fitted], text: str, doing: Doing, steps: Sequence[str]
) -> tuple[tuple[str, str], str]:
    if text in steps:
        return ("", text), ""
    named = _place(book, text)
    if named is None:
        known = [*book.places, *steps]
        message = f"There is no place or step {text!r}."
        raise Problems([Problem("unknown-reference", message, None, suggestion(text, known))])
    return (named.place, _part(book, places, named, doing)), named.label


def _place(book: Book, text: str) -> _Named | None:
    """Return the place that a text names: by id, by name, or as the log does."""
    name, _, part = text.partition(":")
    for word, place in book.places.items():
        if name.strip() in (word, place.name):
            return _Named(text, word, part.strip(), "")
    for word, record in book.record.places.items():
        if any(matches(pattern, text) for pattern in record.locators):
            return _Named(text, word, "", text)
    return None


def _part(book: Book, places: Mapping[str, Fitted], named: _Named, doing: Doing) -> str:
    held = [item.part for item in _held(places, named.place)]
    wanted = named.part
    if wanted == CABLE and isinstance(book.places[named.place], Zone):
        return CABLE
    candidates = _may_come(book, named.place, held) if doing == "add" else _usual(book, held, named)
    if wanted:
        whole = _may_come(book, named.place, []) if doing == "add" else held
        candidates = [p for p in whole if wanted in (p, book.parts[p].kind)]
    if len(candidates) == 1:
        return candidates[0]
    if doing != "add" and named.place not in places:
        raise Problems([_unsaid(book, named)])
    raise Problems([_unclear(book, named, doing, candidates or held)])


def _held(places: Mapping[str, Fitted], place: str) -> tuple[Item, ...]:
    fitted = places.get(place)
    return fitted.items if fitted else ()


def _usual(book: Book, held: Sequence[str], named: _Named) -> list[str]:
    """Return what is meant where no part is named: of a zone, its drives."""
    inner = [part for part in held if not isinstance(book.parts[part], Cage)]
    return list(dict.fromkeys(inner or held))


def _may_come(book: Book, place: str, held: Sequence[str]) -> list[str]:
    """Return what may be added: another of what is there, else what the place takes."""
    inner = [part for part in held if not isinstance(book.parts[part], Cage)]
    if inner:
        return list(dict.fromkeys(inner))
    taken = list(book.taken(getattr(book.places[place], "takes", []) or _kinds(book, place)))
    cages = (book.parts[name] for name in [*held, *taken] if name in book.parts)
    holds = {interface for cage in cages if isinstance(cage, Cage) for interface in cage.holds}
    drives = book.parts_of("drive").items()
    inside = [name for name, drive in drives if getattr(drive, "interface", "") in holds]
    return inside if held else [*taken, *inside]


def _kinds(book: Book, place: str) -> list[str]:
    return {"socket": ["processor"], "bank": ["memory"]}.get(book.places[place].type, [])


def _unsaid(book: Book, named: _Named) -> Problem:
    message = f"The build does not say what is in {book.places[named.place].name}."
    return Problem("no-part", message, None, f"Write it under places, {named.place}, in the build.")


def _unclear(book: Book, named: _Named, doing: Doing, candidates: Sequence[str]) -> Problem:
    place = book.places[named.place].name
    kinds = [*book.parts, *KINDS]
    if named.part and named.part not in kinds:
        message = f"There is no part or kind of part {named.part!r}."
        return Problem("unknown-reference", message, None, suggestion(named.part, kinds))
    if not candidates:
        message = f"There is nothing in {place} to {doing}."
        return Problem("no-part", message, None, "Name a place that holds a part, or use add.")
    verb = {"replace": "replaced", "add": "added", "remove": "removed"}[doing]
    known = ", ".join(f"{named.place}:{part}" for part in candidates[:6])
    message = f"It is not clear which part of {place} is to be {verb}."
    return Problem("no-part", message, None, f"Write one of these, or one like them: {known}.")


def _too_many(
    places: Mapping[str, Fitted],
    counts: Mapping[tuple[str, str], int],
    labels: Mapping[tuple[str, str], list[str]],
    doing: Doing,
) -> Iterator[Problem]:
    """Yield what is named more often than it is there, or twice by the same label."""
    for (place, part), number in counts.items():
        there = sum(item.count for item in _held(places, place) if item.part == part)
        if place and part != CABLE and doing != "add" and number > there:
            message = f"{place} is named {number} times, and has {there} of {part}."
            yield Problem("no-part", message, None, "Name each part once.")
        repeated = [label for label, n in Counter(labels[place, part]).items() if n > 1]
        for label in repeated:
            yield Problem("no-part", f"{label} is named twice.", None, "Name each part once.")
