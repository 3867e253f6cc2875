"""What a review looks at: an open book, and what its choices can be in legal builds."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.answers.minimal import minimal
from baywright.answers.reasons import needed_part
from baywright.desk.opening import Opened
from baywright.desk.questions import Listed
from baywright.engines.contract import Assumptions, Cut, Engine, Impossible, Possible
from baywright.facts.book import Book
from baywright.laws.frame import Option
from baywright.space import Origin, Space


@dataclass(frozen=True)
class Reviewed:
    """An open book under review.

    Args:
        opened: the book, with day and site.
        left: by choice, the labels that some legal build has, whatever unknown facts are.
        questions: questions of the book's own lists.
        stale_after: sources older than this at the edition are stale.
    """

    opened: Opened
    left: Mapping[str, frozenset[str]]
    questions: tuple[Listed, ...] = ()
    stale_after: datetime.timedelta = datetime.timedelta.max

    @property
    def book(self) -> Book:
        """The facts."""
        return self.opened.book

    @property
    def buildable(self) -> bool:
        """Whether some legal build exists."""
        return bool(self.left)

    def options(self, place: str) -> Iterator[tuple[str, int, Option]]:
        """Yield each option of the choices of a place: choice, index and option."""
        frame = self.opened.machine.frame
        for choice in frame.at(place):
            for index, option in enumerate(frame.options(choice)):
                yield choice, index, option

    def never(
        self, options: Iterable[tuple[str, int, Option]], has: Callable[[Option], bool]
    ) -> tuple[Origin, ...] | None:
        """Return why no legal build has an option of a sort, or ``None`` when one has.

        Args:
            options: choice, index and option, of one place or several.
            has: whether an option is of that sort.

        Returns:
            For each choice a minimal set of laws and rules, all of them together.

        Raises:
            StoppedError: at a limit.
            RecheckError: when two engines do not agree.
        """
        wanted: dict[str, set[int]] = {}
        for choice, index, option in options:
            if has(option):
                if option.label in self.left[choice]:
                    return None
                wanted.setdefault(choice, set()).add(index)
        why = (self.against({choice: frozenset(each)}) for choice, each in wanted.items())
        return tuple(chain.from_iterable(why))

    def against(self, allowed: Mapping[str, frozenset[int]]) -> tuple[Origin, ...]:
        """Return a minimal set of laws and rules under which no build has some values.

        Args:
            allowed: for some choices, the indexes of values none of which a build has.

        Raises:
            StoppedError: at a limit.
            RecheckError: when two engines do not agree.
        """
        space, panel = self.opened.machine.space, self.opened.panel
        every = frozenset(space.origins)

        def possible(keys: frozenset[str]) -> bool:
            return self._proves(panel.prover, Assumptions(allowed, every - keys))

        first = panel.prover.prove(space, Assumptions(allowed), panel.limit)
        core = first.core if isinstance(first, Impossible) and first.core is not None else every
        keys = minimal(sorted(core), possible)
        if self._proves(panel.optimiser, Assumptions(allowed, every.difference(keys))):
            raise RecheckError(f"{panel.optimiser.name} found what {panel.prover.name} refused")
        return tuple(space.origins[key] for key in keys)

    def needed(self, space: Space) -> tuple[Origin, ...]:
        """Return the origins of a minimal part of a space without builds, proven again.

        Raises:
            StoppedError: at a limit.
            RecheckError: when two engines do not agree.
        """
        return tuple(needed_part(self.opened.inquiry(), space, ()).origins.values())

    def _proves(self, engine: Engine, assumptions: Assumptions) -> bool:
        found = engine.prove(self.opened.machine.space, assumptions, self.opened.panel.limit)
        if isinstance(found, Cut):
            raise StoppedError(f"{engine.name} worked for {self.opened.panel.limit.seconds:g} s")
        return isinstance(found, Possible)


def left_of(opened: Opened) -> Mapping[str, frozenset[str]]:
    """Return by choice what some legal build has in some world; empty when none is legal.

    Raises:
        StoppedError: at the limit of the engine.
    """
    left: dict[str, frozenset[str]] = {}
    for world, options in opened.in_worlds(
        lambda machine: (
            opened.inquiry(machine).options(machine.space)
            if opened.inquiry(machine).possible(machine.space) is not None
            else {}
        )
    ):
        for choice, indexes in options.items():
            values = world.machine.space.choice(choice).values
            labels = frozenset(values[index] for index in indexes)
            left[choice] = left.get(choice, frozenset()) | labels
    return left
