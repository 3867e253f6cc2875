"""The state after repair: what brings a thing back, how long that takes, and what follows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from baywright.facts.citation import Citation
from baywright.facts.fact import Fact
from baywright.facts.parts import Boot, Controller, Drive, EnergyPack
from baywright.facts.sections import Work
from baywright.service.losing.graph import Graph
from baywright.service.losing.items import Thing
from baywright.service.losing.losing import Lost
from baywright.service.losing.standing import place_of
from baywright.service.losing.subsystems.arrays import groups_of
from baywright.sizing.case import Case
from baywright.sizing.equation import equation_of
from baywright.sizing.storage.keeping import rebuild_hours
from baywright.sizing.storage.loss import rebuild_time
from baywright.units import Quantity

OFF_SITE = frozenset({"room", "feed"})
"""Kinds of thing that nobody repairs at the machine."""

OF_WORK: Mapping[str, str] = {"cord": "cable", "link": "board", "board of slots": "board"}
"""Where the work on a thing stands in the book, by kind, where that is not its kind."""

OF_ANOTHER: Mapping[str, str] = {"chip": "network", "port": "network", "connector": "board"}
"""The kind of part that is changed when a piece of it is lost."""


@dataclass(frozen=True, slots=True)
class Repair:
    """What brings one thing back.

    Args:
        thing: the thing.
        running: whether the book lets it be done while the machine runs; ``None`` where the book
            says nothing.
        minutes: time for it, stopping and starting included; not-a-number where a time is missing.
        missing: facts that the time depends on.
        follows: what has to come after it, one sentence each.
        cautions: keys of the cautions that come before it.
        facts: what the time stands on.
    """

    thing: Thing
    running: bool | None
    minutes: float
    missing: tuple[str, ...]
    follows: tuple[str, ...]
    cautions: tuple[str, ...]
    facts: tuple[Citation, ...]


def repairs(case: Case, graph: Graph, lost: Lost) -> Iterator[Repair]:
    """Yield what brings each lost thing back.

    Args:
        case: the build as sizing reads it.
        graph: its functions.
        lost: what is lost.
    """
    for name in lost.things:
        thing = graph.by_id[name]
        follows = tuple(_follows(case, graph, lost, thing))
        if thing.kind in OFF_SITE:
            yield Repair(thing, None, math.nan, (), follows, (), ())
        else:
            yield _repaired(graph, lost, thing, follows)


def _repaired(graph: Graph, lost: Lost, thing: Thing, follows: tuple[str, ...]) -> Repair:
    work, path = _work(graph, thing)
    service = graph.standing.book.service
    running = _running(graph, thing, work)
    # What the machine has lost already cannot be saved by working while it runs.
    around = () if running else (("stop", service.stop), ("start", service.start))
    steps = {f"service.{name}": fact for name, fact in around}
    steps[f"{path}.time"] = work.time if work is not None else None
    if work is not None and work.wait is not None:
        steps[f"service.waits.{work.wait}"] = service.waits.get(str(work.wait))
    known = [fact for fact in steps.values() if fact is not None and fact.value is not None]
    missing = tuple(name for name, fact in steps.items() if fact is None or fact.value is None)
    return Repair(
        thing,
        running,
        math.nan if missing else _minutes(known),
        missing,
        follows,
        _cautions(lost, thing, work, running=bool(running)),
        graph.standing.cite(*known),
    )


def _running(graph: Graph, thing: Thing, work: Work | None) -> bool | None:
    """Say whether a thing is changed while the machine runs; fixed drives are not."""
    if work is None:
        return None
    cage = graph.standing.cage(place_of(thing.id)) if thing.kind == "drive" else None
    fixed = cage is not None and cage.hot_swap is not None and not cage.hot_swap.known
    return bool(work.running and work.running.known) and not fixed


def _minutes(facts: list[Fact[Quantity]]) -> float:
    return math.fsum(float(fact.known.to("min")) for fact in facts)


def _work(graph: Graph, thing: Thing) -> tuple[Work | None, str]:
    """Return the work on a thing, by its part or its kind, and where it stands."""
    work = graph.standing.book.service.work
    kind = OF_WORK.get(thing.kind, OF_ANOTHER.get(thing.kind, thing.kind))
    part = thing.part if thing.part in work else kind
    return work.get(part), f"service.work.{part}"


def _cautions(lost: Lost, thing: Thing, work: Work | None, *, running: bool) -> tuple[str, ...]:
    off = () if running else ("several-cords", "stored-energy", "static")
    drive = ("rebuild", "removed-media") if thing.kind == "drive" else ()
    stated = tuple(str(each) for each in work.cautions) if work is not None else ()
    return tuple(dict.fromkeys((*off, *drive, *stated)))


def _follows(case: Case, graph: Graph, lost: Lost, thing: Thing) -> Iterator[str]:
    part = graph.standing.book.parts.get(thing.part)
    match part:
        case Drive() if _data_lost(graph, lost, thing):
            yield "The array is made anew, and its data comes back from a backup only."
        case Drive():
            yield _rebuild(case, part)
        case Boot() if part.mirrored.known:
            yield "The mirror is copied again; the book does not say how long that takes."
        case EnergyPack():
            yield "The controller writes through until the pack is charged: no time is stated."
        case Controller():
            yield "Check that the new one takes the arrays over before any of them is started."
    if thing.kind in OFF_SITE:
        yield "Whether the machine starts by itself when power is back is not stated."


def _data_lost(graph: Graph, lost: Lost, thing: Thing) -> bool:
    """Say whether the data of the array that a drive belongs to is lost."""
    groups = (group for group in groups_of(graph.standing) if thing.id in group.units)
    keys = {f"data.{group.key}" for group in groups}
    return any(gone.function.key in keys for gone in lost.gone)


def _rebuild(case: Case, drive: Drive) -> str:
    hours, number = rebuild_hours(case, drive), equation_of(rebuild_time).number
    if math.isnan(hours):
        return "Its array is rebuilt; the time is not decided: no rate of writing is stated."
    return (
        f"Its array is rebuilt in {hours:.1f} h without other load (formula {number}); until then "
        "it may lose fewer drives."
    )
