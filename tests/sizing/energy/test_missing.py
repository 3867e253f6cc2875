"""What a book or a site does not say of energy is not decided, and it is named."""

from __future__ import annotations

import numpy as np
import pytest

from baywright.facts.site import Site
from baywright.sizing.case import Case
from baywright.sizing.energy.sheet import listings, sheet
from tests.sizing.builds import EVERY, case_by_others, figures_in, limits_in
from tests.sizing.cases import case_of


def read(book: str, build: str) -> Case:
    return (case_by_others if book in ("t4", "r0") else case_of)(book, build)


@pytest.mark.parametrize(("book", "build"), EVERY)
@pytest.mark.parametrize("volts", ["stated", None, 5000.0])
def test_what_is_not_decided_says_why(book: str, build: str, volts: float | str | None) -> None:
    case = read(book, build)
    if not isinstance(volts, str):
        case = case.amid(case.around.changed("volts", volts))  # type: ignore[arg-type]
    found = sheet(case)
    figures = {**figures_in(found), **{k: lim.figure for k, lim in limits_in(found).items()}}
    for key, figure in figures.items():
        assert key.startswith("energy.")
        if np.isnan(figure.values).any():
            assert figure.missing or figure.outside, key
        else:
            assert not (figure.missing or figure.outside) or key == "energy.idle", key
    assert all(limit.breaks.endswith(".") and not limit.legal for limit in found.limits)
    list(listings(case))


def test_an_idle_limit_without_performance_is_not_decided() -> None:
    limit = limits_in(sheet(case_by_others("r0", "pump")))["energy.idle"]
    assert np.isnan(limit.bound).all()
    assert "parts.cpu-4.performance" in limit.figure.missing


def test_four_sockets_have_no_row() -> None:
    limit = limits_in(sheet(case_by_others("t4", "big")))["energy.idle"]
    assert np.isnan(limit.bound)
    assert "one and two processor sockets" in limit.figure.outside


def test_active_efficiency_needs_a_measurement() -> None:
    figure = limits_in(sheet(case_of("f2", "n2")))["energy.active"].figure
    assert figure.missing == ("results of the active efficiency tests of this build",)


def test_a_battery_that_nobody_described_is_not_decided() -> None:
    site = Site.model_validate({"voltage": "230 V", "ups": {"to_load": "90 %"}})
    figures = figures_in(sheet(case_of("p1", "n1", site=site)))
    assert figures["energy.ride-through"].missing == ("site.ups.energy", "site.ups.aged")
    assert figures["energy.battery-needed"].missing == (
        "site.ups.ride_through",
        "site.ups.aged",
    )


def test_an_exponent_below_one_is_outside_the_law() -> None:
    ups = {"energy": "48 Wh", "to_load": "90 %", "aged": "80 %", "ride_through": "10 min"}
    raw = {"voltage": "230 V", "ups": {**ups, "peukert": "0.9", "rated_time": "20 h"}}
    figures = figures_in(sheet(case_of("p1", "n1", site=Site.model_validate(raw))))
    for key in ("energy.ride-through", "energy.battery-needed"):
        assert np.isnan(figures[key].values).all()
        assert figures[key].outside == "a Peukert exponent is 1 or more"


def test_a_site_without_battery_has_no_figure_of_one() -> None:
    found = figures_in(sheet(case_of("f2", "n4")))
    assert set(found) == {"energy.year", "energy.cost"}
    assert found["energy.cost"].missing == ("site.day", "site.tariff")
