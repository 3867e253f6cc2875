"""Whether builds exist, each answer checked twice and kept for the next sentence."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from baywright.desk.opening import Opened, Setting
from baywright.engines.contract import Objective
from baywright.facts.fact import Fact
from baywright.laws.formula import NotEncodable, compiled
from baywright.laws.linear import Linear, whole
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, wishes_of, with_wishes
from baywright.problems import Mark, Problems
from baywright.space import Space
from baywright.terms import parse
from baywright.units import parse as parse_amount

CLAIM = Mark("sentence", 1, 1)


@dataclass(frozen=True, slots=True)
class Site:
    """Where and when builds are looked for.

    Args:
        altitude: altitude with its unit; that of the book's setting when empty.
        inlet: inlet temperature with its unit; that of the setting when empty.
        day: the day; that of the setting when ``None``.
    """

    altitude: str = ""
    inlet: str = ""
    day: datetime.date | None = None


class NotSayable(Exception):  # noqa: N818 - an outcome, not an error
    """A claim cannot be said in the language of the book, or not be proven as it stands."""


class Undecided(Exception):  # noqa: N818 - an outcome, not an error
    """Unknown facts decide."""


@dataclass
class Prover:
    """Proves what builds of an open book can have.

    Args:
        opened: the book, with day and site.
    """

    opened: Opened
    _known: dict[tuple[frozenset[str], Site], bool] = field(default_factory=dict)
    _sites: dict[Site, Opened] = field(default_factory=dict)
    _wishes: dict[tuple[int, str, int], list[Wish]] = field(default_factory=dict)

    def possible(self, terms: Sequence[str], site: Site = Site()) -> bool:
        """Say whether some legal build has all of the terms.

        A build found is checked by the evaluator; that there is none is proven by two engines.

        Raises:
            NotSayable: when the terms make no sense for this book.
            Undecided: when it depends on unknown facts.
            StoppedError: at a limit.
        """
        key = (frozenset(terms), site)
        if key not in self._known:
            self._known[key] = self._proven(terms, self.at(site))
        return self._known[key]

    def likely(self, terms: Sequence[str], site: Site = Site()) -> bool:
        """Say what one engine finds; whoever shows it proves it with ``possible`` first."""
        return bool(self._proven(terms, self.at(site), confirm=False))

    def _proven(self, terms: Sequence[str], opened: Opened, *, confirm: bool = True) -> bool:
        answers = opened.in_worlds(lambda machine: self._has(opened, machine, terms, confirm))
        found = {each for _, each in answers}
        if len(found) > 1:
            raise Undecided
        return found.pop()

    def _has(self, opened: Opened, machine: Machine, terms: Sequence[str], confirm: bool) -> bool:  # noqa: FBT001 - private
        inquiry = opened.inquiry(machine)
        space = self._space(machine, terms)
        if inquiry.possible(space) is not None:
            return True
        if confirm:
            inquiry.confirm_refusal(space)
        return False

    def at(self, site: Site) -> Opened:
        """Return the book opened for a site.

        Raises:
            NotSayable: when nothing can be computed there.
        """
        if site == Site():
            return self.opened
        if site not in self._sites:
            self._sites[site] = replace(
                self.opened, setting=self._setting(site), _asked_for={}, _compiled={}
            )
        return self._sites[site]

    def _setting(self, site: Site) -> Setting:
        held = self.opened.setting
        return Setting(
            site.day or held.as_of,
            parse_amount(site.altitude, "length") if site.altitude else held.altitude,
            parse_amount(site.inlet, "temperature") if site.inlet else held.inlet,
        )

    def build(self, terms: Sequence[str], site: Site = Site()) -> Mapping[str, int] | None:
        """Return a legal build that one engine finds, or ``None``.

        With unknown facts it is one of the first way they could be: no proof of anything.

        Raises:
            NotSayable: when the terms make no sense for this book.
        """
        opened = self.at(site)
        machine = opened.machine
        return opened.inquiry(machine).possible(self._space(machine, terms))

    def fulfils(self, term: str, values: Mapping[str, int], site: Site = Site()) -> bool:
        """Say whether a build has a term."""
        machine = self.at(site).machine
        names = [choice.name for choice in machine.space.choices]
        formula = machine.translator.truth(machine.condition(parse(term, CLAIM), CLAIM))
        position = {name: index for index, name in enumerate(names)}
        return compiled(formula, position)(tuple(values[name] for name in names))

    def extreme(self, side: str, expression: str, given: Sequence[str]) -> Fraction | None:
        """Return the proven most or least of a total, or ``None`` where there is none.

        Raises:
            NotSayable: when it makes no sense for this book.
        """
        machine = self.opened.machine
        try:
            value = machine.translator.value(machine.read(parse(expression, CLAIM)).expression)
        except (Problems, NotEncodable) as problems:
            raise NotSayable(str(problems)) from problems
        if not isinstance(value, Linear):
            return None
        objective = Objective(tuple(whole(value.scaled(-1 if side == "most" else 1)).items()))
        found = self.opened.inquiry(machine).best(self._space(machine, given), objective)
        return value.value(found.values) if found is not None else None

    def _space(self, machine: Machine, terms: Sequence[str]) -> Space:
        """Return the space of builds that have the terms; wishes once read are kept."""
        wishes: list[Wish] = []
        for term in terms:
            key = (id(machine), term, len(wishes))
            if key not in self._wishes:
                try:
                    made = wishes_of(machine, parse(term, CLAIM), CLAIM, len(wishes) + 1)
                except Problems as problems:
                    raise NotSayable(str(problems.problems[0].message)) from problems
                self._wishes[key] = made
            wishes += self._wishes[key]
        return with_wishes(machine.space, wishes)

    def latest(self) -> datetime.date | None:
        """Return the day from which every part ships, when that is still to come."""
        book = self.opened.book
        dates = [part.ships for part in book.parts.values() if isinstance(part.ships, Fact)]
        days = [fact.known for fact in dates if fact.known > self.opened.as_of]
        return max(days) if days else None
