"""The barriers of a machine, read from its book for one build."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal, TypeAlias

from baywright.facts.access import CORDS, POWER, Access, ways_to
from baywright.facts.book import Book
from baywright.facts.fact import Duration
from baywright.facts.places import AnyPlace
from baywright.facts.sections import Interlock, Lock
from baywright.service.access.circumstances import Circumstances
from baywright.service.access.graph import FREE, Barrier, Ways, both
from baywright.units import Quantity

Sort: TypeAlias = Literal["power", "cords", "lock", "step", "wait"]

NOTHING = Fraction(0)


def seconds(fact: Duration | None) -> Fraction | None:
    """Return a stated time [s], or ``None`` where it is not stated or not known."""
    value: Quantity | None = fact.value if fact is not None else None
    return value.to("s") if value is not None else None


@dataclass(frozen=True)
class Entrance:
    """A barrier with all that the book says of it.

    Args:
        name: its name.
        sort: the stop, the cords, a lock, a wait, or any other step.
        access: its facts, where the book has them.
        lock: the lock that it is.
        ways: what has to be off for it, not counting the stop and the cords.
        barrier: the same for the search, with them.
        off_first: why it may not be off while the machine runs, one sentence each.
        blocked: why it cannot come off at all, or empty.
        counted: whether its time is stated with that of the stop and the start.
    """

    name: str
    sort: Sort
    access: Access | None
    lock: Lock | None
    ways: Ways
    barrier: Barrier
    off_first: tuple[str, ...] = ()
    blocked: str = ""
    counted: bool = False

    @property
    def people(self) -> int:
        """People it takes."""
        people = self.access.people if self.access else None
        return people.known if people else 1

    @property
    def untimed(self) -> bool:
        """Whether the book states no time for it, and counts none for it elsewhere."""
        if self.counted:
            return False
        if self.sort == "lock":
            return self.lock is None or seconds(self.lock.time) is None
        return self.access is None or seconds(self.access.time) is None


class Interior:
    """All barriers of a machine.

    Args:
        book: the book.
        given: the build and what stands around the work.
    """

    def __init__(self, book: Book, given: Circumstances) -> None:
        self.book = book
        self.given = given

    @cached_property
    def order(self) -> list[str]:
        """The service order, from outside in."""
        return [step.text for step in self.book.service.order]

    @cached_property
    def locks(self) -> dict[str, Lock]:
        """Locks that are closed, by what they are called."""
        if self.given.lock == "open":
            return {}
        return {lock.name.text: lock for lock in self.book.locks.values()}

    @cached_property
    def entrances(self) -> dict[str, Entrance]:
        """Every barrier, in the order of the book."""
        steps = [*self.book.service.access, *filter(self._is_one, self.order), CORDS]
        names = [POWER, *self.locks, *(name for name in steps if name != POWER)]
        found = {name: self._entrance(name) for name in dict.fromkeys(names) if self.exists(name)}
        waits = self.book.service.waits
        return found | {wait_for(name): self._wait(name, waits[name]) for name in waits}

    def _is_one(self, step: str) -> bool:
        """Say whether a step of the order is one, and not ``risers`` for those with numbers."""
        stems = (name.rstrip("0123456789 ") for name in self.book.service.access if name != step)
        return all(step not in (stem, f"{stem}s") for stem in stems)

    def exists(self, name: str) -> bool:
        """Say whether the build has a step."""
        access = self.book.service.access.get(name)
        if access is not None and access.when is not None:
            return self.given.holds(access.when)
        return True

    def called(self, word: str) -> str:
        """Return the step that a word means: ``riser 1`` is one of the ``risers``."""
        known = (*self.book.service.access, *self.order)
        stem = word.rstrip("0123456789 ")
        return next((each for each in (word, stem, f"{stem}s") if each in known), word)

    def to_place(self, place: AnyPlace) -> Ways:
        """Return the ways to a place, what locks hold not counted."""
        if place.ways:
            return self._present(frozenset(way.off) for way in place.ways)
        if place.inside is None:
            return FREE
        outer = self.book.places.get(place.inside)
        return self.to_place(outer) if outer else self._present([frozenset({place.inside})])

    def to_steps(self, names: Iterable[str]) -> Ways:
        """Return the way to what lies behind several steps at once."""
        return self._present([frozenset(names)])

    def held_by_locks(self, *words: str) -> Ways:
        """Return the locks that hold something, by any of the words for it."""
        wanted = {word.casefold() for word in words}
        held = (
            name
            for name, lock in self.locks.items()
            if wanted & {covered.text.casefold() for covered in lock.covers}
        )
        return (frozenset(held),)

    def off(self, name: str = "") -> Ways:
        """Return the stop with the cords, for work that is not done while the machine runs.

        Standby power remains while a cord is in. What the cords themselves lie behind only needs
        the stop.
        """
        if name == POWER:
            return FREE
        pulled = name not in (CORDS, *self._outside_cords)
        return (frozenset({POWER, CORDS} if pulled else {POWER}),)

    @cached_property
    def _outside_cords(self) -> frozenset[str]:
        """What the cords lie behind."""
        found: set[str] = set()
        waiting = [CORDS]
        while waiting:
            inner = (name for way in self._behind(waiting.pop()) for name in way)
            new = [name for name in inner if name not in found]
            found.update(new)
            waiting += new
        return frozenset(found)

    def _behind(self, name: str) -> Ways:
        access = self.book.service.access.get(name)
        if access is not None:
            return self._present(ways_to(access))
        at = self.order.index(name) if name in self.order else 0
        outer = [step for step in self.order[:at] if self.exists(step)]
        return self._present([frozenset(outer[-1:])])

    def _present(self, ways: Iterable[frozenset[str]]) -> Ways:
        """Return ways with the steps that the build has, each as the book calls it."""
        named = (frozenset(map(self.called, way)) for way in ways)
        return tuple(dict.fromkeys(frozenset(filter(self.exists, way)) for way in named))

    def _entrance(self, name: str) -> Entrance:
        lock = self.locks.get(name)
        if lock is not None:
            return self._lock(name, lock)
        access = self.book.service.access.get(name)
        ways = both(self._behind(name), self.held_by_locks(name))
        first = tuple(self._off_first(name, access))
        blocked = self._blocked(name, access)
        needed = both(ways, self.off(name)) if first else ways
        out, back = self._times(name, access)
        longest = seconds(self.book.air.cover_off) if access and yes(access.guides_air) else None
        barrier = Barrier(() if blocked else needed, out, back, None if first else longest)
        sort: Sort = "power" if name == POWER else "cords" if name == CORDS else "step"
        counted = access is None and name in self._counted
        return Entrance(name, sort, access, None, ways, barrier, first, blocked, counted)

    def _lock(self, name: str, lock: Lock) -> Entrance:
        key = self.given.lock == "key" and lock.key is not None
        time = seconds(lock.time) or NOTHING
        blocked = "" if key else f"The {name} is closed, and its key is not at hand."
        barrier = Barrier(FREE if key else (), time, time)
        return Entrance(name, "lock", None, lock, FREE, barrier, blocked=blocked)

    def _wait(self, name: str, time: Duration) -> Entrance:
        needed = self.off()
        barrier = Barrier(needed, seconds(time) or NOTHING, NOTHING, silent=True)
        return Entrance(wait_for(name), "wait", Access(time=time), None, FREE, barrier)

    def _times(self, name: str, access: Access | None) -> tuple[Fraction, Fraction]:
        service = self.book.service
        if access is None and name == POWER:
            return seconds(service.stop) or NOTHING, seconds(service.start) or NOTHING
        out = seconds(access.time) if access else None
        back = seconds(access.back) if access and access.back else out
        return out or NOTHING, back or NOTHING

    @cached_property
    def _counted(self) -> frozenset[str]:
        """What a stated stop takes in: pulling the cords and opening the outermost step."""
        if POWER in self.book.service.access or self.book.service.stop is None:
            return frozenset()
        outermost = [step for step in self.order if step != CORDS][:1]
        return frozenset({POWER, CORDS, *outermost})

    def _off_first(self, name: str, access: Access | None) -> Iterator[str]:
        """Yield why something may not be off while the machine runs."""
        if name == POWER:
            return
        acting = list(self.acting(access))
        yield from (f"While it runs, when {e.action.text}: {e.effect.text}." for e in acting)
        if access is None or not yes(access.running):
            if not acting:
                yield "The book does not allow it while the machine runs."
            return
        if yes(access.guides_air) and seconds(self.book.air.cover_off) is None:
            yield "How long it may be off while the machine runs is not stated (air.cover_off)."
        if yes(access.carried) and self.given.carry.holds is not True:
            yield self.given.carry.says

    def acting(self, access: Access | None) -> Iterator[Interlock]:
        """Yield the interlocks that a step sets off while the machine runs."""
        for key in access.interlocks if access else ():
            if self.book.interlocks[key].while_ == "running":
                yield self.book.interlocks[key]

    def _blocked(self, name: str, access: Access | None) -> str:
        if name == POWER and self.given.keep_running:
            return "The machine has to run all the time."
        people = access.people.known if access and access.people else 1
        return self.given.too_few(people)


def wait_for(name: str) -> str:
    """Return what the wait for something is called among the barriers."""
    return f"wait: {name}"


def yes(fact: object) -> bool:
    """Say whether a fact is there, known, and a yes."""
    return getattr(fact, "value", None) is True
