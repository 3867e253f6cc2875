"""A plan: numbered steps, each act locked up behind its cautions."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Generic, Literal, TypeAlias, TypeVar

from baywright.facts.access import POWER
from baywright.facts.citation import Citation

ActT = TypeVar("ActT")
SaidT = TypeVar("SaidT")

Power: TypeAlias = Literal["running", "off"]
StepKind: TypeAlias = Literal["out", "work", "wait", "back"]


class Guarded(Generic[ActT]):
    """An act that is handed out only behind what has to be said before it.

    There is no way to the act alone: ``told`` gives the cautions first, whatever shows them.

    >>> Guarded(("static",), "Take it out.").told(str.upper, str)
    ('STATIC', 'Take it out.')
    """

    __slots__ = ("__act", "__cautions")

    def __init__(self, cautions: tuple[str, ...], act: ActT) -> None:
        """Lock an act up behind the keys of its cautions."""
        self.__cautions = cautions
        self.__act = act

    @property
    def cautions(self) -> tuple[str, ...]:
        """The keys of its cautions."""
        return self.__cautions

    def told(
        self, caution: Callable[[str], SaidT], act: Callable[[ActT], SaidT]
    ) -> tuple[SaidT, ...]:
        """Return each caution as shown, then the act as shown."""
        return (*(caution(key) for key in self.__cautions), act(self.__act))

    def __eq__(self, other: object) -> bool:
        """Two are equal when cautions and act are."""
        if not isinstance(other, Guarded):
            return NotImplemented
        return (self.__cautions, self.__act) == (other.__cautions, other.__act)

    def __hash__(self) -> int:
        """Agree with equality."""
        return hash((self.__cautions, self.__act))


@dataclass(frozen=True, slots=True)
class Step:
    """A step of a plan.

    Args:
        number: its number.
        kind: taking something off, working, waiting, or putting something back.
        name: the barrier or the job.
        says: the act in words, behind the keys of its cautions.
        power: whether the machine runs when the step begins.
        before: what is made sure of before the act, one sentence each.
        time: how long it takes [s], as far as the book says.
        untimed: whether the book states no time for it.
        people: people it takes.
        lifted_by: how its load is lifted by the user's own rule, or empty.
        tools: tools it takes.
        mark: words on the handle, or empty.
        checks: what is checked after it, one sentence each.
        notes: what is good to know with it, one sentence each.
        facts: the facts it stands on.
    """

    number: int
    kind: StepKind
    name: str
    says: Guarded[str]
    power: Power
    before: tuple[str, ...]
    time: Fraction
    untimed: bool
    people: int
    lifted_by: str
    tools: tuple[str, ...]
    mark: str
    checks: tuple[str, ...]
    notes: tuple[str, ...]
    facts: tuple[Citation, ...]


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why something cannot be reached or changed as asked.

    Args:
        name: what it is, in words.
        reasons: what stands against it, one sentence each.
    """

    name: str
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan, or why there is none.

    Args:
        targets: what is changed, in words.
        steps: the steps; none where it is refused.
        refused: what cannot be done, with the reasons.
        why_off: why the machine is stopped for it, by what it is stopped for; none where it runs.
        notes: part swap facts: what the new part has to match, firmware, what is fitted instead.
        facts: the facts behind those notes.
        unstated: what the book does not say and a plan needs, one sentence each.
    """

    targets: tuple[str, ...]
    steps: tuple[Step, ...]
    refused: tuple[Refusal, ...] = ()
    why_off: tuple[Refusal, ...] = ()
    notes: tuple[str, ...] = ()
    facts: tuple[Citation, ...] = ()
    unstated: tuple[str, ...] = ()

    @property
    def time(self) -> Fraction:
        """How long it takes in all [s], one step after the other."""
        return sum((step.time for step in self.steps), Fraction(0))

    @property
    def off(self) -> Fraction:
        """How long the machine is off or on its way there and back [s]."""
        return sum((s.time for s in self.steps if s.power == "off" or _stops(s)), Fraction(0))

    @property
    def stops(self) -> bool:
        """Whether the machine is stopped for it."""
        return any(step.power == "off" for step in self.steps)

    @property
    def untimed(self) -> tuple[str, ...]:
        """What the book states no time for, in words."""
        return tuple(dict.fromkeys(_named(step) for step in self.steps if step.untimed))

    @property
    def people(self) -> int:
        """People it takes at most."""
        return max((step.people for step in self.steps), default=0)

    @property
    def tools(self) -> tuple[str, ...]:
        """Tools it takes, each once."""
        return tuple(dict.fromkeys(tool for step in self.steps for tool in step.tools))

    @property
    def refit(self) -> tuple[str, ...]:
        """What is put back, in order."""
        return tuple(step.name for step in self.steps if step.kind == "back")

    @property
    def cautions(self) -> tuple[str, ...]:
        """The keys of all cautions of its acts, each once."""
        return tuple(dict.fromkeys(key for step in self.steps for key in step.says.cautions))


def _named(step: Step) -> str:
    return f"the work on {step.name}" if step.kind == "work" else step.name


def _stops(step: Step) -> bool:
    return step.kind == "out" and step.name == POWER
