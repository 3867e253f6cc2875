"""Whether builds exist, each answer checked twice and kept for the next sentence."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from baywright.answers.inquiry import Inquiry
from baywright.desk.opening import Opened, Setting
from baywright.facts.fact import Fact
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish, wishes_of, with_wishes
from baywright.problems import Mark, Problems
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
        try:
            answers = opened.in_worlds(lambda m: _has(opened, m, terms, confirm=confirm))
            found = {each for _, each in answers}
        except Problems as problems:
            raise NotSayable(str(problems.problems[0].message)) from problems
        if len(found) > 1:
            raise Undecided
        return found.pop()

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

    def latest(self) -> datetime.date | None:
        """Return the day from which every part ships, when that is still to come."""
        book = self.opened.book
        dates = [part.ships for part in book.parts.values() if isinstance(part.ships, Fact)]
        days = [fact.known for fact in dates if fact.known > self.opened.as_of]
        return max(days) if days else None


def _has(opened: Opened, machine: Machine, terms: Sequence[str], *, confirm: bool) -> bool:
    inquiry: Inquiry = opened.inquiry(machine)
    wishes: list[Wish] = []
    for term in terms:
        wishes += wishes_of(machine, parse(term, CLAIM), CLAIM, len(wishes) + 1)
    space = with_wishes(machine.space, wishes)
    if inquiry.possible(space) is not None:
        return True
    if confirm:
        inquiry.confirm_refusal(space)
    return False
