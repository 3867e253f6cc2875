"""What a machine needs to run and to serve, as reliability blocks of each build.

The machine stops when any of these is lost: its board, a processor, a memory module, its boot
medium, power for its peak draw, air for its peak draw. Its service also needs a feed, data and a
network connection. Left out: cages, cables and energy packs (a controller without a charged pack
writes through), accelerators and cards, and all software.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from baywright.facts.fact import Fact
from baywright.facts.parts import Boot, Controller, Drive, Fan, Network, Part
from baywright.facts.places import Fans
from baywright.laws.controllers import cable_of, cabled_zones, controller_slots
from baywright.laws.frame import Option
from baywright.sizing.air.flow import CFM, heat_carried
from baywright.sizing.amounts import amount, ratio
from baywright.sizing.availability.blocks import Block, Chain, Fed, One, Several
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats, Reals
from baywright.sizing.power.bays import Bays, bays_of
from baywright.sizing.power.circuits import supplies_on_feed
from baywright.sizing.power.draw import draw
from baywright.sizing.power.sharing import spare as spare_supplies

Reader = Callable[[Part], bool]

ONE_FEED = "feed"
"""What a site without named feeds has: one, which every supply hangs on."""


def machine(case: Case, always: tuple[Block, ...]) -> Chain:
    """Return what each build needs to run, its feeds taken as there.

    Args:
        case: the builds.
        always: what ``always_needed`` returns for them.
    """
    bays = bays_of(case)
    count = _needed(bays.count)
    supplies = Several("supplies", _supply(case, bays), count, spare_of(case, bays))
    return Chain("machine", (*always, supplies))


def service(case: Case, always: tuple[Block, ...], *, data: bool = True) -> Chain:
    """Return what each build needs to serve: the machine, a feed, its data, a network.

    Args:
        case: the builds.
        always: what ``always_needed`` returns for them.
        data: whether their own drives count; where copies lie on other machines they may not.
    """
    stored = (_data(case),) if data else ()
    return Chain("service", (*always, _power(case), *stored, *_network(case)))


def data_decided(case: Case) -> bool:
    """Say whether it is known how many drives of a group may fail, or no build has any."""
    workload = case.site.workload
    known = workload is not None and _known(workload.failures)
    return known or not case.counted("drive").any()


def spare_of(case: Case, bays: Bays) -> Floats:
    """Return how many supplies may fail while the rest carries the peak [1]."""
    spare = spare_supplies(draw(case, "peak"), bays.rating, bays.count)
    # Where fewer than needed are fitted nothing may fail; the power sheet says that it is so.
    return np.where(bays.count > 0, spare, np.nan)


def absent(case: Case) -> str:
    """Return what some build needs and has not, or nothing."""
    supplies, fans = bays_of(case).count, [_fans_fitted(case, name) for name in _fans_of(case)]
    if np.any(supplies == 0):
        return "no supplies are fitted"
    return "no fans are fitted" if any(np.any(count == 0) for count in fans) else ""


def _needed(count: Reals) -> Reals:
    """Return a count, not-a-number where there is none: nothing can then be said of it."""
    return np.where(count > 0, count, np.nan)


def always_needed(case: Case) -> tuple[Block, ...]:
    """Return what each build needs but for power: board, processors, memory, boot, air."""
    rate = case.book.chassis.failure_rate
    board = One("board", ratio(rate), "" if _known(rate) else "chassis.failure_rate")
    parts = (*_each(case, "processor"), *_each(case, "memory"))
    return (board, *parts, *_boot(case), *_fans(case))


def _each(case: Case, kind: str) -> Iterator[Block]:
    """Yield the parts of a kind that stop the machine one by one."""
    for name, part in case.book.parts_of(kind).items():
        if name in case.fitted:
            yield Several(f"{part.name}s", _one(name, part), case.numbers[name])


def _boot(case: Case) -> Iterator[Block]:
    """Yield boot media; a build without any starts from its drives."""
    for name, part in case.book.parts_of("boot").items():
        if name in case.fitted and isinstance(part, Boot):
            media = float(part.media.known) if part.media is not None else 1.0
            spare = media - 1 if part.mirrored.known else 0.0
            medium = One(f"medium of {part.name}", *_rate(name, part))
            yield Several(part.name, medium, media * case.numbers[name], spare)


def _fans(case: Case) -> Iterator[Block]:
    places = _fans_of(case)
    for name, place in places.items():
        alone = len(places) == 1
        each = _worst(case, "fan" if alone else f"fan of {place.name}", _is_fan)
        spare = _spare_fans(case, name) if alone else np.nan
        yield Several(place.name, each, _needed(_fans_fitted(case, name)), spare)


def _fans_of(case: Case) -> dict[str, Fans]:
    return case.book.places_of(Fans)


def _fans_fitted(case: Case, place: str) -> Reals:
    (choice,) = case.frame.at(place)
    return case.looked_up(choice, lambda option: option.count)


def _is_fan(part: Part) -> bool:
    return isinstance(part, Fan)


def _spare_fans(case: Case, place: str) -> Floats:
    """Return how many fans may fail, the strongest first, while the rest carries the peak."""
    (choice,) = case.frame.at(place)
    options = case.frame.options(choice)
    most = max(option.count for option in options)
    flows = np.array([_flow_without(case, option, most) for option in options])[case.codes[choice]]
    rise = float(case.book.air.rise.known.canonical)
    # A load on the bound is carried, whatever its last binary digit says.
    load = np.subtract(draw(case, "peak"), 1e-6)
    enough = [
        np.asarray(heat_carried(flows[:, lost] * CFM, rise, case.around.altitude)) >= load
        for lost in range(most + 1)
    ]
    return np.asarray(np.maximum(np.sum(np.array(enough), axis=0) - 1.0, 0.0))


def _flow_without(case: Case, option: Option, most: int) -> list[float]:
    """Return the flow that is left without the strongest 0, 1, ... fans [CFM]; none is below 0."""
    flows = sorted(
        amount(part.flow, "CFM")
        for _, part, count in case.frame.parts_in(option)
        if isinstance(part, Fan)
        for _ in range(count)
    )
    left = [sum(flows[: len(flows) - lost]) for lost in range(len(flows) + 1)]
    return left + [-1.0] * (most + 1 - len(left))


def _power(case: Case) -> Fed:
    bays, upkeep = bays_of(case), case.site.upkeep
    rate = upkeep.feed_failure_rate if upkeep else None
    lacks = "" if _known(rate) else "site.upkeep.feed_failure_rate"
    on = _on_feeds(case, bays)
    feeds = tuple(One(_feed_name(name), ratio(rate), lacks) for name in on)
    return Fed("power", _supply(case, bays), tuple(on.values()), feeds, spare_of(case, bays))


def _feed_name(name: str) -> str:
    return name if name == ONE_FEED else f"feed {name}"


def _on_feeds(case: Case, bays: Bays) -> dict[str, Reals]:
    """Return the supplies on each feed: as the machine fixes it, or dealt out in turn."""
    fixed = bays.place.feeds if bays.place else {}
    if fixed:
        whole = sum(number.known for number in fixed.values())
        return {name: bays.count * number.known / whole for name, number in fixed.items()}
    names = tuple(case.site.feeds) or (ONE_FEED,)
    dealt = {
        name: np.asarray(supplies_on_feed(bays.count, len(names), position))
        for position, name in enumerate(names)
    }
    # Feeds that no build has a supply on do not matter to it; the first stays for builds without.
    return {n: count for n, count in dealt.items() if n == names[0] or np.any(count > 0)}


def _supply(case: Case, bays: Bays) -> One:
    names = [model.name for model in bays.models]
    return _worst(case, "supply", lambda part: any(case.book.parts[n] is part for n in names))


def _data(case: Case) -> Chain:
    """Return the drives in groups that an array can span: each controller, and the direct ones."""
    workload = case.site.workload
    failures = workload.failures if workload else None
    spare = float(failures.known) if failures is not None and _known(failures) else np.nan
    drive = _worst(case, "drive", lambda part: isinstance(part, Drive))
    if np.isnan(spare):
        drive = One(drive.name, np.nan, "site.workload.failures")
    cabled = {slot: _drives_on(case, slot) for slot in controller_slots(case.book)}
    direct = np.maximum(case.counted("drive") - sum(cabled.values(), np.zeros(case.size)), 0.0)
    groups = [_array("drives without controller", drive, direct, spare)]
    for slot, count in cabled.items():
        controller = _worst(case, f"controller in {slot}", lambda p: isinstance(p, Controller))
        groups.append(Several(f"controllers in {slot}", controller, np.minimum(count, 1.0)))
        groups.append(_array(f"drives on {slot}", drive, count, spare))
    return Chain("data", tuple(groups))


def _array(name: str, drive: One, count: Reals, spare: float) -> Several:
    label = name.removeprefix("drives ")
    return Several(name, One(f"drive {label}", drive.yearly, drive.lacks), count, spare)


def _drives_on(case: Case, slot: str) -> Reals:
    """Return how many drives hang on the controller in a slot."""
    total = np.zeros(case.size)
    for zone in cabled_zones(case.book):
        on = case.looked_up(cable_of(zone), lambda option: float(option.value == slot))
        total += on * case.counted("drive", places=[zone])
    return total


def _network(case: Case) -> Iterator[Block]:
    """Yield the network: lost once every chip, or every connection of those left, is down."""
    chips = case.weighed(lambda _, part: _chips(part))
    if not chips.any():
        return
    upkeep = case.site.upkeep
    rate = upkeep.network_failure_rate if upkeep else None
    lacks = "" if _known(rate) else "site.upkeep.network_failure_rate"
    chip = _worst(case, "network chip", lambda part: isinstance(part, Network))
    connection = One("connection", ratio(rate), lacks)
    every = case.weighed(lambda _, part: _ports(part))
    ports = np.maximum(np.floor(every / np.maximum(chips, 1)), 1)
    lines = Several("connections", connection, ports, ports - 1)
    yield Several("network", Chain("network path", (chip, lines)), chips, chips - 1)


def _chips(part: Part) -> float:
    if not isinstance(part, Network):
        return 0.0
    # A part that does not say how many chips it has is taken to have one: the safe side.
    return float(part.chips.known) if part.chips is not None and part.chips.value else 1.0


def _ports(part: Part) -> float:
    return float(sum(port.count.known for port in part.ports)) if isinstance(part, Network) else 0.0


def _worst(case: Case, name: str, is_one: Reader) -> One:
    """Return one part of a kind, failing as often as the model that fails most in each build."""
    yearly: Reals = np.zeros(case.size)
    lacks = ""
    for part_name in case.fitted:
        part = case.book.parts[part_name]
        if is_one(part):
            rate, missing = _rate(part_name, part)
            yearly = np.where(case.numbers[part_name] > 0, np.maximum(yearly, rate), yearly)
            lacks = lacks or missing
    return One(name, yearly, lacks)


def _one(name: str, part: Part) -> One:
    return One(part.name, *_rate(name, part))


def _rate(name: str, part: Part) -> tuple[float, str]:
    rate = part.failure_rate
    return ratio(rate), "" if _known(rate) else f"parts.{name}.failure_rate"


def _known(fact: Fact[Any] | None) -> bool:
    return fact is not None and fact.value is not None
