"""Why an option is closed: which choices made so far close it, and by which laws and rules.

Two engines take part. One that answers in well under a millisecond finds the choices; the
search engine then finds the laws, and so proves the refusal again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from baywright.answers.inquiry import RecheckError, StoppedError
from baywright.answers.minimal import minimal
from baywright.engines.contract import Assumptions, Cut, Engine, Impossible, Limit, Possible
from baywright.space import Origin, Space, broken


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a value cannot be chosen.

    Args:
        choices: choices made so far that close it, a minimal set.
        origins: laws and rules that do so with them, a minimal set.
        found_by: the engine that found the choices.
        proven_by: the engine that found the laws.
    """

    choices: tuple[str, ...]
    origins: tuple[Origin, ...]
    found_by: str
    proven_by: str


@dataclass(frozen=True, slots=True)
class Refuser:
    """Explains closed options of one space.

    Args:
        space: the space.
        quick: the engine that finds the choices.
        search: the engine that finds the laws; it names cores.
        limit: time for a step.
    """

    space: Space
    quick: Engine
    search: Engine
    limit: Limit

    def explain(self, chosen: Mapping[str, int], choice: str, value: int) -> Refusal:
        """Return why a value is closed after some choices.

        Raises:
            ValueError: when it is not closed.
            StoppedError: at a limit.
            RecheckError: when the engines do not agree.
        """
        option = {choice: frozenset({value})}
        made = {name: frozenset({at}) for name, at in chosen.items() if name != choice}
        if self._possible(self.quick, {**made, **option}):
            raise ValueError(f"{choice} can have that value")
        needed = self._choices(made, option)
        fixed = {name: made[name] for name in needed} | option
        origins = self._origins(fixed)
        return Refusal(tuple(needed), origins, self.quick.name, self.search.name)

    def _choices(
        self, made: Mapping[str, frozenset[int]], option: Mapping[str, frozenset[int]]
    ) -> list[str]:
        def possible(names: frozenset[str]) -> bool:
            return self._possible(self.quick, {**option, **{n: made[n] for n in names}})

        return minimal(list(made), possible)

    def _origins(self, fixed: Mapping[str, frozenset[int]]) -> tuple[Origin, ...]:
        every = frozenset(self.space.origins)
        found = self.search.prove(self.space, Assumptions(fixed), self.limit)
        if isinstance(found, Possible):
            raise RecheckError(f"{self.search.name} found a build where {self.quick.name} refused")
        core = found.core if isinstance(found, Impossible) and found.core is not None else every

        def possible(keys: frozenset[str]) -> bool:
            return self._possible(self.search, fixed, every - keys)

        return tuple(self.space.origins[key] for key in minimal(sorted(core), possible))

    def _possible(
        self,
        engine: Engine,
        allowed: Mapping[str, frozenset[int]],
        without: Iterable[str] = (),
    ) -> bool:
        dropped = frozenset(without)
        found = engine.prove(self.space, Assumptions(allowed, dropped), self.limit)
        if isinstance(found, Cut):
            raise StoppedError(f"{engine.name} worked for {self.limit.seconds:g} s")
        if isinstance(found, Possible) and self._breaks(found.values, dropped):
            raise RecheckError(f"the build found by {engine.name} breaks a law")
        return isinstance(found, Possible)

    def _breaks(self, values: Mapping[str, int], dropped: frozenset[str]) -> bool:
        return any(law.origin.key not in dropped for law in broken(self.space, values))
