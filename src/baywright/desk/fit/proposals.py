"""Proposals: candidates with their margins, racks, parts and what they trade."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from baywright.answers.figures import amount
from baywright.answers.inquiry import Inquiry
from baywright.answers.verdicts import Witness
from baywright.answers.witnesses import witness
from baywright.desk.fit.asked import linear_of, welcome, words_of
from baywright.desk.fit.candidates import Candidate
from baywright.desk.fit.picks import Pick
from baywright.desk.fit.standing import Check, Standing
from baywright.desk.size.telling import first, room_text, undecided, value_text
from baywright.engines.contract import Assumptions, Possible
from baywright.facts.need import Need
from baywright.facts.site import Site
from baywright.laws.machine import Machine
from baywright.laws.wishes import with_wishes
from baywright.laws.wording import counted
from baywright.sizing.case import Case
from baywright.sizing.demand import Demand, data_of, demands
from baywright.sizing.figure import Sheet
from baywright.sizing.limits import sheets
from baywright.sizing.pool import racks_at_site

STRUCTURAL = ("slots.", "memory.ranks")
"""Limits that hold or do not, by the start of their key: none of them is near."""


ASKED_FIGURES: Mapping[str, Callable[[Site], object]] = {
    "energy.battery-needed": lambda site: site.ups,
    "energy.cost": lambda site: site.tariff,
    "storage.backup": lambda site: site.workload and site.workload.backup,
    "availability.spares": lambda site: site.upkeep and site.upkeep.service_level,
    "availability.spares-price": lambda site: site.upkeep and site.upkeep.service_level,
    "availability.down-time": lambda site: site.upkeep and site.upkeep.repair,
}
"""Figures that are told where the site asks for them, by key."""


@dataclass(frozen=True, slots=True)
class Margin:
    """How far a proposal is from a limit.

    Args:
        key: identity of the limit.
        words: what is limited.
        used: what it is, with its unit.
        bound: what it may be, with its unit.
        left: what is left, with its unit.
        share: the same as a share of the bound.
        breaks: what happens past it.
    """

    key: str
    words: str
    used: str
    bound: str
    left: str
    share: float
    breaks: str


@dataclass(frozen=True, slots=True)
class Racks:
    """How the machines of a proposal stand in racks.

    Args:
        bears: machines that one rack bears.
        binds: what says so, in words.
        racks: racks at the fullest site.
        counts: machines that each resource of a rack bears, by its words.
    """

    bears: int
    binds: str
    racks: int
    counts: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Proposal:
    """A candidate, ready to be shown.

    Args:
        names: what it is best in.
        candidate: the candidate.
        build: the build of each machine, re-checked.
        margins: its limits, the least margin first.
        binding: the limit that is nearest, or ``None`` where none is decided.
        undecided: limits that are not decided, and on what they depend.
        racks: how the machines stand in racks, where the site says what a rack bears.
        parts: how many of each part, all machines and repeats counted.
        total: price of all machines and repeats.
        fewer: why one such machine fewer is not enough, or empty.
        met: what is welcome, and whether it is met.
        told: figures of sizing that the site asks for, each with its value.
        cautions: keys of the cautions that stand before its numbers.
    """

    names: tuple[str, ...]
    candidate: Candidate
    build: Witness
    margins: tuple[Margin, ...]
    binding: Margin | None
    undecided: tuple[str, ...]
    racks: Racks | None
    parts: Mapping[str, int]
    total: Fraction
    fewer: str
    met: tuple[tuple[str, bool], ...]
    told: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """A number of machines on the front.

    Args:
        hosts: the number.
        builds: builds of the front with so many.
        price: the least price of them.
        load: the least draw of them.
        fewer: why the cheapest of them does not do with one machine fewer.
        racks: how the cheapest of them stands in racks.
    """

    hosts: int
    builds: int
    price: Fraction
    load: Fraction
    fewer: str
    racks: Racks | None


def steps(machine: Machine, need: Need, front: Sequence[Candidate]) -> Iterator[Step]:
    """Yield every number of machines on a front, with why it is not smaller."""
    for hosts in sorted({each.hosts for each in front}):
        builds = [each for each in front if each.hosts == hosts]
        cheapest = min(builds, key=lambda each: each.costs)
        standing = Standing(need, hosts)
        yield Step(
            hosts,
            len(builds),
            cheapest.price,
            min(each.load for each in builds),
            _fewer(machine, need, cheapest),
            _racks(standing, standing.case(machine, [cheapest.values])),
        )


def proposal(inquiry: Inquiry, need: Need, pick: Pick) -> Proposal:
    """Return a pick with all that is said of it."""
    machine, candidate = inquiry.machine, pick.candidate
    standing = Standing(need, candidate.hosts)
    case = standing.case(machine, [candidate.values])
    margins = sorted(_margins(machine, need, candidate, standing, case), key=lambda m: m.share)
    times = candidate.hosts * repeats(need)
    build = witness(machine, candidate.values)
    found = sheets(case)
    return Proposal(
        pick.names,
        candidate,
        build,
        tuple(margins),
        next((m for m in margins if not m.key.startswith(STRUCTURAL)), None),
        tuple(_undecided(standing, case)),
        _racks(standing, case),
        {part: number * times for part, number in build.parts.items()},
        candidate.price * repeats(need),
        _fewer(machine, need, candidate),
        tuple(_met(inquiry, need, candidate.values)),
        tuple(_told(standing.site, found)),
        tuple(dict.fromkeys(key for sheet in found.values() for key in sheet.cautions)),
    )


def repeats(need: Need) -> int:
    """Return how often the whole is bought."""
    return need.repeat.known if need.repeat else 1


def _told(site: Site, found: Mapping[str, Sheet]) -> Iterator[tuple[str, str]]:
    """Yield the figures that answer what the site asks, where they are decided."""
    asked = {key for key, of in ASKED_FIGURES.items() if of(site)}
    for sheet in found.values():
        for figure in (*sheet.figures, *(limit.figure for limit in sheet.limits)):
            if figure.key in asked and not math.isnan(figure.value):
                words = ", ".join(filter(None, (figure.name, figure.condition)))
                yield words, value_text(figure.value, figure.unit)


def _margins(
    machine: Machine, need: Need, candidate: Candidate, standing: Standing, case: Case
) -> Iterator[Margin]:
    for demand in demands(need):
        if demand.total or demand.kept:
            yield _of_demand(machine, candidate, demand)
    if need.budget is not None:
        yield _of_budget(need, candidate)
    for check in standing.checks(case):
        margin = _of_check(check)
        if margin is not None:
            yield margin


def _of_demand(machine: Machine, candidate: Candidate, demand: Demand) -> Margin:
    """Return what each machine has, against what each has to hold when some failed."""
    needs = demand.of_host(candidate.hosts)
    has = linear_of(machine, demand.resource).value(candidate.values)
    failed = f" with {demand.lost} failed" if demand.lost else ""
    return Margin(
        f"need.{demand.resource}",
        f"{words_of(demand.resource)}{' in each' if candidate.hosts > 1 else ''}{failed}",
        amount(has, demand.dimension, "down"),
        f"at least {amount(needs, demand.dimension)}",
        f"{amount(has - needs, demand.dimension, 'down')} more",
        float((has - needs) / needs) if needs else math.inf,
        "The need is not met.",
    )


def _of_budget(need: Need, candidate: Candidate) -> Margin:
    most = need.budget.known.canonical if need.budget else Fraction(0)
    price, dimension = candidate.price * repeats(need), _money(need)
    return Margin(
        "need.budget",
        "price of all",
        amount(price, dimension),
        f"at most {amount(most, dimension, 'down')}",
        f"{amount(most - price, dimension)} left",
        float((most - price) / most) if most else 0.0,
        "The budget is passed.",
    )


def _money(need: Need) -> str:
    return need.budget.known.dimension if need.budget else ""


def _of_check(check: Check) -> Margin | None:
    limit = check.limit
    if limit is None or math.isnan(first(check.room)):
        return None
    unit = limit.figure.unit
    return Margin(
        check.key,
        check.words,
        value_text(limit.figure.value, unit),
        f"at {limit.side} {value_text(first(limit.bound), unit)}",
        room_text(limit),
        float(np.ravel(limit.margin)[0]),
        check.breaks,
    )


def _undecided(standing: Standing, case: Case) -> Iterator[str]:
    """Yield limits that are open although they decide what is legal, or the site states them."""
    for check in standing.checks(case):
        limit = check.limit
        if limit is None or not math.isnan(first(check.room)):
            continue
        if limit.legal or not any(path.startswith("site.") for path in limit.figure.missing):
            yield f"{limit.figure.name}: {undecided(limit.figure)}"


def _racks(standing: Standing, case: Case) -> Racks | None:
    counts = standing.counted(sheets(case), case)
    known = {
        words: int(first(machines))
        for words, machines in counts.values()
        if math.isfinite(first(machines))
    }
    if not known:
        return None
    binds = min(known, key=lambda words: known[words])
    bears = known[binds]
    racks = racks_at_site(standing.hosts, standing.sites, bears) if bears else 0
    return Racks(bears, binds, racks, tuple(known.items()))


def _fewer(machine: Machine, need: Need, candidate: Candidate) -> str:
    """Return why one such machine fewer is not enough."""
    fewer = candidate.hosts - 1
    if need.hosts is not None or fewer < 1:
        return ""
    short = [said for each in demands(need) if (said := _short(machine, candidate, each, fewer))]
    if short:
        return f"{counted(fewer, 'such machine')} would be short of {'; '.join(short)}."
    if need.demand.copies and fewer < need.demand.copies.known:
        return f"{need.demand.copies.known} copies lie on machines of their own."
    if data_of(need) and need.demand.drive_failures:
        return f"{counted(fewer, 'such machine')} would not keep the data through drive failures."
    return ""


def _short(machine: Machine, candidate: Candidate, demand: Demand, hosts: int) -> str:
    """Return by how much one of some machines falls short of a demand, or nothing."""
    if hosts <= demand.lost:
        return f"{words_of(demand.resource)}: none is left when {demand.lost} fails"
    has, needs = linear_of(machine, demand.resource).value(candidate.values), demand.of_host(hosts)
    if has >= needs:
        return ""
    needed, there = amount(needs, demand.dimension), amount(has, demand.dimension, "down")
    failed = f" with {demand.lost} failed" if demand.lost else ""
    return f"{words_of(demand.resource)}{failed}: {there} of {needed} in each"


def _met(inquiry: Inquiry, need: Need, values: Mapping[str, int]) -> Iterator[tuple[str, bool]]:
    machine = inquiry.machine
    given = Assumptions(
        {choice.name: frozenset({values[choice.name]}) for choice in machine.space.choices}
    )
    for text, wishes in welcome(machine, need):
        found = inquiry.panel.prover.prove(with_wishes(machine.space, wishes), given)
        yield text, isinstance(found, Possible)


def trades(one: Proposal, other: Proposal, money: str) -> str:
    """Return what one proposal gives and takes against another, in a few words."""
    mine, theirs = one.candidate, other.candidate
    rows: list[tuple[Fraction, str, str, str]] = [
        (one.total - other.total, money, "dearer", "cheaper"),
        (mine.load - theirs.load, "power", "more draw", "less draw"),
        (Fraction(mine.space - theirs.space), "", "rack units more", "rack units fewer"),
    ]
    if mine.headroom is not None and theirs.headroom is not None:
        apart = mine.headroom - theirs.headroom
        rows.append((apart, "power", "more headroom on each", "less headroom on each"))
    said = [
        f"{amount(abs(apart), dimension)} {more if apart > 0 else less}"
        for apart, dimension, more, less in rows
        if apart
    ]
    return ", ".join(said) or "the same in all that is compared"


def in_letters(number: int) -> str:
    """Return the letter of a proposal, from 0."""
    return chr(ord("A") + number)


def cautions_of(proposals: Sequence[Proposal]) -> tuple[str, ...]:
    """Return the keys of the cautions before some proposals, each once."""
    return tuple(dict.fromkeys(key for each in proposals for key in each.cautions))
