"""Fitting a need: proposals that sizing accepts, or why there is none and what is nearest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from baywright.answers.figures import amount
from baywright.answers.inquiry import Inquiry, RecheckError, StoppedError
from baywright.answers.nearest import nearest
from baywright.answers.questions import possible
from baywright.answers.verdicts import Nearest, No, Stopped
from baywright.desk.fit.asked import words_of
from baywright.desk.fit.candidates import Candidate, measures
from baywright.desk.fit.cuts import no_good, refused
from baywright.desk.fit.hosts import Count, Explored, Explorer, Watch, unwatched
from baywright.desk.fit.picks import Pick, picks
from baywright.desk.fit.proposals import Proposal, Step, proposal, steps
from baywright.desk.fit.standing import Standing
from baywright.desk.opening import Opened
from baywright.engines.contract import Limit
from baywright.engines.diagram import Diagram
from baywright.facts.need import Need
from baywright.facts.need_checks import check_need
from baywright.facts.status import Status
from baywright.laws.machine import Machine
from baywright.laws.wishes import Wish
from baywright.laws.wording import counted
from baywright.problems import Problems
from baywright.sizing.demand import assumptions, demands

LONGEST = 120.0
"""Seconds for all numbers of machines together."""

NEARBY = 4
"""Nearest builds that are looked for after a no."""

MORE_HOSTS = 8
"""Machines beside those asked for that are tried after a no."""


@dataclass(frozen=True, slots=True)
class Proposals:
    """Proposals, and the front that they are from.

    Args:
        proposals: two to five of the front, or all of it where it has fewer.
        explored: every number of machines with its front.
        steps: the numbers of machines on the front, and why each is not smaller.
    """

    proposals: tuple[Proposal, ...]
    explored: Explored
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Refused:
    """No build meets the need.

    Args:
        hosts: the number of machines that the reasons are for.
        no: the reasons, and the nearest builds that sizing accepts.
        more: the cheapest with more machines than were asked for, where there is one.
        dropped: nearest builds that the laws allow and sizing refuses.
    """

    hosts: int
    no: No
    more: Proposal | None
    dropped: int


Outcome = Proposals | Refused


@dataclass(frozen=True, slots=True)
class Fitted:
    """A need with what came of it.

    Args:
        need: the need.
        book: id of the book.
        as_of: the day it holds for, in ISO form.
        status: what the machine is on that day.
        asked: what was understood, as sentences.
        assumed: what was taken for granted, as sentences.
        worlds: for each way the unknown facts that matter could be, their values and the outcome.
    """

    need: Need
    book: str
    as_of: str
    status: Status
    asked: tuple[str, ...]
    assumed: tuple[str, ...]
    worlds: tuple[tuple[Mapping[str, str], Outcome], ...]


def fit(opened: Opened, need: Need, seconds: float = LONGEST, watch: Watch = unwatched) -> Fitted:
    """Return proposals for a need, or why there are none.

    Args:
        opened: the book, opened for the altitude and inlet of the need's site.
        need: the need.
        seconds: most time for all numbers of machines together.
        watch: told after each number of machines what was looked at by then.

    Raises:
        Problems: for what is wrong with the need.
        StoppedError: at a limit, when nothing was found or refused before it.
        RecheckError: when an engine's result fails its re-check.
    """
    found = check_need(need, opened.book)
    if found:
        raise Problems(found)
    worlds = opened.in_worlds(lambda machine: _outcome(opened, machine, need, (seconds, watch)))
    return Fitted(
        need,
        opened.book.book.id,
        opened.as_of.isoformat(),
        opened.status,
        tuple(_asked(need)),
        tuple(assumptions(need)),
        tuple((world.given, outcome) for world, outcome in worlds),
    )


def _asked(need: Need) -> Iterator[str]:
    """Yield what was understood, as phrases."""
    for demand in demands(need):
        kept = f", {amount(demand.kept, demand.dimension)} kept back" if demand.kept else ""
        yield f"{words_of(demand.resource)}: {demand.said}{kept}"
    failures = (
        ("drive", "drives", need.demand.drive_failures),
        ("machine", "machines", need.survive.hosts),
        ("supply", "supplies", need.survive.supplies),
        ("fan", "fans", need.survive.fans),
        ("feed", "feeds", need.survive.feeds),
    )
    for word, many, fact in failures:
        if fact is not None and fact.known:
            yield f"survives: {counted(fact.known, f'failed {word}', f'failed {many}')}"
    if need.budget is not None:
        yield f"budget: {need.budget.text}"


def _outcome(opened: Opened, machine: Machine, need: Need, how: tuple[float, Watch]) -> Outcome:
    explorer = Explorer(
        machine,
        need,
        measures(machine, need),
        lambda: opened.inquiry(machine),
        Diagram(),
        Limit(how[0]),
        how[1],
    )
    explored = explorer.explore()
    if not explored.front:
        return _refused(opened, machine, need, explored, explorer)
    preferred = [words for words, _ in explorer.compared.preferred]
    chosen = picks(explored.front, preferred)
    shown = tuple(proposal(opened.inquiry(machine), need, pick) for pick in chosen)
    return Proposals(shown, explored, tuple(steps(machine, need, explored.front)))


def _refused(
    opened: Opened, machine: Machine, need: Need, explored: Explored, explorer: Explorer
) -> Refused:
    count = _explained(explored)
    inquiry = opened.inquiry(machine)
    wishes = [replace(wish, hard=True) if _is_law(wish) else wish for wish in count.wishes]
    verdict = possible(inquiry, wishes, nearby=0)
    if isinstance(verdict, Stopped):
        raise StoppedError(verdict.tried)
    if not isinstance(verdict, No):
        raise RecheckError(f"a build of {count.hosts} machines was refused, and is possible")
    near, dropped = _nearest(opened, machine, Standing(need, count.hosts), wishes)
    more = _with_more(opened, machine, need, explorer) if need.hosts and demands(need) else None
    return Refused(count.hosts, replace(verdict, nearest=near), more, dropped)


def _explained(explored: Explored) -> Count:
    """Return the number of machines to explain: the least that each demand alone would take."""
    least = [hosts for _, _, hosts in explored.least if hosts is not None]
    wanted = max(least, default=explored.counts[0].hosts)
    return min(explored.counts, key=lambda count: (abs(count.hosts - wanted), count.hosts))


def _is_law(wish: Wish) -> bool:
    return wish.origin.kind == "law"


def _nearest(
    opened: Opened, machine: Machine, standing: Standing, wishes: Sequence[Wish]
) -> tuple[tuple[Nearest, ...], int]:
    """Return the nearest builds that sizing accepts, and how many it refused."""
    kept: list[Nearest] = []
    hard, dropped = list(wishes), 0
    for attempt in range(3):
        found = _found(opened.inquiry(machine), hard)
        fresh = [near for near in found if near.changes not in {each.changes for each in kept}]
        if not fresh:
            break
        case = standing.case(machine, [near.witness.values for near in fresh])
        for position, broken in enumerate(refused(standing.checks(case), len(fresh))):
            if not broken:
                kept.append(fresh[position])
                continue
            dropped += 1
            values = fresh[position].witness.values
            blocked = no_good(machine, standing, values, broken[0], f"near.{attempt}.{position}")
            hard.append(replace(blocked, hard=True))
        if len(hard) == len(wishes):
            break
    return tuple(kept[:NEARBY]), dropped


def _found(inquiry: Inquiry, wishes: Sequence[Wish]) -> tuple[Nearest, ...]:
    try:
        return nearest(inquiry, wishes, NEARBY)
    except StoppedError:
        # The refusal stands without them.
        return ()


def _with_more(opened: Opened, machine: Machine, need: Need, explorer: Explorer) -> Proposal | None:
    """Return the cheapest with more machines than were asked for, if a few more are enough."""
    asked = need.hosts.known if need.hosts else 1
    for hosts in range(asked + 1, asked + MORE_HOSTS + 1):
        try:
            candidates = list(_candidates(explorer, hosts))
        except StoppedError:
            return None
        if candidates:
            cheapest = min(candidates, key=lambda each: each.costs)
            return proposal(opened.inquiry(machine), need, Pick(("cheapest",), cheapest))
    return None


def _candidates(explorer: Explorer, hosts: int) -> Iterator[Candidate]:
    yield from explorer.at(hosts).candidates
