"""The work itself: what the book says of each job, and whether the machine may run for it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Cage, Drive, Part, Supply
from baywright.facts.sections import Work
from baywright.service.access.circumstances import Circumstances, Doing
from baywright.service.access.graph import Job, Ways, both
from baywright.service.access.interior import NOTHING, Interior, seconds, wait_for, yes
from baywright.service.access.targets import Target


@dataclass(frozen=True)
class Task:
    """A job with all that the book says of it.

    Args:
        target: what is changed.
        part: the part, or ``None`` for a cable or a step of access.
        work: what the book says of such work.
        ways: what has to be off for it, not counting the stop and the cords.
        job: the same for the search, with them.
        off_first: why it is not done while the machine runs, one sentence each.
        blocked: why it cannot be done at all, or empty.
    """

    target: Target
    part: Part | None
    work: Work | None
    ways: Ways
    job: Job
    off_first: tuple[str, ...]
    blocked: str = ""

    @property
    def people(self) -> int:
        """People it takes."""
        return self.work.people.known if self.work and self.work.people else 1

    @property
    def untimed(self) -> bool:
        """Whether the book states no time for it; fitting another board takes that of the step."""
        return bool(self.target.place) and (self.work is None or seconds(self.work.time) is None)


def tasks(interior: Interior, targets: Sequence[Target], doing: Doing) -> tuple[Task, ...]:
    """Return the jobs of a plan, in the order they were named."""
    kinds = Counter[str]()
    for target in targets:
        kinds[_kind(interior.book, target)] += target.number
    return tuple(_task(interior, target, doing, kinds) for target in targets)


def _kind(book: Book, target: Target) -> str:
    part = book.parts.get(target.part)
    return part.kind if part else target.part


def _task(interior: Interior, target: Target, doing: Doing, kinds: Counter[str]) -> Task:
    book = interior.book
    part = book.parts.get(target.part) if target.place else None
    works = book.service.work
    work = works.get(target.part) or works.get(_kind(book, target))
    ways = _ways(interior, target, part, work)
    first = tuple(_off_first(interior, target, part, work, kinds))
    needed = both(ways, interior.off()) if first else ways
    if first and work and work.wait:
        needed = both(needed, (frozenset({wait_for(work.wait)}),))
    people = work.people.known if work and work.people else 1
    blocked = interior.given.too_few(people)
    job = Job(() if blocked else needed, _time(work, doing), target.number)
    return Task(target, part, work, ways, job, first, blocked)


def _ways(interior: Interior, target: Target, part: Part | None, work: Work | None) -> Ways:
    beside = interior.to_steps(work.behind if work else ())
    if not target.place:
        return both(interior.to_steps([target.part]), beside)
    place = interior.book.places[target.place]
    kind = f"{part.kind}s" if part else target.part
    locks = interior.held_by_locks(target.place, place.name, kind)
    return both(both(interior.to_place(place), locks), beside)


def _time(work: Work | None, doing: Doing) -> Fraction:
    once = (seconds(work.time) if work else None) or NOTHING
    if doing != "replace":
        return once
    return (seconds(work.swap) if work and work.swap else None) or 2 * once


def _off_first(
    interior: Interior,
    target: Target,
    part: Part | None,
    work: Work | None,
    kinds: Counter[str],
) -> Iterator[str]:
    """Yield why some work is not done while the machine runs."""
    if work is None or not yes(work.running):
        yield "The book does not allow it while the machine runs."
        return
    most = work.running_most.value if work.running_most else None
    number = kinds[_kind(interior.book, target)]
    if most is not None and number > most:
        yield f"While the machine runs, {most} may be changed at most, and it is {number}."
    if isinstance(part, Supply) and interior.given.carry.holds is not True:
        yield interior.given.carry.says
    if isinstance(part, Drive):
        yield from _fixed(interior.book, interior.given, target.place)


def _fixed(book: Book, given: Circumstances, place: str) -> Iterator[str]:
    """Yield that the cage of a zone holds its drives fixed."""
    fitted = given.places.get(place)
    for item in fitted.items if fitted else ():
        cage = book.parts[item.part]
        if isinstance(cage, Cage) and cage.hot_swap is not None and not yes(cage.hot_swap):
            yield f"The drives of {cage.name} are changed with power off."
