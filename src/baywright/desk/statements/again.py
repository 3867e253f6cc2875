"""Proving a recorded answer again, without searching for it anew."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from baywright.answers.extremes import Value
from baywright.answers.inquiry import StoppedError
from baywright.answers.projection import view
from baywright.desk.asking import Asked, negation, number_asked, wishes_asked
from baywright.desk.statements.judges import PATIENCE, Judges
from baywright.desk.statements.levels import beyond_wish, level_wish
from baywright.desk.statements.narrowing import Narrower
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, wish_of, wishes_of, with_wishes


@dataclass(frozen=True, slots=True)
class Judge:
    """A recorded answer about one machine, before the judges.

    Args:
        judges: the engines.
        narrower: makes the spaces they work in.
        machine: the machine.
        asked: the question.
    """

    judges: Judges
    narrower: Narrower
    machine: Machine
    asked: Asked

    def agrees(self, value: Mapping[str, Any]) -> bool:
        """Say whether the judges prove a recorded value, as ``values.value_of`` gives it.

        Raises:
            Problems: when the question makes no sense for the machine.
            StoppedError: at the limit.
        """
        return bool(_FORMS[value["is"]](self, value))

    def possible(self, wishes: Sequence[Wish]) -> bool:
        """Say whether there is a build with wishes."""
        there = self.narrower.narrowed(self.machine, wishes)
        return self.judges.build(there) is not None

    def wishes(self) -> list[Wish]:
        """Return what is asked, and what is given with it, as wishes."""
        terms = self.asked.terms if self.asked.word == "can" else self.asked.terms[1:]
        return wishes_asked(self.machine, self.asked, terms)

    def claim(self, *, denied: bool) -> list[Wish]:
        """Return what every build is said to have, or its opposite."""
        machine, mark = self.machine, self.asked.mark
        claim = machine.condition(self.asked.terms[0], mark)
        return wishes_of(machine, negation(machine, claim) if denied else claim, mark)


def _yes(judge: Judge, _: Mapping[str, Any]) -> bool:
    if judge.asked.word == "together":
        return judge.possible(_claims(judge, range(len(judge.asked.terms))))
    return judge.possible(judge.wishes())


def _no(judge: Judge, _: Mapping[str, Any]) -> bool:
    if judge.asked.word == "always":
        return not judge.possible(judge.claim(denied=False))
    return not judge.possible(judge.wishes())


def _always(judge: Judge, _: Mapping[str, Any]) -> bool:
    return judge.possible(judge.claim(denied=False)) and not judge.possible(
        judge.claim(denied=True)
    )


def _not_always(judge: Judge, _: Mapping[str, Any]) -> bool:
    return judge.possible(judge.claim(denied=True))


def _bound(judge: Judge, value: Mapping[str, Any]) -> bool:
    """Go from level to level: each is reached, and nothing is beyond it."""
    asked, machine = judge.asked, judge.machine
    held = judge.wishes()
    sides = [(asked.word, asked.terms[0]), *asked.then]
    levels = [(value["is"], value["value"]), *(tuple(each) for each in value["then"])]
    if [side for side, _ in sides] != [side for side, _ in levels]:
        return False
    for number, ((side, term), (_, level)) in enumerate(zip(sides, levels, strict=True)):
        total = number_asked(machine, machine.read(term, asked.mark), asked.mark)
        if _beyond(judge, held, total, Fraction(level), most=side == "most"):
            return False
        held.append(level_wish(machine, total, "==", Fraction(level), f"view:level:{number}"))
    return judge.possible(held)


def _beyond(
    judge: Judge, held: Sequence[Wish], total: Value, level: Fraction, *, most: bool
) -> bool:
    """Say whether anything lies beyond a level, however little; else whether a whole unit does.

    A remainder of a unit can be hard to rule out, and then a whole unit has to do, as in answers.
    """
    strict = level_wish(judge.machine, total, ">" if most else "<", level, "view:beyond")
    quick = replace(judge, judges=replace(judge.judges, limit=PATIENCE))
    try:
        return quick.possible([*held, strict])
    except StoppedError:
        beyond = beyond_wish(judge.machine, total, level, most=most)
        return judge.possible([*held, beyond])


def _list(judge: Judge, value: Mapping[str, Any]) -> bool:
    asked = judge.asked
    space = with_wishes(judge.machine.space, wishes_asked(judge.machine, asked))
    seen = view(judge.machine, space, asked.terms)
    found = sorted(list(seen.row(row)) for row in judge.judges.each(seen.space, seen.names))
    return found == [list(row) for row in value["rows"]]


def _together(judge: Judge, value: Mapping[str, Any]) -> bool:
    """Each largest set of claims has a build; no other of its size and no larger one has."""
    largest = {tuple(kept) for kept in value["largest"]}
    number = len(judge.asked.terms)
    size = max(map(len, largest), default=0)
    candidates = {
        *itertools.combinations(range(number), size),
        *itertools.combinations(range(number), size + 1),
    }
    return all(
        judge.possible(_claims(judge, kept)) == (kept in largest) for kept in candidates if kept
    )


def _claims(judge: Judge, kept: Sequence[int]) -> list[Wish]:
    machine, asked = judge.machine, judge.asked
    claims = [
        wish_of(machine, machine.condition(asked.terms[at], asked.mark), f"wish:{at}", asked.mark)
        for at in kept
    ]
    return [*claims, *wishes_asked(machine, asked, start=len(asked.terms) + 1)]


def _never(_: Judge, __: Mapping[str, Any]) -> bool:
    """What was stopped before it was decided cannot be agreed with."""
    return False


_FORMS = {
    "yes": _yes,
    "no": _no,
    "always": _always,
    "not always": _not_always,
    "most": _bound,
    "least": _bound,
    "list": _list,
    "not together": _together,
    "stopped": _never,
}


def worlds_of(value: Mapping[str, Any], given: Mapping[str, str]) -> Iterator[Mapping[str, Any]]:
    """Yield the recorded values that hold in a world: one, or none for a world not recorded.

    Args:
        value: the recorded value.
        given: what the world takes unknown facts to be.
    """
    if value["is"] != "undecided":
        yield value
        return
    here = [given.get(path, "") for path in value["facts"]]
    yield from (outcome for values, outcome in value["outcomes"] if values == here)
