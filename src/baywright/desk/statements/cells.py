"""Cells of tables: questions by the hundred, each proven by two engines, without reasons sought.

The diagram answers where what is given only narrows single choices; it is compiled once for all of
them. What else is given goes to the optimiser of the panel. Search proves every refusal again.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.extremes import Goal, levels
from baywright.answers.inquiry import EVALUATOR, RecheckError, StoppedError
from baywright.answers.reasons import explain_refusal
from baywright.answers.verdicts import Bound, No, Proof, Reason, Stopped, Verdict, Yes
from baywright.answers.witnesses import witness
from baywright.desk.asking import Asked, number_asked, taken_apart, wishes_asked
from baywright.desk.opening import Opened
from baywright.desk.statements.judges import judges
from baywright.desk.statements.levels import beyond_wish, level_wish
from baywright.desk.statements.narrowing import Narrowed
from baywright.desk.statements.shared import Shared
from baywright.desk.worlds import over_worlds
from baywright.engines.contract import (
    Assumptions,
    Best,
    Cut,
    Engine,
    Impossible,
    Limit,
    Objective,
    Possible,
)
from baywright.laws.linear import Linear, whole
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Lowest
from baywright.laws.wishes import Wish, with_wishes
from baywright.problems import Mark, problem
from baywright.terms import wording

CELL = Mark("cell", 1, 1)
WORDS = ("can", "most", "least")


def cell(shared: Shared, opened: Opened, question: str, patience: Limit | None = None) -> Verdict:
    """Answer a question of a table: whether, the most, or the least.

    Args:
        shared: what statements share.
        opened: the book, with day and site.
        question: the question.
        patience: time to look for minimal reasons of a bound; none are sought unless given.

    Raises:
        Problems: when the question makes no sense, or is of another form.
        RecheckError: when two engines do not agree.
    """
    asked = taken_apart(opened.machine, question, CELL)
    if asked.word not in WORDS or asked.then:
        message = f"A cell takes one question of the form {', '.join(WORDS)}."
        raise problem("not-a-cell", message, CELL, "Use the kind ask.")
    return over_worlds(
        opened, lambda machine: _Cell(shared, opened, machine, patience).answer(asked)
    )


@dataclass(frozen=True, slots=True)
class _Cell:
    """A cell of a table about one machine.

    Args:
        shared: what cells share.
        opened: the book, with day and site.
        machine: the machine.
        patience: time to look for minimal reasons, if they are wanted.
    """

    shared: Shared
    opened: Opened
    machine: Machine
    patience: Limit | None = None

    def answer(self, asked: Asked) -> Verdict:
        """Return what is so."""
        machine = self.machine
        if asked.word == "can":
            return self._possible(wishes_asked(machine, asked, asked.terms))
        number, *conditions = asked.terms
        wishes = wishes_asked(machine, asked, conditions)
        checked = machine.read(number, CELL)
        value, said = (
            number_asked(machine, checked, CELL),
            wording(checked.expression, machine.vocabulary),
        )
        goal = Goal(said, value, asked.word == "most")
        if isinstance(value, Linear):
            return self._best(wishes, value, goal)
        return self._looked_up(wishes, value, goal)

    def _given(self, wishes: Sequence[Wish]) -> Narrowed:
        return self.shared.narrower.narrowed(self.machine, wishes)

    def _engine(self, there: Narrowed) -> Engine:
        """Return who answers: the diagram, unless a space would have to be compiled for it."""
        return self.opened.panel.optimiser if there.added else self.shared.diagram

    def _possible(self, wishes: Sequence[Wish]) -> Verdict:
        there = self._given(wishes)
        known = self.shared.shelf.fitting(self.machine, there)
        if known is not None:
            return Yes(witness(self.machine, known.values), Proof(known.engine, EVALUATOR))
        engine, limit = self._engine(there), self.opened.panel.limit
        found = engine.prove(there.space, Assumptions(there.allowed), limit)
        if isinstance(found, Cut):
            return Stopped(f"{engine.name} worked for {limit.seconds:g} s")
        if isinstance(found, Possible):
            self._check(there, found.values, engine)
            return Yes(witness(self.machine, found.values), Proof(engine.name, EVALUATOR))
        return self._no(there, engine)

    def _no(self, there: Narrowed, engine: Engine) -> No:
        return No((), (), Proof(engine.name, self._refused_again(there, engine)))

    def _best(self, wishes: Sequence[Wish], value: Linear, goal: Goal) -> Verdict:
        there = self._given(wishes)
        engine, limit = self._engine(there), self.opened.panel.limit
        objective = Objective(tuple(whole(value.scaled(-1 if goal.most else 1)).items()))
        found = engine.best(there.space, objective, Assumptions(there.allowed), limit)
        if isinstance(found, Impossible):
            return self._no(there, engine)
        if not isinstance(found, Best):
            return Stopped(f"{engine.name} worked for {limit.seconds:g} s")
        self._check(there, found.values, engine)
        return self._bound(wishes, goal, value.value(found.values), found.values, engine)

    def _looked_up(self, wishes: Sequence[Wish], value: Lookup | Lowest, goal: Goal) -> Verdict:
        """Go through the levels from the best one."""
        engine, limit = self.opened.panel.prover, self.opened.panel.limit
        for level in sorted(levels(self.machine, value), reverse=goal.most):
            there = self._given([*wishes, level_wish(self.machine, value, "==", level)])
            found = engine.prove(there.space, Assumptions(there.allowed), limit)
            if isinstance(found, Cut):
                return Stopped(f"{engine.name} worked for {limit.seconds:g} s")
            if isinstance(found, Possible):
                self._check(there, found.values, engine)
                return self._bound(wishes, goal, level, found.values, engine)
        # No build has such a number at all, so there is no most of it; some build exists or none.
        return self._possible(wishes)

    def _bound(
        self,
        wishes: Sequence[Wish],
        goal: Goal,
        reached: Fraction,
        values: Mapping[str, int],
        engine: Engine,
    ) -> Bound:
        beyond = beyond_wish(self.machine, goal.value, reached, most=goal.most)
        judge = self._refused_again(self._given([*wishes, beyond]), engine)
        shown, reasons = witness(self.machine, values), self._reasons([*wishes, beyond])
        return Bound(goal.most, goal.figure(reached), shown, reasons, Proof(engine.name, judge))

    def _reasons(self, wishes: Sequence[Wish]) -> tuple[Reason, ...]:
        """Return a minimal set of what makes wishes impossible, if it is wanted and found in time.

        The refusal is proven by two engines without it.
        """
        if self.patience is None:
            return ()
        inquiry = self.opened.inquiry(self.machine)
        try:
            with inquiry.aside(self.patience):
                space = with_wishes(self.machine.space, wishes)
                return explain_refusal(inquiry, space, wishes).reasons
        except StoppedError:
            return ()

    def _refused_again(self, there: Narrowed, engine: Engine) -> str:
        """Have another engine prove that a space has no build, and return its name."""
        others = judges(self.shared, self.opened, engine.name)
        if others.build(there) is not None:
            raise RecheckError(f"{others.names} found a build where {engine.name} refused")
        return others.names

    def _check(self, there: Narrowed, values: Mapping[str, int], engine: Engine) -> None:
        """Check a build and keep it: what one cell found may show the next."""
        failed = there.broken(values)
        if failed:
            raise RecheckError(f"the build found by {engine.name} breaks {failed}")
        self.shared.shelf.keep(self.machine, values, engine.name)
