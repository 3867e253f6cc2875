"""Whether what a book or a build refers to exists, and whether its facts fit each other."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from baywright.facts.access import CORDS, POWER, Way
from baywright.facts.book import Book, facts_of
from baywright.facts.build import Build, Fitted
from baywright.facts.cautions import CAUTIONS
from baywright.facts.consistency import check_amounts, check_dates
from baywright.facts.cycles import check_cycles
from baywright.facts.fact import Fact, mark_of
from baywright.facts.faults import BOARD, PARTS
from baywright.facts.identifiers import check_ids
from baywright.facts.parts import KINDS, Cage, Drive, Supply
from baywright.facts.places import AnyPlace, Slot, Socket
from baywright.facts.readers import shown
from baywright.facts.sections import OTHER_WORK, FirmwareSection, Light, Service, Setting
from baywright.facts.site_checks import check_site
from baywright.problems import Mark, Problem, Problems, suggestion
from baywright.terms.parse import parse


@dataclass(frozen=True, slots=True)
class Reference:
    """A word that stands for something else in the book.

    Args:
        word: what is written.
        noun: what it should be, such as ``processor socket``.
        known: the words that are one.
        mark: where it is written, when the word does not know it itself.
    """

    word: str
    noun: str
    known: Collection[str]
    mark: Mark | None = None

    def problem(self, book: Book) -> Problem | None:
        """Return what is wrong with it, or ``None`` when it names something."""
        if self.word in self.known:
            return None
        mark = mark_of(self.word) or self.mark
        other = book.places.get(self.word)
        if other is not None:
            message = f"{shown(self.word)} is a {other.type}; a {self.noun} is wanted here."
        else:
            message = f"There is no {self.noun} {shown(self.word)}."
        return Problem("unknown-reference", message, mark, suggestion(self.word, self.known))


def check_references(book: Book) -> list[Problem]:
    """Return what does not fit together in a book that is well formed by itself.

    Kinds of problem: ``unknown-reference``, ``not-an-id``, ``clash``, ``cycle``, ``out-of-order``,
    ``wrong-currency``, ``not-positive``, ``too-many`` and those of expressions.
    """
    found = [reference.problem(book) for reference in _references(book)]
    problems = [problem for problem in found if problem is not None]
    problems += check_ids(book)
    problems += check_cycles(book)
    problems += check_dates(book)
    problems += check_amounts(book)
    problems += _check_expressions(_expressions(book))
    return problems


def check_build(build: Build, book: Book) -> list[Problem]:
    """Return what a build names and its book does not have.

    A part in a place that does not take it is no problem here: the laws refuse it with a reason.
    """
    references = [
        *_fitted(build.places, book),
        *_set(build.settings, book.settings),
    ]
    found = [reference.problem(book) for reference in references]
    problems = [problem for problem in found if problem is not None]
    problems += _check_book(build, book)
    problems += _check_counts(build.places)
    problems += _check_expressions(build.must)
    problems += check_site(build.site)
    return problems


def _references(book: Book) -> Iterator[Reference]:
    for place in book.places.values():
        yield from _of_place(place, book)
    sockets = book.places_of(Socket)
    for link in book.links.values():
        yield Reference(link.owner, "processor socket", sockets)
        yield from _all(link.feeds, "place", book.places)
    for part in book.parts.values():
        yield from _all(part.brings, "part", book.parts)
        if isinstance(part, Cage):
            yield from _all([part.blank], "part", book.parts)
        if isinstance(part, Supply):
            yield from _all(part.ratings, "power line", book.power.lines)
    for model in book.models.values():
        yield from _fitted(model.places, book)
        yield from _set(model.settings, book.settings)
    for orientation in book.chassis.orientations.values():
        yield from _all([orientation.needs], "part", book.parts)
    yield from _of_signs(book)
    yield from _all(book.words, "part, place, kind, interface or setting.value", _named(book))
    yield from _of_firmware(book.firmware, book)
    yield from _of_service(book.service, book)
    yield from _of_access(book)
    yield from _of_record(book)
    yield from _sources(book)


def _of_signs(book: Book) -> Iterator[Reference]:
    known = [*_parts_and_kinds(book), BOARD, PARTS, *book.interlocks, *book.causes]
    for sign in (*book.lights.values(), *book.symptoms.values()):
        codes = sign.codes if isinstance(sign, Light) else {}
        yield from _all([sign.needs], "part or kind of part", _parts_and_kinds(book))
        yield from _all([*sign.covers, *sign.masked_by, *codes], "fault", known)
        yield from _all(sign.behind, "step of service.access", _steps(book))
    checks = [each.check for each in book.interlocks.values()]
    for check in (*checks, *(each.check for each in book.causes.values())):
        behind = check.behind if check is not None else ()
        yield from _all(behind, "step of service.access", _steps(book))


def _named(book: Book) -> list[str]:
    """Return everything that phrases can be given for."""
    held = [*book.parts, *book.places, *KINDS]
    held += [str(part.interface) for part in book.parts.values() if isinstance(part, Drive)]
    held += [f"{key}.{value}" for key, each in book.settings.items() for value in each.values]
    return held


def _of_place(place: AnyPlace, book: Book) -> Iterator[Reference]:
    owner = getattr(place, "owner", None)
    yield from _all([owner], "processor socket", book.places_of(Socket))
    yield from _all(getattr(place, "takes", ()), "part or kind of part", _parts_and_kinds(book))
    yield from _all([getattr(place, "always", None), place.blank], "part", book.parts)
    if getattr(place, "always", None) in book.parts:
        taken = book.taken(getattr(place, "takes", []))
        yield Reference(getattr(place, "always", ""), "part that this place takes:", taken)
    slots = book.places_of(Slot)
    for field in ("controllers", "serves"):
        yield from _all(getattr(place, field, ()), "slot", slots)
    yield from _all([getattr(place, "neighbour", None)], "slot", slots)
    yield from _of_ways(place.ways, book)
    if place.inside is not None and not _is_step(place.inside, book):
        known = [*book.places, *_steps(book)]
        yield Reference(place.inside, "place or step of the service order", known)


def _of_ways(ways: Iterable[Way], book: Book) -> Iterator[Reference]:
    for way in ways:
        yield from _all(way.off, "step of service.access", _steps(book))


def _steps(book: Book) -> list[str]:
    """Return everything that can be off: steps with facts of their own, and those of the order."""
    order = (step.text for step in book.service.order)
    return list(dict.fromkeys([*book.service.access, *order, POWER, CORDS]))


def _is_step(word: str, book: Book) -> bool:
    """Say whether a step of the service order is meant: ``risers`` names ``riser 1`` as well."""
    stem = word.rstrip("0123456789 ")
    if word in book.service.access:
        return True
    return any(step.text in (word, stem, f"{stem}s") for step in book.service.order)


def _of_firmware(firmware: FirmwareSection, book: Book) -> Iterator[Reference]:
    system = book.settings.get("system")
    for minimum in firmware.minimum:
        yield Reference(minimum.part, "part", book.parts)
        known = system.values if system else ()
        yield from _all(minimum.systems, "value of the setting 'system'", known)


def _of_record(book: Book) -> Iterator[Reference]:
    yield from _all(book.record.places, "place", book.places)
    yield from _all(book.record.parts, "part", book.parts)
    interfaces = {part.interface for part in book.parts.values() if isinstance(part, Drive)}
    yield from _all(book.record.interfaces, "interface of a drive", interfaces)


def _of_service(service: Service, book: Book) -> Iterator[Reference]:
    yield from _all(service.work, "part or kind of part", [*_parts_and_kinds(book), *OTHER_WORK])
    for work in service.work.values():
        yield from _all([work.wait], "wait", service.waits)
        yield from _all(work.cautions, "caution", CAUTIONS)


def _of_access(book: Book) -> Iterator[Reference]:
    for work in book.service.work.values():
        yield from _all(work.behind, "step of service.access", _steps(book))
    for step in book.service.access.values():
        yield from _all(step.behind, "step of service.access", _steps(book))
        yield from _of_ways(step.other_ways, book)
        yield from _all(step.interlocks, "interlock", book.interlocks)
        yield from _all(step.cautions, "caution", CAUTIONS)


def _sources(book: Book) -> Iterator[Reference]:
    yield Reference(book.book.source, "source", book.sources)
    for fact in facts_of(book):
        for source in dict.fromkeys((fact.source, *(told.source for told in fact.told))):
            if source:
                yield Reference(source, "source", book.sources, fact.mark)


def _fitted(places: Mapping[str, Fitted], book: Book) -> Iterator[Reference]:
    slots = book.places_of(Slot)
    yield from _all(places, "place", book.places)
    for fitted in places.values():
        yield from _all((item.part for item in fitted.items), "part", book.parts)
        yield from _all([fitted.controller], "slot", slots)


def _set(values: Mapping[str, str], settings: Mapping[str, Setting]) -> Iterator[Reference]:
    yield from _all(values, "setting", settings)
    for name, value in values.items():
        if name in settings:
            yield Reference(value, f"value of {shown(name)}", settings[name].values)


def _all(words: Iterable[str | None], noun: str, known: Collection[str]) -> Iterator[Reference]:
    return (Reference(word, noun, known) for word in words if word is not None)


def _parts_and_kinds(book: Book) -> list[str]:
    return [*book.parts, *KINDS]


def _check_book(build: Build, book: Book) -> Iterator[Problem]:
    if build.book != book.book.id:
        message = f"The build is for the book {shown(build.book)}, not for {shown(book.book.id)}."
        yield Problem("unknown-reference", message, mark_of(build.book), "Read it with its book.")


def _check_counts(places: Mapping[str, Fitted]) -> Iterator[Problem]:
    for fitted in places.values():
        for item in fitted.items:
            if item.count == 0:
                message = f"None of {shown(item.part)} is no part of a build."
                yield Problem("not-positive", message, item.mark, "Delete it, or write 'empty'.")


def _expressions(book: Book) -> Iterator[str]:
    yield from (rule.holds for rule in book.rules.values())
    conditional: list[Any] = [*book.air.inlet_limits, *book.air.resistance]
    for place in book.places.values():
        conditional += [*getattr(place, "fitted", ()), *getattr(place, "ports", ())]
    conditional += book.service.access.values()
    whens = (getattr(entry, "when", None) for entry in conditional)
    yield from (when for when in whens if when is not None)


def _check_expressions(texts: Iterable[str]) -> list[Problem]:
    problems: list[Problem] = []
    for text in texts:
        try:
            parse(text, mark_of(text))
        except Problems as found:
            problems += found.problems
    return problems


def unknown_facts(book: Book) -> dict[str, Fact[Any]]:
    """Return the facts of a book whose value nobody has stated, by dotted path."""
    return {fact.path: fact for fact in facts_of(book) if fact.value is None}
