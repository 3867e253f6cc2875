"""Availability and spares against numbers in print, a reference library and an outside program.

How each was seen stands beside it: R read in a stored copy, R2 quoted elsewhere, L in a file of a
public package, C recomputed here, M from memory.
"""

from __future__ import annotations

import csv
import subprocess
import sys
from collections.abc import Iterable, Iterator
from itertools import combinations, count
from pathlib import Path

import numpy as np
import pytest
from scipy import linalg, stats

from baywright.sizing.availability.fault_tree import (
    CutSet,
    Event,
    Gate,
    Tree,
    events_of,
    exact_odds,
    minimal_cut_sets,
    parallel,
    rare_event_odds,
    series,
)
from baywright.sizing.availability.repair import (
    any_down,
    down_time,
    failure_rate,
    mean_time_to_failure,
    more_than,
    unavailability,
    yearly_failures,
)
from baywright.sizing.availability.spares import cover, lead_time_demand, stock_for


@pytest.mark.parametrize(
    ("needed", "of", "up", "odds"),
    [
        # An example attributed to MIL-HDBK-338B, R2, C; four digits.
        (3, 4, 0.9, 0.9477),
        # A tutorial on k out of n, R, C; five digits.
        (4, 6, 0.8, 0.90112),
    ],
)
def test_some_of_many(needed: int, of: int, up: float, odds: float) -> None:
    assert 1 - more_than(of - needed, of, 1 - up) == pytest.approx(odds, abs=1e-9)


@pytest.mark.parametrize("parts", [2, 5, 24])
@pytest.mark.parametrize("down", [1e-9, 0.01, 0.3, 0.999])
def test_some_of_many_as_scipy_has_it(parts: int, down: float) -> None:
    """SciPy's binomial distribution; both are sums of a few dozen terms, so ten digits."""
    for spare in range(parts):
        expected = stats.binom.sf(spare, parts, down)
        assert more_than(spare, parts, down) == pytest.approx(expected, rel=1e-10)


def test_two_five_nines_in_series() -> None:
    """A published example, R, C: 0.99998 and about 630 s a year; printed to ten seconds."""
    down = any_down(1e-5, 1e-5)
    assert 1 - down == pytest.approx(0.99998, abs=1e-9)
    assert down_time(down) * 3600 == pytest.approx(630, abs=5)


def test_one_of_two_with_repair() -> None:
    """(3 lambda + mu) / (2 lambda^2) with 1e-3 and 0.1 an hour is 51,500 h; textbook, C. Exact but
    for rounding."""
    assert mean_time_to_failure(1, 2, 1e-3, 10.0) == pytest.approx(51_500, rel=1e-12)


@pytest.mark.parametrize(("spare", "parts"), [(0, 1), (1, 4), (2, 4), (3, 8)])
def test_time_to_failure_as_a_linear_system_has_it(spare: int, parts: int) -> None:
    """The same chain as a system of equations, solved by SciPy; eleven digits, since the matrix
    mixes rates that are far apart."""
    rate, repair = 1e-4, 24.0
    states = range(spare + 1)
    matrix = np.zeros((spare + 1, spare + 1))
    for i in states:
        fail, mend = (parts - i) * rate, (1 / repair if i else 0.0)
        matrix[i, i] = fail + mend
        if i < spare:
            matrix[i, i + 1] = -fail
        if i:
            matrix[i, i - 1] = -mend
    expected = linalg.solve(matrix, np.ones(spare + 1))[0]
    assert mean_time_to_failure(spare, parts, rate, repair) == pytest.approx(expected, rel=1e-11)


def test_one_part_with_repair() -> None:
    """MTBF 1,000 h and MTTR 24 h: 24 / 1,024 of the time; definition, C."""
    assert unavailability(1e-3, 24.0) == pytest.approx(24 / 1024, rel=1e-12)


@pytest.mark.parametrize(
    ("hours", "yearly", "of_45"),
    [(100_000, 0.0876, 3.942), (200_000, 0.0438, 1.971), (300_000, 0.0292, 1.314)],
)
def test_yearly_rate_of_a_mean_time(hours: float, yearly: float, of_45: float) -> None:
    """A wiki page on spare drives, R: hours between failures to shares a year of 8,760 h, and
    failures of 45 drives; printed to three or four digits."""
    assert failure_rate(yearly) == pytest.approx(1 / hours, rel=1e-4)
    assert yearly_failures(0.0, 45 * yearly) == pytest.approx(of_45, abs=0.0005)


@pytest.mark.parametrize(("stock", "odds"), [(1, 0.73), (4, 0.996)])
def test_cover_of_a_demand_of_one(stock: int, odds: float) -> None:
    """A page on stocks of spares, R, C: with a demand of 1 in the lead time, one spare gives about
    73 %, four about 99.6 %; printed to two and three digits."""
    assert cover(stock, 1.0) == pytest.approx(odds, abs=0.006 if stock == 1 else 0.0006)


@pytest.mark.parametrize("demand", [0.0, 1e-6, 0.1289, 1.0, 7.3, 60.0, 500.0])
@pytest.mark.parametrize("level", [0.5, 0.9, 0.99, 0.9999])
def test_stock_as_scipy_has_it(demand: float, level: float) -> None:
    """SciPy's Poisson distribution: the stock is its quantile, exactly; the odds to ten digits."""
    stock = stock_for(demand, level)
    assert stock == max(0.0, stats.poisson.ppf(level, demand) if demand else 0.0)
    assert cover(stock, demand) == pytest.approx(stats.poisson.cdf(stock, demand), rel=1e-10)


def test_demand_of_a_lead_time() -> None:
    """280 parts, 1.2 % a year, two weeks: 280 x 0.012 x 14 / 365; definition, C."""
    found = lead_time_demand(280, 0.012, 14 / 365)
    assert found == pytest.approx(0.128876712, abs=1e-9)


# --- fault trees ---------------------------------------------------------------------------

MAINS, GENERATOR, RELAY = Event("mains", 0.03), Event("generator", 0.02), Event("relay", 0.05)

THEATRE = parallel("no power", [MAINS, series("no emergency", [GENERATOR, RELAY])])
"""A fault tree that two public programs carry as an example."""


def test_the_theatre() -> None:
    """Files of the programs OpenFTA and SCRAM, L, C: 0.00207 exact, 0.00210 as a rare-event sum,
    cut sets mains with generator and mains with relay. Exact but for rounding."""
    cut_sets = minimal_cut_sets(THEATRE)
    assert cut_sets == {frozenset({"mains", "generator"}), frozenset({"mains", "relay"})}
    assert exact_odds(THEATRE) == pytest.approx(0.00207, rel=1e-12)
    assert rare_event_odds(cut_sets, events_of(THEATRE)) == pytest.approx(0.00210, rel=1e-12)


def common_cause() -> Tree:
    """Two supplies on one feed, two fans of three, and a board."""
    feed = Event("feed", 0.01)
    supplies = [series(f"input {i}", [Event(f"supply {i}", 0.02), feed]) for i in (1, 2)]
    fans = Gate("air", 2, tuple(Event(f"fan {i}", 0.03) for i in (1, 2, 3)))
    return series("machine", [parallel("power", supplies), fans, Event("board", 0.005)])


def redundant_paths() -> Tree:
    """Two paths that share two events in a different order."""
    a, b, c, d = (
        Event(name, odds) for name, odds in zip("abcd", (0.1, 0.2, 0.3, 0.4), strict=True)
    )
    return parallel("both", [series("one", [a, parallel("x", [b, c])]), series("two", [b, c, d])])


TREES = {"theatre": THEATRE, "common cause": common_cause(), "paths": redundant_paths()}

PROGRAM = Path(sys.executable).with_name("pfta")


@pytest.mark.skipif(not PROGRAM.exists(), reason="the outside program pfta is not installed")
@pytest.mark.parametrize("name", TREES)
def test_cut_sets_and_odds_of_an_outside_program(name: str, tmp_path: Path) -> None:
    """PFTA of PyPI, run as a program on the same tree: the same cut sets exactly, and the same
    exact odds; both sum a few dozen products, so twelve digits."""
    tree = TREES[name]
    odds, cut_sets = outside(tree, tmp_path)
    assert cut_sets == minimal_cut_sets(tree)
    assert exact_odds(tree) == pytest.approx(odds, rel=1e-12)


def outside(tree: Tree, folder: Path) -> tuple[float, frozenset[CutSet]]:
    """Run the outside program and return the odds of the top and its minimal cut sets."""
    names = {event: f"E{i}" for i, event in enumerate(events_of(tree), 1)}
    model = folder / "tree.txt"
    model.write_text("\n\n".join(written(tree, names)), encoding="utf-8")
    subprocess.run([PROGRAM, model], check=True, timeout=60, capture_output=True)
    tables = model.with_name("tree.txt.out")
    (top,) = [row for row in rows_of(tables / "gates.tsv") if row["is_top_gate"] == "True"]
    back = {code: event for event, code in names.items()}
    sets = [row["cut_set"].split(".") for row in rows_of(tables / "cut-sets" / f"{top['id']}.tsv")]
    cut_sets = frozenset(frozenset(back[code] for code in codes) for codes in sets)
    return float(top["computed_probability"]), cut_sets


def rows_of(table: Path) -> list[dict[str, str]]:
    with table.open(encoding="utf-8") as lines:
        return list(csv.DictReader(lines, delimiter="\t"))


def written(tree: Tree, names: dict[str, str]) -> Iterator[str]:
    """Write a tree as the outside program reads it; a vote becomes an OR of ANDs."""
    yield "- times: 1\n- time_unit: h"
    numbers = count(1)

    def gate(kind: str, inputs: Iterable[str]) -> str:
        name = f"G{next(numbers)}"
        blocks.append(f"Gate: {name}\n- type: {kind}\n- inputs: {', '.join(inputs)}")
        return name

    def reference(node: Tree) -> str:
        if isinstance(node, Event):
            return names[node.name]
        inputs = [reference(each) for each in node.inputs]
        if node.fails_at in (1, len(inputs)):
            return gate("OR" if node.fails_at == 1 else "AND", inputs)
        return gate("OR", [gate("AND", few) for few in combinations(inputs, node.fails_at)])

    blocks: list[str] = []
    reference(tree)
    yield from blocks
    for event, odds in events_of(tree).items():
        yield f"Event: {names[event]}\n- model_type: Fixed\n- probability: {odds}\n- intensity: 0"
