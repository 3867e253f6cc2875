"""Orders of small random books against every build of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.answers.inquiry import Inquiry
from baywright.answers.questions import possible
from baywright.answers.verdicts import Yes
from baywright.desk.opening import standard_panel
from baywright.desk.order.asked import Asked, asked, wishes
from baywright.desk.order.findings import MOST_ARRANGEMENTS, arrangements, orphans
from baywright.desk.order.reading import Line, Order
from baywright.desk.order.repair import MOST_REPAIRS, Repair, repairs
from baywright.laws.wishes import with_wishes
from baywright.space import broken
from tests.laws.random_books import Sample, samples


@dataclass(frozen=True)
class Case:
    """A random order of a random book."""

    sample: Sample
    held: Asked

    @property
    def inquiry(self) -> Inquiry:
        return Inquiry(self.sample.machine, standard_panel())


@st.composite
def cases(draw: st.DrawFn) -> Case:
    """An order near some legal build, or of any parts at all; some lines could be two parts."""
    sample = draw(samples(most=400, features=4))
    book, builds = sample.machine.book, sample.legal()
    counts: Counter[str] = Counter()
    is_near = draw(st.booleans())
    if builds and is_near:
        counts = _counts(sample, draw(st.sampled_from(builds)))
    for part in draw(st.lists(st.sampled_from(sorted(book.parts)), max_size=3)):
        counts[part] = max(0, counts[part] + draw(st.integers(-2, 3)))
    lines = [Line(part, part, number, (part,)) for part, number in counts.items() if number]
    if draw(st.booleans()):
        pair = draw(st.lists(st.sampled_from(sorted(book.parts)), min_size=2, max_size=2))
        if pair[0] != pair[1] and book.parts[pair[0]].kind == book.parts[pair[1]].kind:
            number = draw(st.integers(1, 2))
            lines.append(Line("unclear", "unclear", number, tuple(pair)))
    return Case(sample, asked(Order(book, 1, tuple(lines)), sample.machine))


def _counts(sample: Sample, values: Mapping[str, int]) -> Counter[str]:
    frame, found = sample.machine.frame, Counter[str]()
    for name, fitting in frame.fittings.items():
        if not fitting.derived:
            for part, _, number in frame.parts_in(fitting.options[values[name]]):
                found[part] += number
    return found


def _readings(held: Asked) -> Iterator[Counter[str]]:
    """Yield what an order lists, for each way its unclear line can be read."""
    clear = Counter(held.listed)
    if not held.readings:
        yield clear
        return
    (reading,) = held.readings
    for part in reading.parts:
        yield clear + Counter({part: reading.line.count})


def _changes(held: Asked, listed: Mapping[str, int], built: Mapping[str, int]) -> int:
    """Count parts added, taken off or swapped for another of their kind."""
    more, fewer = Counter[str](), Counter[str]()
    for part in held.roles.chosen:
        kind, gap = held.machine.book.parts[part].kind, built.get(part, 0) - listed.get(part, 0)
        more[kind] += max(0, gap)
        fewer[kind] += max(0, -gap)
    return sum(max(more[kind], fewer[kind]) for kind in {*more, *fewer})


def _follow(held: Asked, built: Mapping[str, int]) -> int:
    listed = held.order.counts
    return sum(abs(built.get(part, 0) - listed.get(part, 0)) for part in held.roles.follow)


def _chosen(held: Asked, built: Mapping[str, int]) -> tuple[int, ...]:
    return tuple(built.get(part, 0) for part in held.roles.chosen)


def _mended(repair: Repair, held: Asked, reading: Mapping[str, int]) -> tuple[int, ...]:
    """Return the parts that an order has once the steps of a repair are done."""
    found = Counter(reading)
    for step in repair.steps:
        found[step.part] += -step.count if step.kind == "remove" else step.count
        if step.kind == "swap":
            found[step.instead_of] -= step.count
    return _chosen(held, found)


@given(cases())
def test_a_repair_has_the_fewest_changes_of_all_builds(case: Case) -> None:
    held, machine = case.held, case.sample.machine
    found = repairs(case.inquiry, held)
    everything = [
        (_changes(held, listed, built), _follow(held, built), _chosen(held, built))
        for built in (_counts(case.sample, values) for values in case.sample.legal())
        for listed in _readings(held)
    ]
    if not everything:
        assert not found
        return
    least = min(changes for changes, _, _ in everything)
    follow = min(number for changes, number, _ in everything if changes == least)
    assert all(repair.changes == least for repair in found)
    assert _follow(held, found[0].witness.parts) == follow
    for repair in found:
        assert not broken(machine.space, repair.witness.values)
        built = _chosen(held, repair.witness.parts)
        listed = Counter(held.listed)
        for reading in held.readings:
            listed[repair.readings[reading.line.where]] += reading.line.count
        assert _mended(repair, held, listed) == built
    if not held.readings:
        ways = {chosen for changes, _, chosen in everything if changes == least}
        assert len(found) == min(MOST_REPAIRS, len(ways))


@given(cases())
def test_an_order_can_be_built_when_some_build_has_its_parts(case: Case) -> None:
    held, inquiry = case.held, case.inquiry
    verdict = possible(inquiry, wishes(held), 0)
    wanted = {_chosen(held, listed) for listed in _readings(held)}
    builds = [v for v in case.sample.legal() if _chosen(held, _counts(case.sample, v)) in wanted]
    assert isinstance(verdict, Yes) == bool(builds)
    if not builds:
        return
    space = with_wishes(case.sample.machine.space, wishes(held))
    ways = arrangements(inquiry, held, space)
    assert ways.number is None or ways.number <= MOST_ARRANGEMENTS
    if not held.readings and ways.number is not None:
        names = [
            name
            for name, fitting in case.sample.machine.frame.fittings.items()
            if not fitting.derived
            and fitting.place.removesuffix(" controller") in case.sample.machine.book.places
        ]
        assert ways.number == len({tuple(values[name] for name in names) for values in builds})


@given(cases())
def test_an_orphan_is_in_no_build_of_what_is_listed(case: Case) -> None:
    held, book = case.held, case.sample.machine.book
    needed = {"processor", "memory", "supply", "fan"}
    needed |= {book.parts[part].kind for part in held.roles.always}
    most = Counter(held.listed)
    for reading in held.readings:
        for part in reading.parts:
            most[part] += reading.line.count
    within = [
        built
        for built in (_counts(case.sample, values) for values in case.sample.legal())
        if all(
            built[part] <= most[part]
            for part in held.roles.chosen
            if book.parts[part].kind not in needed
        )
    ]
    homeless = {
        part
        for part in held.listed
        if book.parts[part].kind not in needed and not any(built[part] for built in within)
    }
    assert set(orphans(case.inquiry, held)) == (homeless if within else set())


def test_the_random_orders_are_of_both_sorts() -> None:
    seen = Counter[bool]()

    @given(cases())
    def look(case: Case) -> None:
        seen[isinstance(possible(case.inquiry, wishes(case.held), 0), Yes)] += 1

    look()
    assert seen[True] >= 5
    assert seen[False] >= 5


pytestmark = pytest.mark.timeout(300)
