"""Space: what the drives hold, and what is left of it when failures have to be survived."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from baywright.facts.parts import Drive
from baywright.laws.wording import counted
from baywright.sizing.case import Case
from baywright.sizing.equation import Reals
from baywright.sizing.figure import Figure, Limit
from baywright.sizing.storage.groups import Group
from baywright.sizing.storage.levels import TB, TIB, usable_pooled, usable_surviving
from baywright.sizing.storage.stated import (
    all_inputs,
    all_missing,
    asked_least,
    fitted,
    lacking,
    number,
    of_site,
    quoted,
)


def raw(case: Case) -> Reals:
    """Return the capacity of all drives inside each build [B]."""
    return case.weighed(
        lambda name, part: number(part.capacity, "B") if isinstance(part, Drive) else 0.0
    )


def of_space(case: Case, groups: list[Group]) -> Iterator[Figure | Limit]:
    """Yield raw and usable space, and the limits on them."""
    drives = fitted(case, Drive)
    missing, inputs = (
        lacking(drives, case, "capacity"),
        quoted(drives, case, "capacity", "capacity of a drive"),
    )
    inside = "all drives inside the machine"
    yield Figure("storage.raw", "raw capacity", raw(case) / TB, "TB", inside, None, inputs, missing)
    yield Figure(
        "storage.raw_binary", "raw capacity", raw(case) / TIB, "TiB", inside, None, inputs, missing
    )
    yield from _usable(case, groups, missing)
    if case.site.workload is not None and case.site.workload.pool is not None:
        yield _pooled(case, missing)


def _usable(case: Case, groups: list[Group], unknown: tuple[str, ...]) -> Iterator[Figure | Limit]:
    failures = of_site(case, "workload.failures", "failures to survive")
    data = of_site(case, "workload.data", "data that has to fit", "B")
    space = usable(case, groups)
    condition = "drives alike behind one controller in one array"
    if failures.known:
        survived = counted(int(failures.value), "failure")
        condition = f"{condition}, {survived} in each survived, {_spares(case)}"
    figure = Figure(
        "storage.usable",
        "most usable space",
        space / TB,
        "TB",
        condition,
        usable_surviving,
        failures.inputs,
        failures.missing + unknown,
    )
    yield asked_least(figure, data, TB, "The data does not fit, or fewer failures can be survived.")
    yield Figure(
        "storage.usable_binary",
        "most usable space",
        space / TIB,
        "TiB",
        condition,
        usable_surviving,
        failures.inputs,
        failures.missing + unknown,
    )


def spares(case: Case) -> int:
    """Return the drives behind each controller that wait as spares; none unless the site says."""
    asked = of_site(case, "workload.spares", "spares")
    return int(asked.value) if asked.known else 0


def _spares(case: Case) -> str:
    kept = spares(case)
    return f"{counted(kept, 'spare')} behind each controller" if kept else "no spares"


def usable(case: Case, groups: list[Group]) -> Reals:
    """Return the most space that survives what the site asks to survive [B]."""
    failures = of_site(case, "workload.failures", "failures to survive")
    if not failures.known:
        return np.full(case.size, np.nan)
    total = np.zeros(case.size)
    for group in groups:
        used = np.maximum(group.counts - spares(case), 0)
        capacity = number(group.drive.capacity, "B")
        total += np.where(used > 0, usable_surviving(used, int(failures.value), capacity), 0.0)
    return total


def _pooled(case: Case, unknown: tuple[str, ...]) -> Figure | Limit:
    names = {
        "machines": "machines of the pool",
        "lost": "machines that may fail",
        "copies": "copies",
        "fill": "share that may be filled",
    }
    stated = {name: of_site(case, f"workload.pool.{name}", text) for name, text in names.items()}
    data = of_site(case, "workload.pool.data", "data of the pool", "B")
    lost = stated["lost"].value if stated["lost"].known else 0.0
    space = usable_pooled(
        raw(case),
        stated["machines"].value,
        lost,
        stated["copies"].value,
        stated["fill"].value,
    )
    needed = [each for name, each in stated.items() if name != "lost"]
    figure = Figure(
        "storage.pool",
        "space of the pool",
        np.asarray(space) / TB,
        "TB",
        f"machines alike, {lost:g} of them failed and all copies whole again",
        usable_pooled,
        all_inputs(*stated.values()),
        all_missing(*needed) + unknown,
        "where fewer machines are left than copies, two copies would share one",
    )
    breaks = "The data of the pool does not fit, or a machine less may fail."
    return asked_least(figure, data, TB, breaks)
