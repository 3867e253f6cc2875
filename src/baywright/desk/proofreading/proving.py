"""Whether builds exist, each answer checked twice and kept for the next sentence."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from baywright.desk.opening import Opened, Setting
from baywright.desk.proofreading.ground import Ground, NotSayable
from baywright.engines.contract import Limit
from baywright.facts.fact import Fact
from baywright.laws.machine import Machine
from baywright.units import parse as parse_amount

__all__ = ["NotSayable", "Prover", "Site", "Undecided"]

MOST_SITES = 16
"""Sites whose machines are kept; what was found at others stays known."""


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
    _grounds: dict[Site, dict[int, Ground]] = field(default_factory=dict)
    _extremes: dict[tuple[str, str, frozenset[str]], Fraction | None] = field(default_factory=dict)

    def possible(
        self, terms: Sequence[str], site: Site = Site(), patience: Limit | None = None
    ) -> bool:
        """Say whether some legal build has all of the terms.

        A build found is checked by the evaluator; that there is none is proven by two engines.

        Args:
            terms: the terms.
            site: where.
            patience: time for the second engine, that of the panel unless given.

        Raises:
            NotSayable: when the terms make no sense for this book.
            Undecided: when it depends on unknown facts.
            StoppedError: at a limit.
        """
        key = (frozenset(terms), site)
        if key not in self._known:
            answers = self.at(site).in_worlds(
                lambda machine: self._ground(site, machine).possible(terms, patience)
            )
            found = {each for _, each in answers}
            if len(found) > 1:
                raise Undecided
            self._known[key] = found.pop()
        return self._known[key]

    def _ground(self, site: Site, machine: Machine | None = None) -> Ground:
        """Return the ground of a machine at a site, the first machine unless given."""
        opened = self.at(site)
        machine, held = machine or opened.machine, self._grounds.setdefault(site, {})
        # A ground keeps its machine, so that no other one can take over its number.
        if id(machine) not in held:
            held[id(machine)] = Ground.of(machine, opened.panel)
        return held[id(machine)]

    def at(self, site: Site) -> Opened:
        """Return the book opened for a site.

        Raises:
            NotSayable: when nothing can be computed there.
        """
        if site == Site():
            return self.opened
        if site not in self._sites:
            while len(self._sites) >= MOST_SITES:
                oldest = next(iter(self._sites))
                del self._sites[oldest]
                self._grounds.pop(oldest, None)
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
        return self._ground(site).build(terms)

    def fulfils(self, term: str, build: Mapping[str, int], site: Site = Site()) -> bool:
        """Say whether a build has a term."""
        return self._ground(site).fulfils(term, build)

    def extreme(self, side: str, expression: str, given: Sequence[str]) -> Fraction | None:
        """Return the most or least of a total that one engine finds, or ``None`` without any.

        Whoever shows it proves it with ``possible`` first.

        Raises:
            NotSayable: when it makes no sense for this book.
            StoppedError: at a limit.
        """
        key = (side, expression, frozenset(given))
        if key not in self._extremes:
            self._extremes[key] = self._ground(Site()).extreme(side, expression, given)
        return self._extremes[key]

    def latest(self) -> datetime.date | None:
        """Return the day from which every part ships, when that is still to come."""
        book = self.opened.book
        dates = [part.ships for part in book.parts.values() if isinstance(part.ships, Fact)]
        days = [fact.known for fact in dates if fact.known > self.opened.as_of]
        return max(days) if days else None
