"""A machine that very many things are asked of: engines, terms and builds are kept for all."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from baywright.answers.inquiry import Inquiry, Panel
from baywright.desk.proofreading.found import FoundBuilds, Test
from baywright.engines.contract import Limit, Objective
from baywright.engines.grown import GrownCpSat, GrownSearch
from baywright.laws.formula import AtMost, Encoded, Formula, NotEncodable, compiled, encode
from baywright.laws.linear import Linear, whole
from baywright.laws.machine import Machine
from baywright.problems import Mark, Problems
from baywright.space import Origin, Space, Sum, Table
from baywright.terms import parse

CLAIM = Mark("sentence", 1, 1)

MOST_STEPS = 128
"""Up to so many values of a total are halved; among more the optimiser is quicker."""


class NotSayable(Exception):  # noqa: N818 - an outcome, not an error
    """A claim cannot be said in the language of the book, or not be proven as it stands."""


@dataclass
class Ground:
    """A machine, and what is kept of the questions about it.

    Args:
        machine: the machine.
        panel: engines that have taken its space in.
    """

    machine: Machine
    panel: Panel
    _formulas: dict[str, Formula] = field(default_factory=dict)
    _encoded: dict[str, Encoded] = field(default_factory=dict)
    _tests: dict[str, Test | None] = field(default_factory=dict)
    _found: FoundBuilds = field(init=False)

    def __post_init__(self) -> None:
        self._found = FoundBuilds(tuple(choice.name for choice in self.machine.space.choices))

    @classmethod
    def of(cls, machine: Machine, panel: Panel) -> Ground:
        """Return a machine with the limits of a panel, and engines of its own."""
        space = machine.space
        return cls(machine, replace(panel, prover=GrownSearch(space), optimiser=GrownCpSat(space)))

    def build(self, terms: Sequence[str]) -> Mapping[str, int] | None:
        """Return a legal build that has the terms, or ``None`` when one engine finds none.

        Raises:
            NotSayable: when the terms make no sense for this book.
            StoppedError: at a limit.
            RecheckError: when the engine's build breaks a law.
        """
        return self._known(terms) or self._searched(Inquiry(self.machine, self.panel), terms)

    def possible(self, terms: Sequence[str], patience: Limit | None = None) -> bool:
        """Say whether a legal build has the terms; that none has is proven by two engines.

        Args:
            terms: the terms.
            patience: time for the second engine, that of the panel unless given.

        Raises:
            NotSayable: when the terms make no sense for this book.
            StoppedError: at a limit.
            RecheckError: when the engines differ, or a build breaks a law.
        """
        if self._known(terms) is not None:
            return True
        inquiry = Inquiry(self.machine, self.panel)
        if self._searched(inquiry, terms) is not None:
            return True
        with inquiry.aside(patience or self.panel.limit):
            inquiry.confirm_refusal(self._space(terms))
        return False

    def _known(self, terms: Sequence[str]) -> Mapping[str, int] | None:
        """Return a build of an earlier question that has the terms, if there is one."""
        tests = {term: test for term in terms if (test := self._test(term)) is not None}
        if len(tests) < len(set(terms)):
            return None
        return next(iter(self._found.having(tests)), None)

    def _searched(self, inquiry: Inquiry, terms: Sequence[str]) -> Mapping[str, int] | None:
        found = inquiry.possible(self._space(terms))
        if found is not None:
            self._found.keep(found)
        return found

    def fulfils(self, term: str, build: Mapping[str, int]) -> bool:
        """Say whether a build has a term.

        Raises:
            NotSayable: when the term makes no sense for this book, or cannot be looked up.
        """
        test = self._test(term)
        if test is None:
            raise NotSayable(f"{term} cannot be looked up in a build.")
        return test(self._found.row(build))

    def extreme(self, side: str, expression: str, given: Sequence[str]) -> Fraction | None:
        """Return the most or the least of a total, or ``None`` where there is none.

        Args:
            side: ``most`` or ``least``.
            expression: the total.
            given: terms that the builds have.

        Raises:
            NotSayable: when it makes no sense for this book.
            StoppedError: at a limit.
        """
        value, inquiry = self._total(expression), Inquiry(self.machine, self.panel)
        if value is None:
            return None
        sign = 1 if side == "most" else -1
        steps = Steps(value.scaled(sign))
        if steps.last <= MOST_STEPS:
            found = self._halved(f"{side} {expression}", steps, inquiry, given)
            return None if found is None else steps.value(found) * sign
        objective = Objective(tuple(whole(value.scaled(-sign)).items()))
        best = inquiry.best(self._space(given), objective)
        return None if best is None else value.value(best.values)

    def _halved(
        self, name: str, steps: Steps, inquiry: Inquiry, given: Sequence[str]
    ) -> int | None:
        """Return the number of the highest value that a build has."""
        found = self._known(given) or self._searched(inquiry, given)
        if found is None:
            return None
        reached, last, space = steps.reached(found), steps.last, self._space(given)
        while reached < last:
            middle = (reached + last + 1) // 2
            origin = Origin(f"{name} {middle}", "wish", "More is looked for.")
            more = encode(steps.at_least(middle), origin, self.machine.sizes)
            found = inquiry.possible(_with(space, [more]))
            if found is None:
                last = middle - 1
            else:
                reached = steps.reached(found)
        return reached

    def _space(self, terms: Sequence[str]) -> Space:
        return _with(self.machine.space, [self._laws(term) for term in dict.fromkeys(terms)])

    def _laws(self, term: str) -> Encoded:
        if term not in self._encoded:
            origin = Origin(f"claim:{term}", "wish", f"Asked: {term}.")
            try:
                self._encoded[term] = encode(self._formula(term), origin, self.machine.sizes)
            except NotEncodable as reason:
                raise NotSayable(f"This cannot be proven as it stands: {reason}.") from reason
        return self._encoded[term]

    def _formula(self, term: str) -> Formula:
        machine = self.machine
        if term not in self._formulas:
            try:
                condition = machine.condition(parse(term, CLAIM), CLAIM)
                self._formulas[term] = machine.translator.truth(condition)
            except NotEncodable as reason:
                raise NotSayable(f"This cannot be proven as it stands: {reason}.") from reason
            except Problems as problems:
                raise NotSayable(str(problems.problems[0].message)) from problems
        return self._formulas[term]

    def _test(self, term: str) -> Test | None:
        """Return the test of a term on a build; arrays cannot be looked up in one."""
        if term not in self._tests:
            position = {name: at for at, name in enumerate(self._found.names)}
            try:
                self._tests[term] = compiled(self._formula(term), position)
            except NotEncodable:
                self._tests[term] = None
        return self._tests[term]

    def _total(self, expression: str) -> Linear | None:
        machine = self.machine
        try:
            value = machine.translator.value(machine.read(parse(expression, CLAIM)).expression)
        except (Problems, NotEncodable) as problems:
            raise NotSayable(str(problems)) from problems
        return value if isinstance(value, Linear) else None


def _with(space: Space, asked: Sequence[Encoded]) -> Space:
    laws = [law for each in asked for law in each.laws]
    return space.extended(
        (choice for each in asked for choice in each.choices),
        (law for law in laws if isinstance(law, Table)),
        (law for law in laws if isinstance(law, Sum)),
    )


@dataclass(frozen=True, slots=True)
class Steps:
    """The values that a total can have, numbered upwards.

    Args:
        total: the total.
    """

    total: Linear

    @property
    def last(self) -> int:
        """The highest number."""
        return self._number(self.total.highest)

    def reached(self, build: Mapping[str, int]) -> int:
        """Return the number of the value that a build has."""
        return self._number(self.total.value(build))

    def value(self, number: int) -> Fraction:
        """Return the value of a number."""
        return self.total.constant + number * self.total.quantum

    def at_least(self, number: int) -> AtMost:
        """Return the formula that the total is at least the value of a number."""
        return AtMost(self.total.scaled(-1), -self.value(number))

    def _number(self, value: Fraction) -> int:
        return math.floor((value - self.total.constant) / self.total.quantum)
