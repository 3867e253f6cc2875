"""Moves of the search, written out as steps with all that the book says of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.access import POWER
from baywright.facts.book import Book
from baywright.facts.citation import Citation
from baywright.facts.fact import Words
from baywright.service.access.acts import closing, opening, working
from baywright.service.access.circumstances import Doing
from baywright.service.access.hazards import of_closing, of_opening, of_task
from baywright.service.access.interior import Entrance, Interior, yes
from baywright.service.access.moves import Move
from baywright.service.access.plan import Guarded, Power, Step
from baywright.service.access.tasks import Task


@dataclass(frozen=True)
class Writer:
    """Writes moves out as steps.

    Args:
        interior: the barriers.
        jobs: the jobs.
        doing: what is done with the parts.
        moves: the moves of the search, in order.
    """

    interior: Interior
    jobs: Sequence[Task]
    doing: Doing
    moves: Sequence[Move]

    @property
    def book(self) -> Book:
        """The book."""
        return self.interior.book

    def steps(self) -> Iterator[Step]:
        """Yield the steps; the end of a wait is none."""
        off: list[str] = []
        done = Counter[str]()
        number = 0
        for at, move in enumerate(self.moves):
            if move.kind == "back" and self._entrance(move).sort == "wait":
                off.remove(move.name)
                continue
            number += 1
            yield self._step(at, number, move, off, done)
            if move.kind == "out":
                off.append(move.name)
            elif move.kind == "back":
                off.remove(move.name)
            else:
                done[move.name] += 1

    def _step(
        self, at: int, number: int, move: Move, off: Sequence[str], done: Counter[str]
    ) -> Step:
        power: Power = "off" if POWER in off else "running"
        if move.kind == "work":
            task = next(task for task in self.jobs if task.target.key == move.name)
            return self._work(number, task, power, off, done[move.name])
        if move.kind == "out":
            return self._out(at, number, self._entrance(move), power)
        return self._back(number, self._entrance(move), power)

    def _entrance(self, move: Move) -> Entrance:
        return self.interior.entrances[move.name]

    def _out(self, at: int, number: int, entrance: Entrance, power: Power) -> Step:
        access = entrance.access
        running = power == "running"
        cautions = of_opening(self.interior, entrance, running=running)
        return Step(
            number,
            "wait" if entrance.sort == "wait" else "out",
            entrance.name,
            Guarded(cautions, opening(self.book, entrance)),
            power,
            (),
            entrance.barrier.out,
            entrance.untimed,
            entrance.people,
            self._lifted(entrance),
            _texts(access.tools) if access else (),
            _text(access.mark) if access else "",
            (),
            tuple(self._how_long(at, entrance)) if running else (),
            self._cited(entrance),
        )

    def _back(self, number: int, entrance: Entrance, power: Power) -> Step:
        access = entrance.access
        return Step(
            number,
            "back",
            entrance.name,
            Guarded(of_closing(entrance), closing(entrance)),
            power,
            tuple(self._starting()) if entrance.sort == "power" else (),
            entrance.barrier.back,
            entrance.untimed,
            entrance.people,
            self._lifted(entrance),
            _texts(access.tools) if access else (),
            _text(access.mark) if access else "",
            _texts(access.checks) if access else (),
            (),
            self._cited(entrance),
        )

    def _work(self, number: int, task: Task, power: Power, off: Sequence[str], done: int) -> Step:
        work, part = task.work, task.part
        running = power == "running"
        astray = any(self._guides(name) for name in off)
        cautions = of_task(task, self.doing, running=running, air_astray=astray)
        facts = self.book.cite(work.time, work.swap, work.running) if work else ()
        return Step(
            number,
            "work",
            task.target.key,
            Guarded(cautions, working(self.book, task, self.doing, done)),
            power,
            (),
            task.job.time,
            task.untimed,
            task.people,
            self._lifted_part(task),
            _texts(work.tools) if work else (),
            _text(part.mark) if part else "",
            _texts(work.checks) if work else (),
            (self.interior.given.carry.says,) if running and _is_supply(task) else (),
            (*facts, *(self.book.cite(part.mark) if part else ())),
        )

    def _guides(self, name: str) -> bool:
        access = self.interior.entrances[name].access
        return access is not None and yes(access.guides_air)

    def _how_long(self, at: int, entrance: Entrance) -> Iterator[str]:
        """Yield how long something may be off while the machine runs, and how long it is."""
        limit = self.book.air.cover_off
        if entrance.barrier.longest is None or limit is None:
            return
        end = next(i for i, move in enumerate(self.moves) if i > at and move.name == entrance.name)
        spent = sum((self._time(move) for move in self.moves[at : end + 1]), Fraction(0))
        yield (
            f"While the machine runs it may be off for {limit.text}; "
            f"it is back after {float(spent):g} s."
        )

    def _time(self, move: Move) -> Fraction:
        if move.kind == "work":
            return next(t.job.time for t in self.jobs if t.target.key == move.name)
        barrier = self._entrance(move).barrier
        return barrier.out if move.kind == "out" else barrier.back

    def _starting(self) -> Iterator[str]:
        """Yield what keeps the machine from starting."""
        for each in self.book.interlocks.values():
            if each.while_ == "starting":
                yield f"When {each.action.text}, {each.effect.text}."

    def _lifted(self, entrance: Entrance) -> str:
        access, given = entrance.access, self.interior.given
        if access is None:
            return ""
        mass = given.mass if yes(access.whole) else None
        if access.mass is not None and access.mass.value is not None:
            mass = access.mass.value.to("kg")
        return given.lifted_by(mass) if mass is not None else ""

    def _lifted_part(self, task: Task) -> str:
        mass = task.part.mass if task.part else None
        if mass is None or mass.value is None:
            return ""
        return self.interior.given.lifted_by(mass.value.to("kg"))

    def _cited(self, entrance: Entrance) -> tuple[Citation, ...]:
        access, book = entrance.access, self.book
        facts = (
            list(book.cite(access.time, access.back, access.running, access.people, access.mass))
            if access
            else []
        )
        if entrance.lock is not None:
            facts += book.cite(entrance.lock.key, entrance.lock.time)
        if access is not None and yes(access.guides_air) and entrance.barrier.longest is not None:
            facts += book.cite(book.air.cover_off)
        for each in self.interior.acting(access):
            facts += book.cite(each.action, each.effect)
        return tuple(facts)


def _is_supply(task: Task) -> bool:
    return task.part is not None and task.part.kind == "supply"


def _texts(facts: Sequence[Words]) -> tuple[str, ...]:
    return tuple(fact.text for fact in facts)


def _text(fact: Words | None) -> str:
    return fact.text if fact is not None else ""
