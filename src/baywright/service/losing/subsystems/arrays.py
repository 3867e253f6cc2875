"""Arrays: drives alike behind one controller, and how many of them may be gone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from baywright.facts.parts import Drive
from baywright.laws.wording import counted
from baywright.service.losing.items import Effect, Function, Item, Measure, Named, Open
from baywright.service.losing.nodes import Ground, Node, at_least, every, some
from baywright.service.losing.standing import Standing

FAILURES = "site.workload.failures"


@dataclass(frozen=True, slots=True)
class Group:
    """Drives alike that one array spans.

    Args:
        key: slot of the controller, or ``direct``, and the drive.
        slot: the slot, or empty for drives on lanes and ports of the board.
        drive: the drive.
        units: ids of the drives.
    """

    key: str
    slot: str
    drive: Drive
    units: tuple[str, ...]

    @property
    def name(self) -> str:
        """How the group is called in a sentence."""
        where = f"behind {self.slot}" if self.slot else "without a controller"
        return f"{len(self.units)} x {self.drive.name} {where}"


def groups_of(at: Standing) -> tuple[Group, ...]:
    """Return the groups of drives of a build: an array never spans controllers."""
    found: dict[tuple[str, str], list[str]] = {}
    for place in at.book.places:
        for unit, part in at.units(place):
            if isinstance(at.part(part), Drive):
                found.setdefault((at.cable(place), part), []).append(unit)
    return tuple(_group(at, slot, part, units) for (slot, part), units in found.items())


def _group(at: Standing, slot: str, part: str, units: list[str]) -> Group:
    drive = at.part(part)
    if not isinstance(drive, Drive):
        raise TypeError(f"{part} is no drive")
    return Group(f"{slot or 'direct'}.{part}", slot, drive, tuple(units))


def failures_of(at: Standing) -> int | None:
    """Return how many drive failures the site says each array has to survive."""
    workload = at.build.site.workload
    return workload.failures.value if workload and workload.failures else None


def arrays(at: Standing, nodes: Mapping[str, Node]) -> Iterator[Item]:
    """Yield each group of drives: its data, whether it serves, and what it may still lose."""
    survives = failures_of(at)
    space: list[tuple[Node, float]] = []
    for group in groups_of(at):
        if survives is None:
            yield from _unsaid(at, nodes, group)
            continue
        yield from _array(at, nodes, group, survives)
        usable = at.loads.usable.get(group.key)
        if usable is not None:
            space.append((nodes[f"array {group.key}"], usable))
    if space:
        because = Ground("losing.usable", "An array serves its space as long as it holds.")
        yield Measure("usable", "usable space served", "TB", tuple(space), because)


def _unsaid(at: Standing, nodes: Mapping[str, Node], group: Group) -> Iterator[Item]:
    """Without the failures to survive, only that every drive is there can be said."""
    pooled = _pooled(at)
    node = every(*(nodes[f"reach {unit}"] for unit in group.units), because=pooled)
    gone = f"Of {group.name} some are out of reach."
    yield Named(f"array {group.key}", node)
    yield Named(f"boots {group.key}", some(*(nodes[f"reach {unit}"] for unit in group.units)))
    yield Function(f"drives.{group.key}", group.name, node, Effect.OUT, gone)
    if pooled is None:
        yield Open(f"what a loss costs of the data on {group.name}", (FAILURES,))


def _pooled(at: Standing) -> Ground | None:
    """Say how a store over several machines keeps the data, where the site has one."""
    workload = at.build.site.workload
    pool = workload.pool if workload else None
    if pool is None:
        return None
    may = f"; {pool.lost.text} may fail" if pool.lost is not None else ""
    sentence = (
        f"The data is in a pool of {pool.machines.text} machines with {pool.copies.text} copies, "
        f"each on another machine{may}."
    )
    return Ground("losing.pool", sentence, at.cite(pool.machines, pool.copies, pool.lost))


def _array(at: Standing, nodes: Mapping[str, Node], group: Group, survives: int) -> Iterator[Item]:
    least = max(1, len(group.units) - survives)
    because = _because(at, group, survives)
    drives = at_least(least, [nodes[unit] for unit in group.units], because=because)
    reached = [nodes[f"reach {unit}"] for unit in group.units]
    serves = at_least(least, reached, because=because)
    yield Named(f"array {group.key}", serves)
    yield Named(f"boots {group.key}", serves)
    key, name = f"array.{group.key}", f"the array of {group.name}"
    lost = f"Data on {group.name} is lost: more than {counted(survives, 'drive')} gone."
    data = Function(f"data.{group.key}", f"data on {group.name}", drives, Effect.DATA, lost)
    yield replace(data, served=False)
    gone = f"The array of {group.name} does not serve."
    yield Function(key, name, serves, Effect.OUT, gone, covered=data.key)
    if survives:
        yield from _protected(group, reached, least, because)


def _protected(group: Group, reached: list[Node], least: int, because: Ground) -> Iterator[Item]:
    """Yield that an array can still lose a drive, and that it is whole."""
    spare, name = f"spare.{group.key}", group.name
    bare = f"The array of {name} is degraded and may lose no further drive."
    node = at_least(least + 1, reached, because=because)
    kept = Function(spare, f"a drive to spare in {name}", node, Effect.BARE, bare)
    yield replace(kept, covered=f"array.{group.key}")
    bare = f"The array of {name} is degraded."
    whole = every(*reached, because=because)
    yield Function(f"whole.{group.key}", f"all of {name}", whole, Effect.BARE, bare, covered=spare)


def _because(at: Standing, group: Group, survives: int) -> Ground:
    workload = at.build.site.workload
    stated = workload.failures if workload else None
    asked = f"survives {counted(survives, 'failure')}, as the site asks of it"
    sentence = f"The array of {group.name} {asked}."
    return Ground("losing.array", sentence, at.cite(stated))
