"""Tables about the power of one build."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from baywright.sizing.amounts import amount, conditions
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats
from baywright.sizing.figure import Listing
from baywright.sizing.power.circuits import feed_current, inrush, leakage
from baywright.sizing.power.draw import STATES, draw, part_draw, total_draw
from baywright.sizing.power.flow import current_of_one
from baywright.sizing.power.phases import dealt, neutral_current
from baywright.sizing.power.scene import Scene
from baywright.sizing.power.sharing import carried, left_over

MOST_HOSTS = 24
"""Rows of the table of phases at most."""


def listings(case: Case) -> Iterator[Listing]:
    """Yield the tables of one build: draw by part, losses, feeds, and hosts on three phases."""
    scene = Scene(case)
    yield _draws(case)
    yield _losses(scene)
    if scene.circuits:
        yield _feeds(scene)
    yield from _phases(scene)


def _draws(case: Case) -> Listing:
    book = case.book
    rows = [("base", "1", *(_cell(_base(case, state), "W") for state in STATES))]
    for name in case.fitted:
        part = book.parts[name]
        count = _first(_counted(case, name))
        each = [part_draw(book, part, state) for state in STATES]
        if any(watts != 0 for watts in each):
            rows.append((part.name, f"{count:g}", *(_cell(count * watts, "W") for watts in each)))
    rows.append(("together", "", *(_cell(draw(case, state), "W") for state in STATES)))
    header = ("part", "number", *(f"{state} [W]" for state in STATES))
    return Listing("power.draws", "Draw behind the supplies", header, tuple(rows), by=total_draw)


def _counted(case: Case, wanted: str) -> Floats:
    return case.weighed(lambda name, _: name == wanted)


def _base(case: Case, state: str) -> float:
    power = case.book.power
    return amount(
        {"idle": power.base_idle, "typical": power.base_typical, "peak": power.base}[state], "W"
    )


def _losses(scene: Scene) -> Listing:
    """List what is left after the loss of no supply, one, and so on."""
    bays = scene.bays
    fitted = 0 if np.isnan(_first(bays.count)) else int(_first(bays.count))
    rows = []
    for lost in range(fitted):
        active = np.subtract(bays.count, lost)
        carries = carried(bays.rating, active)
        left = left_over(carries, scene.load)
        still = np.minimum(scene.load, carries)
        amps = current_of_one(bays, still, active, scene.case.around.volts)
        cells = (_cell(carries, "W"), _cell(left, "W"), _cell(amps, "A"))
        rows.append((str(lost), *cells, _outcome(_first(left))))
    header = ("supplies lost", "carried [W]", "left [W]", "each inlet [A]", "the machine")
    title = "What is left when supplies fail"
    return Listing(
        "power.losses", title, header, tuple(rows), conditions(scene.case, "At peak"), left_over
    )


def _outcome(left: float) -> str:
    if np.isnan(left):
        return "not decided"
    return "runs" if left >= 0 else f"goes off unless it sheds {-left:,.0f} W"


def _feeds(scene: Scene) -> Listing:
    bays = scene.bays
    surge = bays.of_strongest(amount(model.supply.inrush, "A") for model in bays.models)
    earth = bays.of_strongest(amount(model.supply.leakage, "mA") for model in bays.models)
    rows = tuple(
        (
            circuit.name,
            _cell(circuit.supplies, ""),
            _cell(circuit.now, "A"),
            _cell(circuit.lost, "A"),
            _cell(circuit.usable, "A"),
            _cell(inrush(surge, circuit.supplies), "A"),
            _cell(leakage(earth, circuit.supplies), "mA"),
        )
        for circuit in scene.circuits
    )
    header = (
        "feed",
        "supplies",
        "all feeds [A]",
        "another lost [A]",
        "usable [A]",
        "inrush [A]",
        "to earth [mA]",
    )
    note = conditions(scene.case, "One host at peak")
    return Listing("power.feeds", "Feeds", header, rows, note, feed_current)


def _phases(scene: Scene) -> Iterator[Listing]:
    """List line and neutral currents as hosts are dealt out over the phases of each feed."""
    for circuit in scene.circuits:
        each = _first(circuit.lost)
        if circuit.phases == 3 and not np.isnan(each):
            rows = tuple(_phase_rows(each, _first(circuit.usable)))
            header = ("hosts", "line 1 [A]", "line 2 [A]", "line 3 [A]", "neutral [A]", "fits")
            note = conditions(scene.case, "At peak, another feed lost") + (
                "; sinusoidal currents, harmonics add in the neutral"
            )
            title = f"Hosts on the phases of feed {circuit.name}"
            key = f"power.phases.{circuit.name}"
            yield Listing(key, title, header, rows, note, neutral_current)


def _phase_rows(each: float, usable: float) -> Iterable[tuple[str, ...]]:
    """Yield a row for each number of hosts, up to the first that does not fit."""
    for hosts in range(1, MOST_HOSTS + 1):
        lines = [float(count) * each for count in dealt(float(hosts))]
        neutral = float(neutral_current(*lines))
        fits = "not decided" if np.isnan(usable) else "yes" if max(lines) <= usable else "no"
        yield (str(hosts), *(f"{amps:.2f}" for amps in (*lines, neutral)), fits)
        if fits != "yes" and hosts >= 3:
            return


def _first(values: Floats) -> float:
    return float(np.ravel(values)[0])


def _cell(values: Floats, unit: str) -> str:
    number = _first(values)
    digits = {"A": 2, "mA": 2, "W": 1}.get(unit, 0)
    return "not decided" if np.isnan(number) else f"{number:,.{digits}f}"
