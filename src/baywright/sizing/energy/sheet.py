"""Energy: what batteries, meters and the regulation say of builds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baywright.sizing.amounts import conditions
from baywright.sizing.case import Case
from baywright.sizing.energy import backup, compliance, year
from baywright.sizing.energy.grades import (
    GRADES,
    HIGHEST_VOLTAGE,
    LOWEST_VOLTAGE,
    grade_reached,
)
from baywright.sizing.energy.intake import intake_of
from baywright.sizing.figure import Listing, Sheet
from baywright.sizing.power.bays import Bays, bays_of
from baywright.sizing.subject import Subject


def sheet(case: Case) -> Sheet:
    """Return the figures and limits of energy.

    Args:
        case: the builds.
    """
    idle, peak = intake_of(case, "idle"), intake_of(case, "peak")
    ups = case.site.ups
    figures = list(year.figures(case, idle, peak))
    limits = list(compliance.limits(case, idle))
    if ups is not None:
        figures.extend(backup.figures(case, ups, peak))
        limits.extend(backup.limits(case, ups, peak))
    cautions = ("estimate", "stored-energy") if ups is not None else ("estimate",)
    return Sheet(tuple(figures), tuple(limits), cautions)


def listings(case: Case) -> Iterable[Listing]:
    """Return the tables about one build.

    Args:
        case: one build.
    """
    idle = intake_of(case, "idle")
    return (
        *year.day_listing(case),
        *year.supply_listing(case),
        *compliance.idle_listing(case, idle),
        *_grades(case),
    )


def _grades(case: Case) -> Iterator[Listing]:
    rows = tuple(_grade_row(case, bays_of(case)))
    if rows:
        loads = (0.1, 0.2, 0.5, 1.0)
        header = ("supply", *(f"{load * 100:g} %" for load in loads), "numbers reach")
        table = (
            (f"row {grade.name}", *(_percent(grade.least.get(load)) for load in loads), "")
            for grade in GRADES
        )
        yield Listing(
            "energy.grades",
            "Efficiency beside the 80 PLUS rows for 230 V internal redundant supplies",
            header,
            (*rows, *table),
            f"A comparison of the numbers in the book, not a certificate; {conditions(case)}.",
            grade_reached,
        )


def _grade_row(case: Case, bays: Bays) -> Iterator[tuple[str, ...]]:
    volts = case.around.volts
    on_line = volts is not None and bool(LOWEST_VOLTAGE <= volts <= HIGHEST_VOLTAGE)
    for model in bays.models:
        curve = compliance.stated_curve(model)
        if curve and compliance.on_alternating_current(case, model):
            reached = grade_reached(curve) or "none of them"
            points = (_percent(curve.get(load)) for load in (0.1, 0.2, 0.5, 1.0))
            said = reached if on_line else "not decided: the rows are for 200 to 240 V"
            yield (model.supply.name, *points, said)


def _percent(share: float | None) -> str:
    return "" if share is None else f"{share * 100:.4g} %"


SUBJECT = Subject("energy", "Energy", sheet, listings)
