"""The steps of an upgrade: what is done in which order, and the build that each step leaves."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from baywright.answers.verdicts import Witness
from baywright.answers.witnesses import witness
from baywright.desk.upgrade.between import BLANKS, Between
from baywright.desk.upgrade.sequence import Ground, Move, OutOfStatesError, Task
from baywright.desk.upgrade.work import Effort, Piece, effort, may_run, piece_of, time_of
from baywright.laws.blanks import blanks
from baywright.space import Assignment

Verb = Literal["add", "move", "remove", "cable", "set"]


@dataclass(frozen=True, slots=True)
class Act:
    """One thing that is done in a step.

    Args:
        verb: what is done.
        place: where, as an id; for a move, where the part goes.
        part: id of the part, or empty for a cable or a setting.
        count: how many of it.
        source: where it comes from: the place it leaves, or the number of the step that took it
            out; empty for a part that is bought.
        value: what a cable or a setting becomes.
        spare: whether what is taken out is needed nowhere else.
    """

    verb: Verb
    place: str
    part: str = ""
    count: int = 1
    source: str = ""
    value: str = ""
    spare: bool = False


@dataclass(frozen=True, slots=True)
class Step:
    """A step, and the state it leaves.

    Args:
        acts: what is done.
        off: whether the machine is off for it.
        effort: what it takes.
        together: why its changes are made at once, as laws that would not hold otherwise.
        why_off: why the machine is off for what the book allows while it runs, as such laws.
        blanks: blanks that are fitted, or taken out where negative, before the machine runs again.
        passed: states in between while the machine runs, each a legal build.
        leaves: the build after it.
        lacking: protections that both ends of the upgrade have and this state has not.
    """

    acts: tuple[Act, ...]
    off: bool
    effort: Effort
    together: tuple[str, ...]
    why_off: tuple[str, ...]
    blanks: Mapping[str, int]
    passed: tuple[Witness, ...]
    leaves: Witness
    lacking: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Order:
    """All steps of an upgrade in order.

    Args:
        steps: the steps.
        complete: whether no better order exists; otherwise the time was up, and each step is the
            best one where it stands.
    """

    steps: tuple[Step, ...]
    complete: bool


def order_of(between: Between) -> Order:
    """Return the steps from the first build to the last.

    Raises:
        RecheckError: when a state breaks a law that an engine found to hold.
        StoppedError: at a limit.
    """
    ground = ground_of(between)
    try:
        moves, complete = replace(ground, allowed=between.allowed_in_time).best(), True
    except OutOfStatesError:
        moves, complete = tuple(ground.step_by_step(between.smallest)), False
    return Order(tuple(_steps(between, moves)), complete)


def ground_of(between: Between) -> Ground:
    """Return what is known of the states between, for the search of an order."""
    pieces = _pieces(between)
    tasks = [Task(rank, time_of(between.machine, [piece])) for piece, rank in _ranked(pieces)]
    hot = [_hot(between, piece) for piece in pieces]

    def running(done: int, task: int) -> bool:
        states = between.passed(done, task)
        return hot[task] and all(v is not None and between.build(v) is not None for v in states)

    def exposed(done: int) -> tuple[int, int]:
        lacking = between.exposed(done)
        return len(lacking), len(lacking - {BLANKS})

    return Ground(tasks, between.allowed, running, exposed)


def _pieces(between: Between) -> list[Piece]:
    return [
        piece_of(between.machine, name, between.start[name], between.target[name])
        for name in between.changes
    ]


def _ranked(pieces: Sequence[Piece]) -> Iterator[tuple[Piece, int]]:
    """Yield work with its rank: what is added, what is moved, what is taken out."""
    out = {part for piece in pieces for part in piece.out}
    moved = out & {part for piece in pieces for part in piece.in_}
    for piece in pieces:
        if set(piece.out) - moved:
            yield piece, 2
        else:
            yield piece, int(bool(moved & set(piece.parts)))


def _hot(between: Between, piece: Piece) -> bool:
    machine, held = between.machine, set[str]()
    for name in machine.frame.at(piece.place):
        for values in (between.start, between.target):
            held.update(part for part, _ in machine.frame.options(name)[values[name]].parts)
    return may_run(machine, piece, held)


def _steps(between: Between, moves: Sequence[Move]) -> Iterator[Step]:
    pieces = _pieces(between)
    done, taken, closed = 0, _Taken(between, pieces), blanks(between.machine, between.start)
    for number, move in enumerate(moves, 1):
        bits = sum(1 << task for task in move.tasks)
        mine = [pieces[task] for task in move.tasks]
        passed = [] if move.off else list(between.passed(done, move.tasks[0]))
        runs = not move.off or number == len(moves) or not moves[number].off
        needed = blanks(between.machine, between.at(done | bits)) if runs else closed
        yield Step(
            tuple(taken.acts(mine, number)),
            move.off,
            effort(between.machine, mine, off=move.off),
            _together(between, done, move),
            _why_off(between, done, move) if all(_hot(between, each) for each in mine) else (),
            _changed(closed, needed),
            tuple(_witness(between, values) for values in passed if values is not None),
            _witness(between, between.at(done | bits)),
            tuple(sorted(between.exposed(done | bits) - (set() if runs else {BLANKS}))),
        )
        done, closed = done | bits, needed


def _changed(before: Mapping[str, int], after: Mapping[str, int]) -> dict[str, int]:
    names = dict.fromkeys((*before, *after))
    changes = {name: after.get(name, 0) - before.get(name, 0) for name in names}
    return {name: number for name, number in changes.items() if number}


def _witness(between: Between, values: Mapping[str, int]) -> Witness:
    """Return a state as a build; its search has re-checked it."""
    found: Assignment | None = between.build(values)
    if found is None:
        raise ValueError("a step leads to a state that may not be")
    return witness(between.machine, found)


def _together(between: Between, done: int, move: Move) -> tuple[str, ...]:
    """Return the laws that each change of a step would break if it were made alone."""
    if len(move.tasks) == 1:
        return ()
    alone = (between.why_not(between.at(done | 1 << task)) for task in move.tasks)
    return tuple(dict.fromkeys(sentence for found in alone for sentence in found))


def _why_off(between: Between, done: int, move: Move) -> tuple[str, ...]:
    """Return the laws that a change made piece by piece would break on its way."""
    if not move.off or len(move.tasks) > 1:
        return ()
    states = (values for values in between.passed(done, move.tasks[0]) if values is not None)
    found = (between.why_not(values) for values in states if between.build(values) is None)
    return next(found, ())


class _Taken:
    """What has been taken out and lies ready, with the steps that took it.

    Args:
        between: the states.
        pieces: all work of the upgrade.
    """

    def __init__(self, between: Between, pieces: Sequence[Piece]) -> None:
        self._machine = between.machine
        self._lying: dict[str, list[int]] = {}
        out = sum((piece.out for piece in pieces), Counter[str]())
        arriving = sum((piece.in_ for piece in pieces), Counter[str]())
        self._spare = out - arriving

    def acts(self, pieces: Sequence[Piece], number: int) -> Iterator[Act]:
        """Yield what is done in a step: what is moved, what is taken out, what comes."""
        out = [(piece.place, part) for piece in pieces for part in piece.out.elements()]
        coming = [(piece.place, part) for piece in pieces for part in piece.in_.elements()]
        moves: Counter[tuple[str, str, str]] = Counter()
        for place, part in list(coming):
            source = next(((at, p) for at, p in out if p == part), None)
            if source is not None:
                out.remove(source)
                coming.remove((place, part))
                moves[place, part, source[0]] += 1
        for (place, part, origin), count in moves.items():
            yield Act("move", place, part, count, source=origin)
        yield from self._out(out, number)
        yield from self._in(coming)
        yield from self._values(pieces)

    def _out(self, out: Sequence[tuple[str, str]], number: int) -> Iterator[Act]:
        for (place, part), count in Counter(out).items():
            spare = min(count, self._spare[part])
            self._spare[part] -= spare
            if spare:
                yield Act("remove", place, part, spare, spare=True)
            if count > spare:
                self._lying.setdefault(part, []).extend([number] * (count - spare))
                yield Act("remove", place, part, count - spare)

    def _in(self, coming: Sequence[tuple[str, str]]) -> Iterator[Act]:
        found: Counter[tuple[str, str, str]] = Counter()
        for place, part in coming:
            lying = self._lying.get(part)
            found[place, part, f"step {lying.pop(0)}" if lying else ""] += 1
        for (place, part, source), count in found.items():
            yield Act("move" if source else "add", place, part, count, source=source)

    def _values(self, pieces: Sequence[Piece]) -> Iterator[Act]:
        for piece in pieces:
            if not piece.parts:
                verb: Verb = "cable" if piece.choice != piece.place else "set"
                yield Act(verb, piece.place, value=piece.value)
