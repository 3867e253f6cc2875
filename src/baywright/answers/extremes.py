"""The most and the least: of one number, or of several, each among the builds best so far."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias

from baywright.answers.cheapest import cheapest
from baywright.answers.figures import amount
from baywright.answers.inquiry import EVALUATOR, Inquiry, RecheckError, StoppedError
from baywright.answers.questions import possible, structure
from baywright.answers.reasons import Explanation, explain_refusal
from baywright.answers.verdicts import Bound, Figure, Stopped, Then, Verdict
from baywright.answers.witnesses import witness
from baywright.engines.contract import Engine, Objective
from baywright.laws.formula import Formula, encode
from baywright.laws.linear import Linear, whole
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Lowest
from baywright.laws.wishes import Wish, with_wishes
from baywright.laws.wording import listed
from baywright.problems import problem
from baywright.space import Origin, Space

Value: TypeAlias = Linear | Lookup | Lowest
"""What has a most and a least: a total, or something looked up."""


@dataclass(frozen=True, slots=True)
class Goal:
    """A number to be made as large or as small as possible.

    Args:
        name: what it is called.
        value: the number.
        most: true for the most, false for the least.
    """

    name: str
    value: Value
    most: bool

    def figure(self, reached: Fraction) -> Figure:
        """Return the number with a value it has."""
        return Figure(self.name, self.name, reached, self.value.dimension)


@dataclass(frozen=True, slots=True)
class _Reached:
    """A goal with the value proven to be its best.

    Args:
        goal: the goal.
        value: its best value among the builds that reach the goals before.
        held: the wish for just that value.
        refused_by: the engine that proved that there is none better.
    """

    goal: Goal
    value: Fraction
    held: Wish
    refused_by: Engine

    @property
    def figure(self) -> Figure:
        return self.goal.figure(self.value)


def best(inquiry: Inquiry, goals: Sequence[Goal], wishes: Sequence[Wish]) -> Verdict:
    """Return the best of a number over all builds that have the wishes.

    Further goals come one after another, each among the builds that are best in those before.

    Args:
        inquiry: the machine and the engines.
        goals: what is wanted, the first above all.
        wishes: what the builds have to have.

    Raises:
        Problems: kind ``no-value``, when no build that is best so far has a further number.
    """
    climb = _Climb(inquiry, wishes)
    try:
        for run in _runs(goals):
            if not climb.take(run):
                break
    except StoppedError as stopped:
        return _stopped_at(stopped, goals[len(climb.reached)], climb.reached)
    if not climb.reached:
        return possible(inquiry, wishes)
    if len(climb.reached) < len(goals):
        missed = goals[len(climb.reached)].name
        message = f"No build that is best so far has {missed}."
        raise problem("no-value", message, None, "Leave it out of then=.")
    return _bound(climb)


def _runs(goals: Sequence[Goal]) -> Iterator[list[Goal]]:
    """Yield goals by turns: totals that follow each other together, others alone."""
    for total, run in itertools.groupby(goals, lambda goal: isinstance(goal.value, Linear)):
        if total:
            yield list(run)
        else:
            yield from ([goal] for goal in run)


@dataclass
class _Climb:
    """From goal to goal, each proven before the next.

    Args:
        inquiry: the machine and the engines.
        wishes: what the builds have to have.
        reached: the goals reached.
        values: a build that reaches them.
    """

    inquiry: Inquiry
    wishes: Sequence[Wish]
    reached: list[_Reached] = field(default_factory=list)
    values: Mapping[str, int] = field(default_factory=dict)

    def take(self, run: Sequence[Goal]) -> bool:
        """Reach the goals of a run; return false when no build has such a number.

        Raises:
            StoppedError: at a limit; goals proven by then are reached.
        """
        first, totals = run[0], [goal.value for goal in run if isinstance(goal.value, Linear)]
        if isinstance(first.value, Linear):
            return self._totals(run, totals)
        return self._looked_up(first, first.value)

    def space(self, goals: int | None = None) -> Space:
        """Return the space of builds that have the wishes and reach the first goals, or all."""
        held = [each.held for each in self.reached[:goals]]
        return with_wishes(self.inquiry.machine.space, [*self.wishes, *held])

    def _totals(self, run: Sequence[Goal], totals: Sequence[Linear]) -> bool:
        objectives = [
            _objective(total, most=goal.most) for goal, total in zip(run, totals, strict=True)
        ]
        before = len(self.reached)
        found = self.inquiry.best_of(self.space(), objectives)
        for each, goal, total in zip(found, run, totals, strict=False):
            self._reach(goal, total.value(each.values), each.values)
        for reached, total in zip(self.reached[before:], totals, strict=False):
            if total.value(self.values) != reached.value:
                raise RecheckError(f"the build found last is not the best in {reached.goal.name}")
        return len(self.reached) > before

    def _looked_up(self, goal: Goal, looked_up: Lookup | Lowest) -> bool:
        machine, before = self.inquiry.machine, self.space()
        for level in sorted(levels(machine, looked_up), reverse=goal.most):
            there = _wish("view:level", machine, machine.translator.level(looked_up, "==", level))
            values = self.inquiry.possible(with_wishes(before, [there]))
            if values is not None:
                self._reach(goal, level, values)
                return True
        return False

    def _reach(self, goal: Goal, value: Fraction, values: Mapping[str, int]) -> None:
        machine, number = self.inquiry.machine, len(self.reached) + 1
        there = machine.translator.level(goal.value, "==", value)
        held = _wish(f"view:level:{number}", machine, there)
        total = isinstance(goal.value, Linear)
        engine = self.inquiry.panel.optimiser if total else self.inquiry.prover
        self.reached.append(_Reached(goal, value, held, engine))
        self.values = values

    def then(self, position: int) -> Then:
        """Return a goal after the first, proven again by another engine where that comes to an end.

        Args:
            position: its position among those reached.

        Raises:
            RecheckError: when the other engine finds a better build.
        """
        inquiry, reached = self.inquiry, self.reached[position]
        goal = reached.goal
        better = _better(inquiry.machine, goal, reached.value)
        space = with_wishes(self.space(position), [_wish("view:better", inquiry.machine, better)])
        try:
            with inquiry.aside(inquiry.panel.patience_for_the_best):
                judge = inquiry.confirm_refusal(space, reached.refused_by)
        except StoppedError:
            return Then(goal.most, reached.figure, EVALUATOR)
        return Then(goal.most, reached.figure, judge.name)


def _bound(climb: _Climb) -> Bound:
    """Return the best of the first goal with the reasons why nothing lies beyond it."""
    inquiry, first = climb.inquiry, climb.reached[0]
    machine = inquiry.machine
    sentence = f"Asked: a {'higher' if first.goal.most else 'lower'} value than the one found."
    beyond = _wish("wish:beyond", machine, _beyond(machine, first), sentence)
    asked = [*climb.wishes, beyond]
    space = with_wishes(machine.space, asked)
    then = tuple(climb.then(position) for position in range(1, len(climb.reached)))
    try:
        why = explain_refusal(inquiry, space, asked)
        proof = inquiry.proof(first.refused_by, refusal=True)
    except StoppedError:
        # The bound is proven all the same; only its reasons were not found in time.
        why, proof = Explanation(), inquiry.proof(first.refused_by)
    shown = witness(machine, _cheapest_or(inquiry, climb.space(), climb.values))
    stands_on = structure(space, why.reasons)
    return Bound(
        first.goal.most, first.figure, shown, why.reasons, proof, stands_on, why.others, then
    )


def _beyond(machine: Machine, reached: _Reached) -> Formula:
    """Return the formula for better than a value; of a total, a whole unit better.

    That is easier to explain. The best itself is proven; that no value lies within the unit can
    hang on remainders that make no reason for people.
    """
    goal, value = reached.goal, reached.value
    if not isinstance(goal.value, Linear):
        return _better(machine, goal, value)
    level = Fraction(math.floor(value) + 1 if goal.most else math.ceil(value) - 1)
    return machine.translator.level(goal.value, ">=" if goal.most else "<=", level)


def _better(machine: Machine, goal: Goal, value: Fraction) -> Formula:
    return machine.translator.level(goal.value, ">" if goal.most else "<", value)


def _cheapest_or(inquiry: Inquiry, space: Space, found: Mapping[str, int]) -> Mapping[str, int]:
    """Return the cheapest build, or the one already found when no cheaper comes in time."""
    try:
        return cheapest(inquiry, space) or found
    except StoppedError:
        return found


def _stopped_at(stopped: StoppedError, goal: Goal, reached: Sequence[_Reached]) -> Stopped:
    """Return how far an optimisation came, and what no build can pass."""
    before = [
        f"{each.goal.name} {amount(each.value, each.goal.value.dimension, 'nearest')}"
        for each in reached
    ]
    tried = f"{stopped.tried} on {goal.name}, after {listed(before)}" if before else stopped.tried
    cut, total = stopped.cut, goal.value
    if not isinstance(total, Linear) or cut is None or cut.values is None:
        return Stopped(tried)
    value = total.value(cut.values)
    if cut.bound is None or cut.value is None:
        return Stopped(tried, goal.figure(value))
    # The objective counts whole steps of the total, downwards when the most is wanted.
    steps = Fraction(cut.value - cut.bound) * total.quantum
    passed = value + steps if goal.most else value - steps
    return Stopped(tried, goal.figure(value), goal.figure(passed))


def _objective(total: Linear, *, most: bool) -> Objective:
    return Objective(tuple(whole(total.scaled(-1 if most else 1)).items()))


def levels(machine: Machine, looked_up: Lookup | Lowest) -> set[Fraction]:
    """Return every value that some option gives to a number that is looked up."""
    terms = looked_up.terms if isinstance(looked_up, Lowest) else (looked_up,)
    numbers = (
        term.number(*options)
        for term in terms
        for options in itertools.product(*(machine.frame.options(name) for name in term.scope))
    )
    return {number for number in numbers if number is not None}


def _wish(key: str, machine: Machine, formula: Formula, sentence: str = "") -> Wish:
    """Return a formula as a wish of its own."""
    origin = Origin(key, "wish", sentence)
    encoded = encode(formula, origin, machine.sizes)
    return Wish(origin, sentence, tuple(encoded.choices), tuple(encoded.laws))
