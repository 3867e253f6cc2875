"""What a step takes: whether the machine may run, time, people, tools, cautions, the way in.

All of it is read from the book in one place, so that a finer plan of the work can take over.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.parts import Cage, Controller, Drive
from baywright.facts.places import Supplies
from baywright.facts.sections import Work
from baywright.laws.controllers import cable_of
from baywright.laws.machine import Machine

CABLE, SETTING = "cable", "setting"


@dataclass(frozen=True, slots=True)
class Piece:
    """Work on one place.

    Args:
        choice: the choice that changes.
        place: id of the place or setting.
        out: parts that leave it.
        in_: parts that come to it.
        was: what a cable or a setting is before, as labelled, or empty where it is nothing.
        value: what a cable or a setting becomes, or empty where parts change.
    """

    choice: str
    place: str
    out: Counter[str]
    in_: Counter[str]
    was: str = ""
    value: str = ""

    @property
    def parts(self) -> Counter[str]:
        """Parts that are touched, each as often as it is."""
        return self.out + self.in_


@dataclass(frozen=True, slots=True)
class Wait:
    """What has to be waited for before some work.

    Args:
        name: what it is.
        time: how long [s].
        text: the time as written.
    """

    name: str
    time: Fraction
    text: str


@dataclass(frozen=True, slots=True)
class Effort:
    """What some work takes.

    Args:
        time: how long it takes [s], as far as the book says.
        untimed: what the book states no time for.
        people: people it takes.
        tools: tools it takes, each once.
        waits: what has to be waited for first.
        cautions: keys of what has to be said before it.
        way_in: what comes off on the way in, from outside.
        locks: locks that have to be open.
    """

    time: Fraction
    untimed: tuple[str, ...]
    people: int
    tools: tuple[str, ...]
    waits: tuple[Wait, ...]
    cautions: tuple[str, ...]
    way_in: tuple[str, ...]
    locks: tuple[str, ...]


def piece_of(machine: Machine, choice: str, before: int, after: int) -> Piece:
    """Return the work of changing a choice from one value to another."""
    fitting = machine.frame.fittings[choice]
    first, last = fitting.options[before], fitting.options[after]
    held, wanted = Counter(dict(first.parts)), Counter(dict(last.parts))
    place = choice.removesuffix(" controller") if is_cable(machine, choice) else fitting.place
    if first.parts or last.parts:
        return Piece(choice, place, held - wanted, wanted - held)
    was = "" if first.value is None else first.label
    return Piece(choice, place, Counter(), Counter(), was, last.label)


def is_cable(machine: Machine, choice: str) -> bool:
    """Say whether a choice is the cable of a zone."""
    place = choice.removesuffix(" controller")
    return place != choice and choice == cable_of(place) and place in machine.book.places


def may_run(machine: Machine, piece: Piece, cages: Iterable[str]) -> bool:
    """Say whether the book allows some work while the machine runs.

    Args:
        machine: the machine.
        piece: the work.
        cages: ids of what its zone holds before and after.
    """
    book = machine.book
    works = [work for work, _, _ in _works(machine, piece)]
    hot = all(
        work is not None and work.running is not None and work.running.known for work in works
    )
    drives = any(isinstance(book.parts[part], Drive) for part in piece.parts)
    return hot and not (drives and any(_fixed(book, cage) for cage in cages))


def _fixed(book: Book, part: str) -> bool:
    cage = book.parts.get(part)
    return isinstance(cage, Cage) and cage.hot_swap is not None and not cage.hot_swap.known


def _works(machine: Machine, piece: Piece) -> Iterator[tuple[Work | None, str, int]]:
    """Yield what the book says of each kind of work, what it is done on, and how often."""
    known: Mapping[str, Work] = machine.book.service.work
    if not piece.parts:
        word = CABLE if is_cable(machine, piece.choice) else SETTING
        yield known.get(word), f"a {word}", 1
    for part, number in sorted(piece.parts.items()):
        name = machine.book.parts[part].name
        yield known.get(part) or known.get(machine.book.parts[part].kind), name, number


def time_of(machine: Machine, pieces: Iterable[Piece]) -> Fraction:
    """Return how long some work takes [s]; what the book states no time for counts as nothing."""
    works = (each for piece in pieces for each in _works(machine, piece))
    return sum((_seconds(work) * number for work, _, number in works), Fraction(0))


def _seconds(work: Work | None) -> Fraction:
    return work.time.known.to("s") if work is not None and work.time is not None else Fraction(0)


def effort(machine: Machine, pieces: Sequence[Piece], *, off: bool) -> Effort:
    """Return what some work takes.

    Args:
        machine: the machine.
        pieces: the work, place by place.
        off: whether the machine is off for it.
    """
    works = [each for piece in pieces for each in _works(machine, piece)]
    stated = [work for work, _, _ in works if work is not None]
    waits = machine.book.service.waits
    way_in = _way_in(machine.book, pieces, off=off)
    held = {str(work.wait) for work in stated if work.wait is not None and off}
    return Effort(
        time_of(machine, pieces),
        _once(what for work, what, _ in works if work is None or work.time is None),
        max((work.people.known for work in stated if work.people is not None), default=1),
        _once(tool.text for work in stated for tool in work.tools),
        tuple(Wait(n, w.known.to("s"), w.text) for n, w in waits.items() if n in held),
        _cautions(machine, pieces, stated, way_in, off=off),
        way_in,
        _locks(machine.book, pieces),
    )


def _once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


def _cautions(
    machine: Machine,
    pieces: Sequence[Piece],
    stated: Sequence[Work],
    way_in: Sequence[str],
    *,
    off: bool,
) -> tuple[str, ...]:
    """Return what has to be said first: what follows from the work, then what the book adds."""
    book = machine.book
    gone = [book.parts[part] for piece in pieces for part in piece.out]
    come = [book.parts[part] for piece in pieces for part in piece.in_]
    recabled = any(piece.was and is_cable(machine, piece.choice) for piece in pieces)
    follows = {
        "forced-off": off,
        "several-cords": off and _may_have_several_cords(book),
        "lifting": off and bool(way_in),
        "no-airflow": not off and bool(way_in),
        "moving-array": recabled or any(isinstance(part, Controller) for part in gone),
        "rebuild": any(isinstance(part, Drive) for part in (*gone, *come)),
        "removed-media": any(isinstance(part, Drive) or part.kind == "media" for part in gone),
    }
    said = (str(key) for work in stated for key in work.cautions)
    return _once((*(key for key, holds in follows.items() if holds), *said))


def _may_have_several_cords(book: Book) -> bool:
    return sum(place.positions.known for place in book.places_of(Supplies).values()) > 1


def _way_in(book: Book, pieces: Sequence[Piece], *, off: bool) -> tuple[str, ...]:
    """Return what comes off, from outside, to reach the places of some work."""
    order = [step.text for step in book.service.order]
    deepest = max((_depth(book, piece.place, order) for piece in pieces), default=0)
    # A machine that is off has its cords out as well; one that runs keeps them.
    return tuple(step for step in order[:deepest] if off or step != "cords")


def _depth(book: Book, place: str, order: Sequence[str], seen: tuple[str, ...] = ()) -> int:
    """Return how many steps of the service order lie before a place."""
    held = book.places.get(place)
    inside = held.inside if held is not None else None
    if inside is None or inside in seen:
        return 0
    stem = inside.rstrip("0123456789 ")
    for at, step in enumerate(order, 1):
        if step in (inside, stem, f"{stem}s"):
            return at
    return _depth(book, inside, order, (*seen, place))


def _locks(book: Book, pieces: Sequence[Piece]) -> tuple[str, ...]:
    """Return the names of locks that cover a place, by its name or its id."""
    names = {book.places[p.place].name for p in pieces if p.place in book.places}
    return _once(
        lock.name.text
        for lock in book.locks.values()
        if names & {covered.text for covered in lock.covers}
    )


def starting_checks(book: Book) -> tuple[str, ...]:
    """Return what keeps the machine from starting, one sentence each."""
    return tuple(
        f"Before the start: when {each.action.text}, {each.effect.text}."
        for each in book.interlocks.values()
        if each.while_ == "starting"
    )


def stop_and_start(book: Book) -> tuple[Fraction, tuple[str, ...]]:
    """Return the time to stop, open, close and start a machine [s], and what has no time stated."""
    service = book.service
    stated = {"stopping and opening": service.stop, "closing and starting": service.start}
    time = sum((fact.known.to("s") for fact in stated.values() if fact), Fraction(0))
    return time, tuple(words for words, fact in stated.items() if fact is None)
