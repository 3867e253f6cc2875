"""Minutes of looks and checks: the shortest safe way in to see something, and back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.service.access.graph import Job, both
from baywright.service.access.interior import Interior
from baywright.service.access.plan import Plan, Step
from baywright.service.access.planning import graph_of
from baywright.service.access.refusing import refusals
from baywright.service.access.search import shortest
from baywright.service.access.targets import Target
from baywright.service.access.tasks import Task
from baywright.service.access.writing import Writer

LOOK = "look"


@dataclass(frozen=True, slots=True)
class Reach:
    """How something inside is seen: the way in and back, and the time to look.

    Args:
        plan: the way in and back; no steps where nothing has to be off.
        looking: time to look [s].
        cords_out: from the cords being out until it is seen [s], or ``None`` where they stay in.
    """

    plan: Plan
    looking: Fraction
    cords_out: Fraction | None = None

    @property
    def minutes(self) -> Fraction:
        """How long it takes in all [min]."""
        return (self.plan.time + self.looking) / 60


def reach(interior: Interior, behind: Sequence[str], looking: Fraction) -> Reach:
    """Return the shortest safe way to see what lies behind some steps, and back.

    Args:
        interior: the barriers of the machine.
        behind: what has to be off.
        looking: time to look [s].
    """
    if not behind:
        return Reach(Plan((), ()), looking)
    ways = both(interior.to_steps(behind), (frozenset(),))
    job = Job(ways, looking, 1)
    task = Task(Target("", LOOK, 1), None, None, ways, job, ())
    graph = graph_of(interior, (task,))
    moves = shortest(graph, "time")
    if moves is None:
        return Reach(Plan((), (), tuple(refusals(interior, graph, (task,), "replace"))), looking)
    steps = tuple(Writer(interior, (task,), "replace", moves).steps())
    acts = [step for step in steps if step.kind != "work"]
    plan = Plan((), tuple(replace(step, number=i) for i, step in enumerate(acts, 1)))
    return Reach(plan, looking, _without_cords(steps))


def _without_cords(steps: Sequence[Step]) -> Fraction | None:
    names = [step.name if step.kind == "out" else "" for step in steps]
    if "cords" not in names:
        return None
    seen = next(i for i, step in enumerate(steps) if step.kind == "work")
    between = steps[names.index("cords") + 1 : seen]
    return sum((step.time for step in between), Fraction(0))
