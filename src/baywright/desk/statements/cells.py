"""Cells of tables: questions by the hundred, each proven by two engines, without reasons sought.

The diagram answers where what is given only narrows single choices; it is compiled once for all of
them. What else is given goes to the optimiser of the panel. Search proves every refusal again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from baywright.answers.extremes import Goal, levels
from baywright.answers.inquiry import EVALUATOR, RecheckError
from baywright.answers.verdicts import Bound, No, Proof, Stopped, Verdict, Yes
from baywright.answers.witnesses import witness
from baywright.desk.asking import Asked, number_asked, taken_apart, wishes_asked
from baywright.desk.opening import Opened
from baywright.desk.statements.judges import judges
from baywright.desk.statements.levels import level_wish
from baywright.desk.statements.shared import Shared
from baywright.desk.worlds import over_worlds
from baywright.engines.contract import (
    Assumptions,
    Best,
    Cut,
    Engine,
    Impossible,
    Objective,
    Possible,
)
from baywright.laws.linear import Linear, whole
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Lowest
from baywright.laws.wishes import Wish, with_wishes
from baywright.problems import Mark, problem
from baywright.space import Space, Table, broken
from baywright.terms import wording
from baywright.terms.syntax import Comparison

CELL = Mark("cell", 1, 1)
WORDS = ("can", "most", "least")


@dataclass(frozen=True, slots=True)
class _Given:
    """What has to hold in a cell.

    Args:
        space: the space with it.
        base: the space without what only narrows single choices.
        allowed: what that narrows them to.
        engine: who answers.
    """

    space: Space
    base: Space
    engine: Engine
    allowed: Mapping[str, frozenset[int]] = field(default_factory=dict)


def cell(shared: Shared, opened: Opened, question: str) -> Verdict:
    """Answer a question of a table: whether, the most, or the least.

    Raises:
        Problems: when the question makes no sense, or is of another form.
        RecheckError: when two engines do not agree.
    """
    asked = taken_apart(opened.machine, question, CELL)
    if asked.word not in WORDS or asked.then:
        message = f"A cell takes one question of the form {', '.join(WORDS)}."
        raise problem("not-a-cell", message, CELL, "Use the kind ask.")
    return over_worlds(opened, lambda machine: _Cell(shared, opened, machine).answer(asked))


@dataclass(frozen=True, slots=True)
class _Cell:
    """A cell of a table about one machine.

    Args:
        shared: what cells share.
        opened: the book, with day and site.
        machine: the machine.
    """

    shared: Shared
    opened: Opened
    machine: Machine

    def answer(self, asked: Asked) -> Verdict:
        """Return what is so."""
        machine = self.machine
        if asked.word == "can":
            return self._possible(self._given(wishes_asked(machine, asked, asked.terms)))
        number, *conditions = asked.terms
        wishes = wishes_asked(machine, asked, conditions)
        checked = machine.read(number, CELL)
        value, said = (
            number_asked(machine, checked, CELL),
            wording(checked.expression, machine.vocabulary),
        )
        goal = Goal(said, value, asked.word == "most")
        if isinstance(value, Linear):
            return self._best(self._given(wishes), value, goal)
        return self._looked_up(self._given(wishes), value, goal)

    def _given(self, wishes: Iterable[Wish]) -> _Given:
        allowed: dict[str, frozenset[int]] = {}
        every, others = tuple(wishes), []
        for wish in every:
            if wish.choices or not all(_narrows(law) for law in wish.laws):
                others.append(wish)
                continue
            for name, values in _narrowed(wish):
                allowed[name] = allowed.get(name, values) & values
        space = self.machine.space
        base, full = with_wishes(space, others) if others else space, with_wishes(space, every)
        engine = self.opened.panel.optimiser if others else self.shared.diagram
        return _Given(full, base, engine, allowed)

    def _possible(self, given: _Given) -> Verdict:
        limit = self.opened.panel.limit
        found = given.engine.prove(given.base, Assumptions(given.allowed), limit)
        if isinstance(found, Cut):
            return Stopped(f"{given.engine.name} worked for {limit.seconds:g} s")
        if isinstance(found, Possible):
            _check(given, found.values)
            proof = Proof(given.engine.name, EVALUATOR)
            return Yes(witness(self.machine, found.values), proof)
        return self._no(given)

    def _no(self, given: _Given) -> No:
        return No((), (), Proof(given.engine.name, self._refused_again(given, given.space)))

    def _best(self, given: _Given, value: Linear, goal: Goal) -> Verdict:
        limit = self.opened.panel.limit
        objective = Objective(tuple(whole(value.scaled(-1 if goal.most else 1)).items()))
        found = given.engine.best(given.base, objective, Assumptions(given.allowed), limit)
        if isinstance(found, Impossible):
            return self._no(given)
        if not isinstance(found, Best):
            return Stopped(f"{given.engine.name} worked for {limit.seconds:g} s")
        _check(given, found.values)
        reached = value.value(found.values)
        better = level_wish(self.machine, value, ">" if goal.most else "<", reached)
        judge = self._refused_again(given, with_wishes(given.space, [better]))
        shown = witness(self.machine, found.values)
        return Bound(goal.most, goal.figure(reached), shown, (), Proof(given.engine.name, judge))

    def _looked_up(self, given: _Given, value: Lookup | Lowest, goal: Goal) -> Verdict:
        """Go through the levels from the best one; search finds, others prove it again."""
        engine, limit = self.opened.panel.prover, self.opened.panel.limit
        side: Comparison = ">" if goal.most else "<"
        for level in sorted(levels(self.machine, value), reverse=goal.most):
            there = level_wish(self.machine, value, "==", level)
            found = engine.prove(with_wishes(given.space, [there]), limit=limit)
            if isinstance(found, Cut):
                return Stopped(f"{engine.name} worked for {limit.seconds:g} s")
            if isinstance(found, Possible):
                _check(given, found.values)
                better = level_wish(self.machine, value, side, level)
                by = replace(given, engine=engine)
                judge = self._refused_again(by, with_wishes(given.space, [better]))
                shown = witness(self.machine, found.values)
                proof = Proof(engine.name, judge)
                return Bound(goal.most, goal.figure(level), shown, (), proof)
        return self._no(replace(given, engine=engine))

    def _refused_again(self, given: _Given, space: Space) -> str:
        """Have another engine prove that a space has no build, and return its name."""
        others = judges(self.shared, self.opened, given.engine.name)
        if others.build(space) is not None:
            raise RecheckError(f"{others.names} found a build where {given.engine.name} refused")
        return others.names


def _narrows(law: object) -> bool:
    return isinstance(law, Table) and len(law.scope) == 1


def _narrowed(wish: Wish) -> Iterator[tuple[str, frozenset[int]]]:
    for law in wish.laws:
        if isinstance(law, Table):
            yield law.scope[0], frozenset(value for row in law.rows for value in row)


def _check(given: _Given, values: Mapping[str, int]) -> None:
    failed = broken(given.space, values)
    if failed:
        keys = ", ".join(sorted({law.origin.key for law in failed}))
        raise RecheckError(f"the build found by {given.engine.name} breaks {keys}")
