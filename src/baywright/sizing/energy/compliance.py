"""Regulation (EU) 2019/424 against the facts of each build: limits of supplies and of idle power.

The rows computed are those for supplies with one output and for machines with one or two processor
sockets that are neither blades nor nodes; the book does not tell other kinds.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import numpy as np

from baywright.facts.fact import Fact
from baywright.facts.parts import MemoryModule, Network, Processor
from baywright.facts.places import Bank, Socket
from baywright.sizing.amounts import amount, ratio
from baywright.sizing.case import Case
from baywright.sizing.energy.intake import Intake
from baywright.sizing.energy.regulation import (
    CHANNEL,
    CHANNELS_FREE,
    DRIVE,
    GIGABYTE,
    IDLE_TOLERANCE,
    MEMORY_FREE,
    ONE_SOCKET,
    PORTS_FREE,
    POWER_FACTOR,
    SINGLE_OUTPUT,
    SOURCE,
    SUPPLY,
    TWO_SOCKETS,
    Additions,
    Kind,
    active_efficiency,
    idle_limit,
    port_allowance,
)
from baywright.sizing.equation import Floats, Reals
from baywright.sizing.figure import Figure, Input, Limit, Listing
from baywright.sizing.power.bays import Bays, Model

PLANNING = f"{SOURCE}, a planning figure"

UNREGULATED = f"{SOURCE} has rows for one and two processor sockets only"


def limits(case: Case, idle: Intake) -> Iterator[Limit]:
    """Yield the limits of supplies, of idle power and of active efficiency.

    Args:
        case: the builds.
        idle: what they take in at idle.
    """
    for load, least in SINGLE_OUTPUT.items():
        yield _efficiency(case, idle.bays, load, least)
    yield _power_factor(case, idle.bays)
    yield _idle(case, idle)
    yield _active(case)


def additions_of(case: Case, bays: Bays) -> Additions:
    """Return what raises the idle limit of each build.

    Args:
        case: the builds.
        bays: their supplies; those beyond what carries the peak when redundant are counted.
    """
    return Additions(
        performance=case.weighed(lambda _, part: _performance(part)),
        supplies=np.maximum(bays.count - np.maximum(bays.redundant, 1), 0.0),
        drives=case.counted("drive"),
        memory=case.weighed(lambda _, part: _gigabytes(part)),
        channels=_channels(case),
        ports=_ports(case),
    )


def idle_listing(case: Case, idle: Intake) -> Iterator[Listing]:
    """Yield what the idle limit of one build is made of."""
    kind = kind_of(case)
    if kind is None:
        return
    given = additions_of(case, idle.bays)
    rows = (
        (f"base, {kind.name}", "", kind.base),
        ("processor performance", given.performance, kind.by_performance * given.performance),
        ("supplies for redundancy", given.supplies, SUPPLY * given.supplies),
        ("drives", given.drives, DRIVE * given.drives),
        ("GB of memory", given.memory, GIGABYTE * np.maximum(given.memory - MEMORY_FREE, 0)),
        ("channels", given.channels, CHANNEL * np.maximum(given.channels - CHANNELS_FREE, 0)),
        ("ports beyond two", "", given.ports),
        ("limit", "", idle_limit(kind, given)),
    )
    yield Listing(
        "energy.idle-limit",
        f"Idle limit of {SOURCE}",
        ("for", "counted", "W"),
        tuple((name, _text(count), _text(watts)) for name, count, watts in rows),
        "Annex II 2.1, Tables 3 and 4. A planning figure: the regulation is met by measuring. What "
        f"an authority measures may lie {IDLE_TOLERANCE * 100:g} % above what is declared "
        "(Annex IV).",
        idle_limit,
    )


def kind_of(case: Case) -> Kind | None:
    """Return the kind of machine the book describes, or ``None`` where no row is for it."""
    sockets = len(case.book.places_of(Socket))
    return {1: ONE_SOCKET, 2: TWO_SOCKETS}.get(sockets)


def stated_curve(model: Model) -> dict[float, float]:
    """Return the points that the book states of a supply: efficiency by load [1]."""
    curve = model.curve
    return dict(zip(curve.loads, curve.values, strict=True)) if curve else {}


def on_alternating_current(case: Case, model: Model) -> bool:
    """Say whether a supply runs on some line with alternating current."""
    lines = case.book.power.lines
    return any(lines[name].current == "AC" for name in model.supply.ratings)


def _efficiency(case: Case, bays: Bays, load: float, least: float) -> Limit:
    values = bays.of_weakest(
        _on_ac(case, model, stated_curve(model).get(load, np.nan)) for model in bays.models
    )
    percent = f"{load:.0%}".replace("%", " %")
    figure = Figure(
        f"energy.efficiency-{load * 100:g}",
        f"efficiency of the supplies at {percent} load",
        values,
        "",
        f"{PLANNING}; row for one output; as the book states the curve",
        inputs=_supply_inputs(case, bays, "efficiency"),
        missing=_points_missing(case, bays, load),
        outside=_outside(case, bays),
    )
    breaks = f"The supply is below the {least:.0%} that {SOURCE} asks for since 2023."
    return Limit(figure, least, "least", breaks.replace("%", " %"), legal=False)


def _power_factor(case: Case, bays: Bays) -> Limit:
    factors = (_on_ac(case, model, ratio(model.supply.power_factor)) for model in bays.models)
    figure = Figure(
        "energy.power-factor",
        "power factor of the supplies",
        bays.of_weakest(factors),
        "",
        f"{PLANNING}; at 50 % load; the book states one for all loads",
        inputs=_supply_inputs(case, bays, "power_factor"),
        missing=_lacking_on_ac(case, bays, "power_factor"),
        outside=_outside(case, bays),
    )
    breaks = f"The supply is below the {POWER_FACTOR} that {SOURCE} asks for."
    return Limit(figure, POWER_FACTOR, "least", breaks, legal=False)


def _idle(case: Case, idle: Intake) -> Limit:
    kind, given = kind_of(case), additions_of(case, idle.bays)
    bound: Floats = np.nan if kind is None else idle_limit(kind, given)
    performance = case.lacking("processor", "performance") if kind else ()
    figure = Figure(
        "energy.idle",
        "power taken in at idle",
        idle.watts,
        "W",
        f"{PLANNING}; {kind.name if kind else 'no row'}; not for resilient machines",
        by=idle_limit,
        inputs=idle.inputs,
        missing=(*idle.missing, *performance),
        outside="" if kind else UNREGULATED,
    )
    breaks = f"At idle the machine draws more than {SOURCE} allows it."
    return Limit(figure, bound, "most", breaks, legal=False)


def _active(case: Case) -> Limit:
    kind = kind_of(case)
    figure = Figure(
        "energy.active",
        "active efficiency",
        np.full(case.size, np.nan),
        "",
        f"{PLANNING}; {kind.name if kind else 'no row'}",
        by=active_efficiency,
        missing=("results of the active efficiency tests of this build",),
        outside="" if kind else UNREGULATED,
    )
    breaks = f"The machine does less work for its energy than {SOURCE} asks for."
    return Limit(figure, kind.least_active if kind else np.nan, "least", breaks, legal=False)


def _on_ac(case: Case, model: Model, value: float) -> float:
    return value if on_alternating_current(case, model) else np.nan


def _outside(case: Case, bays: Bays) -> str:
    if np.any(bays.count == 0):
        return "no supplies are fitted"
    if all(on_alternating_current(case, model) for model in bays.models):
        return ""
    return f"{SOURCE} exempts supplies on direct current"


def _points_missing(case: Case, bays: Bays, load: float) -> tuple[str, ...]:
    return tuple(
        f"parts.{model.name}.efficiency.{load * 100:g} %"
        for model in bays.models
        if on_alternating_current(case, model) and load not in stated_curve(model)
    )


def _lacking_on_ac(case: Case, bays: Bays, field: str) -> tuple[str, ...]:
    return tuple(
        f"parts.{model.name}.{field}"
        for model in bays.models
        if on_alternating_current(case, model) and np.isnan(ratio(getattr(model.supply, field)))
    )


def _supply_inputs(case: Case, bays: Bays, field: str) -> tuple[Input, ...]:
    return tuple(
        Input(model.supply.name, ", ".join(fact.text for fact in facts), case.cite(*facts))
        for model in bays.models
        if (facts := _facts(model, field))
    )


def _facts(model: Model, field: str) -> tuple[Fact[Fraction], ...]:
    if field == "efficiency":
        return tuple(model.supply.efficiency.values())
    factor = model.supply.power_factor
    return () if factor is None else (factor,)


def _performance(part: object) -> float:
    return ratio(part.performance) if isinstance(part, Processor) else 0.0


def _gigabytes(part: object) -> float:
    return amount(part.size, "GB") if isinstance(part, MemoryModule) else 0.0


def _channels(case: Case) -> Reals:
    """Count channels with a module; fewer channels mean a lower limit, the safe side."""
    total = np.zeros(case.size)
    for name, bank in case.book.places_of(Bank).items():
        modules = case.counted("memory", places=[name])
        total += np.minimum(modules, bank.channels.known)
    return total


def _ports(case: Case) -> Reals:
    """Add up ports of network parts beyond the first two; the fastest two are taken as those."""
    total, free = np.zeros(case.size), np.full(case.size, PORTS_FREE)
    for speed in sorted(_speeds(case), reverse=True):
        count = _ports_of_speed(case, speed)
        taken = np.minimum(count, free) if speed >= 1 else np.zeros(case.size)
        free = free - taken
        total += port_allowance(speed) * (count - taken)
    return total


def _speeds(case: Case) -> set[float]:
    return {
        amount(port.speed, "Gb/s")
        for name in case.fitted
        if isinstance(part := case.book.parts[name], Network)
        for port in part.ports
        if port.speed is not None and port.speed.value is not None
    }


def _ports_of_speed(case: Case, speed: float) -> Reals:
    return case.weighed(lambda _, part: _ports_at(part, speed))


def _ports_at(part: object, speed: float) -> float:
    if not isinstance(part, Network):
        return 0.0
    return sum(port.count.known for port in part.ports if amount(port.speed, "Gb/s") == speed)


def _text(values: Floats | str) -> str:
    if isinstance(values, str):
        return values
    value = float(np.ravel(values)[0])
    return f"{value:,.6g}" if np.isfinite(value) else "not decided"
