"""Space that survives drive failures: the laws against what sizing says of random builds."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache

import numpy as np
import pytest

from baywright.engines.contract import Assumptions, Limit, Possible
from baywright.engines.diagram import Diagram
from baywright.engines.search import Search
from baywright.facts.fact import Fact
from baywright.facts.site import Site, Workload
from baywright.laws.formula import encode
from baywright.laws.machine import Machine
from baywright.laws.usable import arrays_keep
from baywright.laws.wishes import Wish, read_wishes, with_wishes
from baywright.sizing.case import Case, Surroundings
from baywright.sizing.storage.groups import groups_of
from baywright.sizing.storage.space import usable
from baywright.space import Origin, Space
from tests.sizing.cases import machine_of

TB = 10**12


@cache
def drawn(book: str, condition: str) -> list[Mapping[str, int]]:
    """Return random legal builds with a condition."""
    machine = machine_of(book)
    space = with_wishes(machine.space, read_wishes(machine, condition))
    return Diagram().sample(space, 40, seed=7, limit=Limit(60.0))


def asked(machine: Machine, data: Fraction, failures: int) -> Space:
    origin = Origin("wish:1", "wish", "Asked: arrays.")
    encoded = encode(arrays_keep(machine.frame, data, failures), origin, machine.sizes)
    wish = Wish(origin, "arrays", tuple(encoded.choices), tuple(encoded.laws))
    return with_wishes(machine.space, [wish])


def sized(machine: Machine, build: Mapping[str, int], failures: int) -> tuple[float, bool]:
    """Return what sizing finds usable [B], and whether every array is one model and survives."""
    frame = machine.frame
    codes = {n: np.array([build[n]], np.intp) for n, f in frame.fittings.items() if not f.derived}
    workload = Workload(failures=Fact(failures, str(failures)))
    case = Case(frame, codes, Surroundings.of(Site(workload=workload)))
    groups = groups_of(case)
    one = len({group.name for group in groups}) == 1
    large = all(group.counts[0] > failures for group in groups)
    return float(usable(case, groups)[0]), one and large


def holds(space: Space, build: Mapping[str, int]) -> bool:
    own = {choice.name for choice in space.choices}
    given = Assumptions({n: frozenset({at}) for n, at in build.items() if n in own})
    return isinstance(Search().prove(space, given), Possible)


@pytest.mark.parametrize("failures", [1, 2])
@pytest.mark.parametrize(
    "condition",
    ['count("sas-2400") >= 6 and count(drive) == count("sas-2400")', "count(drive) >= 3"],
)
def test_laws_and_sizing_agree_to_the_last_byte(condition: str, failures: int) -> None:
    machine = machine_of("f2")
    seen = set()
    for build in drawn("f2", condition)[:12]:
        most, sound = sized(machine, build, failures)
        seen.add(sound)
        enough = asked(machine, Fraction(round(most)), failures)
        assert holds(enough, build) == sound
        if sound:
            assert not holds(asked(machine, Fraction(round(most) + 1), failures), build)
    assert True in seen or "sas" not in condition


def test_24_drives_on_two_controllers_lose_two_each() -> None:
    """(16 - 2 + 8 - 2) × 2.4 TB = 48 TB: the build of the record office at a line that bears it."""
    machine = machine_of("f2")
    condition = 'count("sas-2400") == 24 and count(drive) == 24'
    for build in drawn("f2", condition)[:3]:
        assert holds(asked(machine, Fraction(48 * TB), 2), build)
        assert not holds(asked(machine, Fraction(48 * TB + 1), 2), build)
