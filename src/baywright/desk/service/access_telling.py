"""A plan of service in words: each caution in full before its first act, then by its name."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from baywright.desk.service.access import Service
from baywright.facts.cautions import CAUTIONS, PLANNING_AID, Caution
from baywright.facts.citation import Citation
from baywright.facts.status import standing_line
from baywright.laws.wording import capitalised, counted, listed
from baywright.service.access.plan import Guarded, Plan, Refusal, Step

SaidT = TypeVar("SaidT")

OF_NUMBERS = ("estimate",)
"""Cautions about the minutes of a plan."""


@dataclass(frozen=True, slots=True)
class StepSheet:
    """A step in words.

    Args:
        number: its number.
        power: whether the machine runs, in capitals.
        says: the act, behind the keys of its cautions.
        before: keys of cautions that were said in full before this step.
        first: what is made sure of before the act, one sentence each.
        takes: minutes, people, tools and words on the handle, in one line.
        after: what is checked after it and what is good to know, one sentence each.
    """

    number: int
    power: str
    says: Guarded[str]
    before: frozenset[str]
    first: tuple[str, ...]
    takes: str
    after: tuple[str, ...]

    def told(
        self,
        caution: Callable[[Caution], SaidT],
        again: Callable[[str], SaidT],
        act: Callable[[str], SaidT],
    ) -> tuple[SaidT, ...]:
        """Return cautions, then the act, each as shown.

        Args:
            caution: shows a caution in full.
            again: shows the name of a caution that was said in full on this page.
            act: shows the act.
        """

        def shown(key: str) -> SaidT:
            known = key in self.before
            return again(key.replace("-", " ")) if known else caution(CAUTIONS[key])

        return self.says.told(shown, act)


@dataclass(frozen=True, slots=True)
class PlanSheet:
    """A plan in words.

    Args:
        title: what the unknown facts are taken to be, or empty.
        sentences: what it comes to, one sentence each.
        refused: what cannot be done, each with its reasons.
        why_off: why the machine is stopped, each with its reasons.
        steps: the steps.
        refit: what is put back, in order.
        notes: part swap facts, one sentence each.
        facts: the facts it stands on.
    """

    title: str
    sentences: tuple[str, ...]
    refused: tuple[Refusal, ...]
    why_off: tuple[Refusal, ...]
    steps: tuple[StepSheet, ...]
    refit: tuple[str, ...]
    notes: tuple[str, ...]
    facts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ServiceSheet:
    """Plans of service in words.

    Args:
        title: which machine, and what is done.
        cautions: what has to be said before its numbers are used.
        plans: a plan for each way unknown facts could be.
        standing: book, day and status.
        aid: who decides.
    """

    title: str
    cautions: tuple[Caution, ...]
    plans: tuple[PlanSheet, ...]
    standing: str
    aid: str = PLANNING_AID


def service_sheet(found: Service) -> ServiceSheet:
    """Return plans of service in words."""
    said: set[str] = set(OF_NUMBERS)
    plans = tuple(_plan(found, given, plan, said) for given, plan in found.plans)
    return ServiceSheet(
        f"{found.name}: {listed(found.plans[0][1].targets)}",
        tuple(CAUTIONS[key] for key in OF_NUMBERS if any(plan.steps for plan in plans)),
        plans,
        standing_line(found.machine, found.book, found.as_of, found.status),
    )


def minutes(seconds: Fraction) -> str:
    """Return a time as people plan with it: in seconds below two minutes, else rounded up.

    >>> minutes(Fraction(105)), minutes(Fraction(121))
    ('105 s', '3 min')
    """
    return f"{float(seconds):g} s" if seconds < 120 else f"{-int(-seconds // 60)} min"


def _plan(found: Service, given: Mapping[str, str], plan: Plan, said: set[str]) -> PlanSheet:
    supposed = listed(f"{path} is {value}" for path, value in given.items())
    return PlanSheet(
        f"If {supposed}" if supposed else "",
        tuple(_sums(found, plan)),
        plan.refused,
        plan.why_off,
        tuple(_steps(plan, said)),
        plan.refit,
        plan.notes,
        _facts(plan),
    )


def _sums(found: Service, plan: Plan) -> Iterator[str]:
    if plan.refused:
        return
    least = "at least " if plan.untimed else ""
    off = f"off for {least}{minutes(plan.off)}" if plan.stops else "never off"
    steps = counted(len(plan.steps), "step")
    yield f"{steps} in {least}{minutes(plan.time)}, one after the other; the machine is {off}."
    tools = f" Tools: {listed(plan.tools)}." if plan.tools else " No tools."
    yield f"It takes {counted(plan.people, 'person', 'people')}.{tools}"
    if plan.untimed:
        yield f"No time is stated for {listed(plan.untimed)}, so it takes longer."
    yield from plan.unstated
    lifting = any("lifting" in step.says.cautions for step in plan.steps)
    if lifting and not found.lifting_rule:
        yield "The site states no lifting rule (site.rack.lift_bands), so people are those stated."


def _steps(plan: Plan, said: set[str]) -> Iterator[StepSheet]:
    for step in plan.steps:
        before = frozenset(said)
        said.update(step.says.cautions)
        yield StepSheet(
            step.number,
            "RUNNING" if step.power == "running" else "OFF",
            step.says,
            before,
            tuple(f"Make sure first: {_lowered(sentence)}" for sentence in step.before),
            ", ".join(_takes(step)),
            (*(f"Check: {_lowered(check)}" for check in step.checks), *step.notes),
        )


def _lowered(sentence: str) -> str:
    """Return a sentence as it goes on behind a colon."""
    return sentence[:1].lower() + sentence[1:]


def _takes(step: Step) -> Iterator[str]:
    yield "no time stated" if step.untimed else minutes(step.time)
    if step.kind != "wait":
        yield counted(step.people, "person", "people")
    if step.lifted_by:
        yield f"lifted by {step.lifted_by}"
    if step.tools:
        yield listed(step.tools)
    if step.mark:
        yield f"marked {step.mark}"


def _facts(plan: Plan) -> tuple[str, ...]:
    """Return the facts behind a plan, each once, with where it stands and who says so."""
    cited = [*(fact for step in plan.steps for fact in step.facts), *plan.facts]
    return tuple(map(_fact, dict.fromkeys(cited)))


def _fact(cited: Citation) -> str:
    day = f", {cited.date.isoformat()}" if cited.date else ""
    status = "" if cited.status == "stated" else f" ({cited.status})"
    return f"{cited.text}{status}: {cited.path}; {cited.source}{day}"


def refusal_lines(refused: Sequence[Refusal]) -> Iterator[str]:
    """Yield a line for each reason, behind what it is a reason for."""
    for each in refused:
        yield f"{capitalised(each.name)}: {' '.join(each.reasons)}"
