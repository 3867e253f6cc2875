"""The best way on from a machine that stands: what is bought, moved and taken out.

Parts that are owned cost nothing more. What a build has of a part beyond those owned is bought;
what leaves its place and is needed elsewhere is moved; what is needed nowhere is taken out. All
three are counted exactly, by a choice for each part that the rest of the build determines.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import Literal, TypeAlias

from baywright.answers.inquiry import EVALUATOR, Inquiry, StoppedError
from baywright.engines.contract import Objective
from baywright.facts.parts import Part
from baywright.laws.blanks import blank_totals, blanks
from baywright.laws.builds import parts_list
from baywright.laws.frame import Option
from baywright.laws.linear import Linear, added, whole
from baywright.laws.machine import Machine
from baywright.space import Assignment, Choice, Origin, Space, Sum

Aim = Literal["price", "bought", "moved", "removed", "changed"]
"""What is made as small as possible: the price of what is bought, the number of parts bought,
moved or taken out, and the number of choices that differ."""

CHEAPEST: tuple[Aim, ...] = ("price", "bought", "moved", "removed", "changed")
"""The least price first; of equal ones the least work."""

GENTLEST: tuple[Aim, ...] = ("moved", "removed", "price", "bought", "changed")
"""What is there is touched as little as possible; of equal ones the least price."""

_BOUGHT = Origin("upgrade.bought", "law", "What is not owned is bought.")

_BETTER = Origin("upgrade.better", "wish", "Better than what was found.")

_Compare: TypeAlias = Callable[[Mapping[str, int], Mapping[str, int]], int]
"""A number for a choice, from the parts it has and those it gets."""


@dataclass(frozen=True, slots=True)
class _Stock:
    """A part, of which so many are owned.

    Args:
        part: its id.
        owned: how many are owned.
        fitted: how many a build has.
        most: more than so many are never bought.
        price: list price of one.
        closes: whether it is a blank, which follows from the other parts.
    """

    part: str
    owned: int
    fitted: Linear
    most: int
    price: Fraction
    closes: bool

    @property
    def choice(self) -> str:
        """Name of the choice that says how many are bought."""
        return f"bought {self.part}"

    def bought(self, each: Fraction = Fraction(1)) -> Linear:
        """Return the number bought, each counted as so much."""
        return Linear({self.choice: tuple(each * n for n in range(self.most + 1))})

    def sums(self) -> Iterator[Sum]:
        """Yield the sums that keep the number bought at what is fitted less what is owned."""
        fitted = {name: tuple(map(int, row)) for name, row in self.fitted.weights.items()}
        least = tuple(-number for number in range(self.most + 1))
        yield Sum(((self.choice, least), *fitted.items()), self.owned, _BOUGHT)
        # Where none is bought nothing follows; where some are, all that are owned are fitted.
        most = (-self.owned, *range(1, self.most + 1))
        opposite = ((name, tuple(-number for number in row)) for name, row in fitted.items())
        yield Sum(((self.choice, most), *opposite), -self.owned, _BOUGHT)


@dataclass(frozen=True, slots=True)
class Reached:
    """The build that is best in some aims.

    Args:
        values: the build, re-checked.
        rechecked_by: who proved again that nothing is better in the first aim, or the evaluator
            where that came to no end and the build alone was checked.
        proven_by: the engine that found it and proved it the best.
    """

    values: Mapping[str, int]
    rechecked_by: str
    proven_by: str


@dataclass(frozen=True, slots=True)
class Upgrades:
    """The builds that a machine can become with parts that are owned.

    Args:
        machine: the machine.
        owned: how many of each part are owned, blanks included.
        start: the build that stands, or ``None`` when the machine is bought.
    """

    machine: Machine
    owned: Mapping[str, int]
    start: Assignment | None = None

    def best(
        self, inquiry: Inquiry, space: Space, aims: Sequence[Aim] = CHEAPEST
    ) -> Reached | None:
        """Return the build that is best in some aims, each among those best in the aims before.

        Args:
            inquiry: the engines.
            space: the laws with what is asked of the build.
            aims: what is made as small as possible, the first above all; those after the first
                two need a build that stands.

        Returns:
            The build, or ``None`` when none is legal.

        Raises:
            StoppedError: when an aim is not proven in time.
            RecheckError: when an engine's build breaks a law, or a better one is found.
        """
        stocks = [stock for stock in self._stocks() if stock.most]
        counted, objectives = _counted(space, stocks), [self._objective(a, stocks) for a in aims]
        found = list(inquiry.best_of(counted, objectives))
        if not found:
            return None
        judge = self._confirmed(inquiry, counted, objectives[0], found[0].value)
        return Reached(found[-1].values, judge, inquiry.panel.optimiser.name)

    def _confirmed(self, inquiry: Inquiry, space: Space, first: Objective, least: int) -> str:
        better = space.extended(sums=[Sum(first.weights, least - 1, _BETTER)])
        try:
            with inquiry.aside(inquiry.panel.patience_for_the_best):
                return inquiry.confirm_refusal(better, inquiry.panel.optimiser).name
        except StoppedError:
            return EVALUATOR

    def _stocks(self) -> Iterator[_Stock]:
        machine, closing = self.machine, blank_totals(self.machine)
        for name, part in machine.book.parts.items():
            fitted = machine.frame.linear(partial(_is, name)).plus(closing.get(name, Linear()))
            owned = self.owned.get(name, 0)
            most = max(0, int(fitted.highest) - owned)
            price = part.price.known.canonical if part.price is not None else Fraction(0)
            yield _Stock(name, owned, fitted, most, price, name in closing)

    def _objective(self, aim: Aim, stocks: Iterable[_Stock]) -> Objective:
        bought = added(stock.bought() for stock in stocks if not stock.closes)
        totals: dict[Aim, Callable[[], Linear]] = {
            "price": lambda: added(stock.bought(stock.price) for stock in stocks),
            "bought": lambda: bought,
            "moved": lambda: self._compared(_more).minus(bought),
            "removed": lambda: bought.minus(self._compared(_all)),
            "changed": self._changed,
        }
        return Objective(tuple(whole(totals[aim]()).items()))

    def _compared(self, compare: _Compare) -> Linear:
        """Return a number for what each choice has and gets, added up."""
        frame, weights = self.machine.frame, dict[str, tuple[Fraction, ...]]()
        for name, at in self._standing():
            held = [self._parts(option) for option in frame.options(name)]
            row = (compare(held[at], there) for there in held)
            weights[name] = tuple(Fraction(number) for number in row)
        return Linear(weights)

    def _changed(self) -> Linear:
        frame = self.machine.frame
        return Linear(
            {
                name: tuple(Fraction(other != at) for other in range(len(frame.options(name))))
                for name, at in self._standing()
            }
        )

    def _standing(self) -> Iterator[tuple[str, int]]:
        """Yield each choice that is not derived with its value in the build that stands."""
        if self.start is None:
            raise ValueError("no build stands that could be changed")
        for name, fitting in self.machine.frame.fittings.items():
            if not fitting.derived:
                yield name, self.start[name]

    def _parts(self, option: Option) -> dict[str, int]:
        found: dict[str, int] = {}
        for name, _, number in self.machine.frame.parts_in(option):
            found[name] = found.get(name, 0) + number
        return found


def _counted(space: Space, stocks: Iterable[_Stock]) -> Space:
    """Return a space with a choice for each part that says how many of it are bought."""
    choices: list[Choice] = []
    sums: list[Sum] = []
    for stock in stocks:
        labels = tuple(map(str, range(stock.most + 1)))
        choices.append(Choice(stock.choice, labels, derived=True))
        sums += stock.sums()
    return space.extended(choices, (), sums)


def owned(machine: Machine, assignment: Assignment) -> dict[str, int]:
    """Return how many of each part a build has, what parts bring and blanks included."""
    counts = parts_list(machine, assignment)
    for part, number in blanks(machine, assignment).items():
        counts[part] = counts.get(part, 0) + number
    return counts


def _is(wanted: str, name: str, _: Part) -> int:
    return int(name == wanted)


def _all(_: Mapping[str, int], there: Mapping[str, int]) -> int:
    """Return how many parts a choice gets."""
    return sum(there.values())


def _more(here: Mapping[str, int], there: Mapping[str, int]) -> int:
    """Return how many parts arrive at a choice."""
    return sum(max(0, number - here.get(part, 0)) for part, number in there.items())
