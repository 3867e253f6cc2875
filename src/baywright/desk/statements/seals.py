"""Seals: what a proof stands on, as digests, so that it need not be found again while that stays.

A yes stays while its build is legal and has what was asked. A refusal stays while the laws and
rules that refuse, the choices they speak of and what was asked are the same to the last number;
whatever else a book gains can only forbid more. A bound is a build and a refusal. Nothing here
asks an engine, so that a thousand answers are looked through in seconds after a fact has changed.
"""

from __future__ import annotations

import hashlib
import itertools
import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, TypeAlias

from baywright.answers.extremes import Value
from baywright.desk.asking import Asked, negation, number_asked, taken_apart, wishes_asked
from baywright.desk.statements.cells import CELL
from baywright.desk.statements.levels import beyond_wish, level_wish
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, wishes_of
from baywright.space import Law, Space, Table, broken, holds
from baywright.terms import text

MOST_TRIED = 4096
"""Combinations of helper choices that are tried before a wish has to be asked for anew."""

PROVEN = frozenset({"ask", "cell"})
"""Kinds of query whose statements an engine proves question by question."""

Made: TypeAlias = dict[tuple[str, ...], list[Wish]]
"""Wishes of one machine by what they are of: each is encoded once."""


@dataclass(frozen=True, slots=True)
class Seal:
    """What a refusal stands on.

    Args:
        laws: digest by key of the laws and rules that refuse.
        asked: digest of what was asked, as tables and sums.
    """

    laws: Mapping[str, str]
    asked: str

    def as_json(self) -> dict[str, Any]:
        """Return the seal as JSON values."""
        return {"laws": dict(self.laws), "asked": self.asked}

    @classmethod
    def from_json(cls, written: Mapping[str, Any]) -> Seal:
        """Return the seal that ``as_json`` wrote; raises ``KeyError`` when some is missing."""
        return cls(dict(written["laws"]), str(written["asked"]))


@dataclass
class Sealer:
    """Seals statements about one book, and says which seals are unbroken.

    Args:
        shared: the book and what statements about it share.
    """

    shared: Shared
    _digests: dict[int, tuple[Space, dict[str, str]]] = field(default_factory=dict)
    _made: dict[int, tuple[Machine, Made]] = field(default_factory=dict)

    def seal(self, statement: Statement) -> Seal | None:
        """Return the seal of a statement, or ``None`` for one that has to be found again.

        Args:
            statement: a statement about the book as it is.

        Raises:
            Problems: when its question makes no sense for the book.
        """
        case = self._case(statement)
        if case is None:
            return None
        refused = case.refused()
        if refused is None:
            return Seal({}, "")
        digests = self._of(case.machine.space)
        laws = [each.key for each in statement.reasons if each.kind in ("law", "rule")]
        # Without reasons, as in cells of tables, the refusal is that of all laws.
        held = {key: digests[key] for key in (laws if statement.reasons else digests)}
        return Seal(held, _digest(case.machine.space, refused))

    def holds(self, statement: Statement, seal: Seal) -> bool:
        """Say whether a sealed statement is known to hold of the book as it is now.

        No means that it has to be found again, not that it fails.

        Raises:
            Problems: when its question makes no sense for the book any more.
        """
        case = self._case(statement)
        if case is None or not case.shown():
            return False
        refused, digests = case.refused(), self._of(case.machine.space)
        return refused is None or (
            all(digests.get(key) == digest for key, digest in seal.laws.items())
            and _digest(case.machine.space, refused) == seal.asked
        )

    def _case(self, statement: Statement) -> _Case | None:
        """Return a statement that can be sealed: one question, proven by engines in one world."""
        query = statement.query
        if query.kind not in PROVEN or statement.verdict not in _SEALED:
            return None
        opened = self.shared.of(query).at(query)
        (_, machine), *others = opened.in_worlds(lambda machine: machine)
        asked = taken_apart(machine, query.text, CELL)
        if others or asked.then or asked.word not in _WORDS:
            return None
        # The machine is kept too, so that its id stays its own.
        _, made = self._made.setdefault(id(machine), (machine, {}))
        return _Case(machine, statement, asked, made)

    def _of(self, space: Space) -> Mapping[str, str]:
        """Return the digest of each law by its key; what is written as several laws has one."""
        if id(space) not in self._digests:
            laws: dict[str, list[Law]] = {}
            for law in space.laws:
                laws.setdefault(law.origin.key, []).append(law)
            made = {key: _digest(space, each) for key, each in laws.items()}
            # The space is kept too, so that its id stays its own.
            self._digests[id(space)] = (space, made)
        return self._digests[id(space)][1]


_SEALED = frozenset({"yes", "no", "always", "not always", "most", "least"})
_WORDS = frozenset({"can", "always", "most", "least"})


@dataclass(frozen=True, slots=True)
class _Case:
    """A statement about one machine.

    Args:
        machine: the machine.
        statement: the statement.
        asked: its question.
        made: wishes made for the machine so far, by what they are of.
    """

    machine: Machine
    statement: Statement
    asked: Asked
    made: Made

    def shown(self) -> bool:
        """Say whether its build is legal and has what was asked; a no shows none."""
        if self.statement.verdict == "no":
            return True
        values = _values(self.machine.space, self.statement.witness or {})
        if values is None or broken(self.machine.space, values):
            return False
        return all(_has(wish, values) for wish in self.had())

    def had(self) -> list[Wish]:
        """Return what its build has."""
        match self.statement.verdict:
            case "always":
                return self.claim(denied=False)
            case "not always":
                return self.claim(denied=True)
            case "yes":
                return self.conditions()
            case _:
                return [*self.conditions(), *self.reached()]

    def refused(self) -> list[Law] | None:
        """Return what was asked and refused, or ``None`` where a build alone is the proof."""
        match self.statement.verdict:
            case "yes" | "not always":
                return None
            case "always":
                wishes = self.claim(denied=True)
            case "no" if self.asked.word == "always":
                wishes = self.claim(denied=False)
            case "no":
                wishes = self.conditions()
            case side:
                wishes = [*self.conditions(), *self.beyond(most=side == "most")]
        return [law for wish in wishes for law in wish.laws]

    def conditions(self) -> list[Wish]:
        """Return what is asked, and what is given with it."""
        asked = self.asked
        terms = asked.terms if asked.word == "can" else asked.terms[1:]
        given = [asked.given] if asked.given is not None else []
        key = ("conditions", *map(text, (*terms, *given)))
        return self.once(key, lambda: wishes_asked(self.machine, asked, terms))

    def claim(self, *, denied: bool) -> list[Wish]:
        """Return what every build is said to have, or its opposite."""
        machine, asked = self.machine, self.asked

        def make() -> list[Wish]:
            claim = machine.condition(asked.terms[0], asked.mark)
            return wishes_of(machine, negation(machine, claim) if denied else claim, asked.mark)

        return self.once(("denied" if denied else "claimed", text(asked.terms[0])), make)

    def reached(self) -> list[Wish]:
        """Return that the number asked for has the recorded value."""
        value = Fraction(self.statement.value["value"])
        key = ("reached", text(self.asked.terms[0]), str(value))
        return self.once(key, lambda: [level_wish(self.machine, self.number, "==", value)])

    def beyond(self, *, most: bool) -> list[Wish]:
        """Return that the number asked for is beyond the recorded value."""
        value = Fraction(self.statement.value["value"])
        key = ("above" if most else "below", text(self.asked.terms[0]), str(value))
        return self.once(key, lambda: [beyond_wish(self.machine, self.number, value, most=most)])

    def once(self, key: tuple[str, ...], make: Callable[[], list[Wish]]) -> list[Wish]:
        """Return wishes that were made before, or make them."""
        if key not in self.made:
            self.made[key] = make()
        return self.made[key]

    @property
    def number(self) -> Value:
        """The number of which the most or the least is asked."""
        checked = self.machine.read(self.asked.terms[0], self.asked.mark)
        return number_asked(self.machine, checked, self.asked.mark)


def _values(space: Space, labels: Mapping[str, str]) -> dict[str, int] | None:
    """Return a build by index, or ``None`` where a choice or a label of it is no more, or new."""
    found = {}
    for choice in space.choices:
        if labels.get(choice.name) not in choice.values:
            return None
        found[choice.name] = choice.values.index(labels[choice.name])
    return found


def _has(wish: Wish, values: Mapping[str, int]) -> bool:
    """Say whether a build has a wish, with some values of the helper choices of its encoding."""
    names = [choice.name for choice in wish.choices]
    sizes = [choice.size for choice in wish.choices]
    if math.prod(sizes) > MOST_TRIED:
        return False
    return any(
        all(holds(law, {**values, **dict(zip(names, each, strict=True))}) for law in wish.laws)
        for each in itertools.product(*map(range, sizes))
    )


def _digest(space: Space, laws: Iterable[Law]) -> str:
    """Return a digest of laws: what they allow of which values of which choices."""
    made = hashlib.blake2b(digest_size=16)
    for law in laws:
        labels = [(name, space.choice(name).values if name in space else ()) for name in law.scope]
        content = sorted(law.rows) if isinstance(law, Table) else (law.weights, law.at_most)
        made.update(repr((labels, content)).encode())
    return made.hexdigest()
