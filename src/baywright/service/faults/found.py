"""What can be at fault in a build: its parts, its board, interlocks, and causes of the book."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.citation import Citation
from baywright.facts.fact import Ratio
from baywright.facts.faults import BOARD, PARTS
from baywright.facts.parts import Boot, Cage, Kit, Part
from baywright.service.losing.standing import Standing, place_of

INTERLOCK, CAUSE = "interlock", "cause"
"""Kinds of fault that are no part's."""


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that can be at fault, alone.

    Args:
        id: its id, such as ``R1b``, ``A.3``, ``board`` or the id of an interlock.
        name: what it is, with its place.
        kind: kind of part, ``board``, ``interlock`` or ``cause``.
        part: id of the part, or empty.
        rate: how often it is expected in a year, or ``None`` where nobody has stated it.
        facts: the facts that its rate stands on.
    """

    id: str
    name: str
    kind: str
    part: str
    rate: Fraction | None
    facts: tuple[Citation, ...] = ()

    @property
    def place(self) -> str:
        """Id of the place of a part."""
        return place_of(self.id) if self.part else ""

    @property
    def words(self) -> frozenset[str]:
        """Words by which a sign of the book covers it."""
        own = {self.id, self.kind, self.part} - {"", INTERLOCK, CAUSE}
        return frozenset(own | ({PARTS} if self.part or self.kind == BOARD else set()))


def faults_of(at: Standing, names: Mapping[str, str]) -> tuple[Fault, ...]:
    """Return everything that can be at fault in a build, one by one.

    An interlock is a fault when it keeps the machine from starting or the book states how often it
    is found.

    Args:
        at: the build.
        names: what positions are called, by id; those left out are named by part and id.
    """
    return (*_parts(at, names), _board(at), *_interlocks(at), *_causes(at))


def _parts(at: Standing, names: Mapping[str, str]) -> Iterator[Fault]:
    for place in at.book.places:
        for unit, name in at.units(place):
            part = at.part(name)
            if part.failure_rate is not None or not isinstance(part, Kit | Cage):
                called = names.get(unit, f"{part.name} in {unit}")
                rate = _rate(part.failure_rate)
                yearly = None if rate is None else rate * _pieces(part)
                facts = at.cite(part.failure_rate)
                yield Fault(unit, called, part.kind, name, yearly, facts)


def _pieces(part: Part) -> int:
    """Return how many pieces of a part fail one by one: a pair of boot cards has two."""
    return part.media.known if isinstance(part, Boot) and part.media is not None else 1


def _rate(stated: Ratio | None) -> Fraction | None:
    return stated.known if stated is not None else None


def _board(at: Standing) -> Fault:
    stated = at.book.chassis.failure_rate
    return Fault(BOARD, "the board", BOARD, "", _rate(stated), at.cite(stated))


def _interlocks(at: Standing) -> Iterator[Fault]:
    for key, each in at.book.interlocks.items():
        if each.rate is not None or each.while_ == "starting":
            facts = at.cite(each.action, each.effect, each.rate)
            yield Fault(str(key), each.action.text, INTERLOCK, "", _rate(each.rate), facts)


def _causes(at: Standing) -> Iterator[Fault]:
    for key, each in at.book.causes.items():
        facts = at.cite(each.name, each.rate)
        yield Fault(str(key), each.name.text, CAUSE, "", _rate(each.rate), facts)


def covered(faults: Iterable[Fault], words: Collection[str]) -> frozenset[str]:
    """Return the ids of the faults that some words of the book mean."""
    wanted = frozenset(words)
    return frozenset(fault.id for fault in faults if fault.words & wanted)
