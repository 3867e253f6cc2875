"""Part swap facts: what a new part has to match, what it needs, what is fitted instead of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from baywright.facts.book import Book
from baywright.facts.citation import Citation
from baywright.facts.parts import Cage, Drive, MemoryModule, Processor, Supply
from baywright.facts.places import Supplies
from baywright.service.access.circumstances import Circumstances, Doing
from baywright.service.access.interior import yes
from baywright.service.access.tasks import Task


@dataclass(frozen=True, slots=True)
class SwapFact:
    """Something to know about a part that is changed.

    Args:
        says: one sentence.
        facts: the facts it stands on.
    """

    says: str
    facts: tuple[Citation, ...] = ()


def swap_facts(book: Book, given: Circumstances, task: Task, doing: Doing) -> Iterator[SwapFact]:
    """Yield what has to be known about a part that is replaced, added or removed."""
    if doing != "remove":
        yield from _matching(book, given, task)
        yield from _firmware(book, given, task)
    yield from _blanks(book, given, task, doing)
    yield from _in_the_log(book, task)
    if doing != "replace" and task.part is not None:
        changed = "with it" if doing == "add" else "without it"
        yield SwapFact(f"Whether the machine is legal {changed}, judging that build tells.")


def _matching(book: Book, given: Circumstances, task: Task) -> Iterator[SwapFact]:
    part, place = task.part, book.places.get(task.target.place)
    if isinstance(part, Processor) and yes(book.processors.identical):
        says = f"Processors are identical in a machine: fit {part.name}."
        yield SwapFact(says, book.cite(book.processors.identical))
    if isinstance(part, MemoryModule) and book.memory is not None and yes(book.memory.one_size):
        says = f"Modules are of one size in a machine: fit {part.size.text}."
        yield SwapFact(says, book.cite(book.memory.one_size, part.size))
    if (
        isinstance(part, MemoryModule)
        and book.memory is not None
        and yes(book.memory.same_everywhere)
    ):
        says = "Every processor that is fitted has the same modules."
        yield SwapFact(says, book.cite(book.memory.same_everywhere))
    if isinstance(part, Supply) and isinstance(place, Supplies) and not _may_differ(place):
        says = f"Supplies are identical in a machine: fit {part.name}."
        yield SwapFact(says, book.cite(place.identical))
    if isinstance(part, Drive):
        yield from _of_one_kind(book, given, task)


def _may_differ(place: Supplies) -> bool:
    return place.identical is not None and not yes(place.identical)


def _of_one_kind(book: Book, given: Circumstances, task: Task) -> Iterator[SwapFact]:
    for cage in _cages(book, given, task):
        if task.part is not None and not yes(cage.mixed):
            says = f"A {cage.name} holds drives of one kind: fit {task.part.name}."
            yield SwapFact(says, book.cite(cage.mixed))


def _cages(book: Book, given: Circumstances, task: Task) -> Iterator[Cage]:
    fitted = given.places.get(task.target.place)
    for item in fitted.items if fitted else ():
        part = book.parts[item.part]
        if isinstance(part, Cage):
            yield part


def _firmware(book: Book, given: Circumstances, task: Task) -> Iterator[SwapFact]:
    for minimum in book.firmware.minimum:
        if minimum.part == task.target.part and _holds(given.system, minimum.systems):
            systems = book.settings["system"].values
            named = " and ".join(systems[system].text for system in minimum.systems)
            says = f"It needs firmware {minimum.at_least.text} or later with {named}."
            yield SwapFact(says, book.cite(minimum.at_least))
            if book.firmware.update_order:
                order = ", ".join(step.text for step in book.firmware.update_order)
                facts = book.cite(*book.firmware.update_order)
                yield SwapFact(f"Firmware is updated in this order: {order}.", facts)


def _holds(system: str, systems: list[str]) -> bool:
    """Say whether a minimum holds for a system, or may where nobody says which it is."""
    return system in systems or system in ("", "not_stated")


def _blanks(book: Book, given: Circumstances, task: Task, doing: Doing) -> Iterator[SwapFact]:
    if doing == "replace" or not task.target.place:
        return
    if isinstance(task.part, Drive):
        blanks = [cage.blank for cage in _cages(book, given, task)]
    else:
        blanks = [book.places[task.target.place].blank]
    for blank in blanks:
        if blank is not None:
            act = "Close what is empty then with" if doing == "remove" else "Take out first"
            yield SwapFact(f"{act} {book.parts[blank].name}.", book.cite(blank))


def _in_the_log(book: Book, task: Task) -> Iterator[SwapFact]:
    record = book.record.places.get(task.target.place)
    if record is not None and not task.target.labels:
        named = " or ".join(record.locators)
        place = book.places[task.target.place].name
        says = f"The log calls {place} {named}, where * stands for its number or letter."
        plain = f"The log calls {place} {named}."
        yield SwapFact(says if "*" in named else plain, book.cite(*record.locators))
