"""What a book or a site does not say of availability is not decided, and it is named."""

from __future__ import annotations

import numpy as np
import pytest

from baywright.facts.site import Site
from baywright.sizing.availability.sheet import listings, sheet
from baywright.sizing.case import Case
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
    for key, figure in figures_in(found).items():
        assert key.startswith("availability.")
        if np.isnan(figure.values).any():
            assert figure.missing or figure.outside, key
    assert all(limit.breaks.endswith(".") and not limit.legal for limit in found.limits)
    list(listings(case))


def test_without_a_repair_time_down_time_is_not_decided() -> None:
    figures = figures_in(sheet(case_of("l4", "n3")))
    assert figures["availability.down-time"].missing == ("site.upkeep.repair",)
    assert figures["availability.year"].missing == ()


def test_without_rates_of_feeds_and_network_the_service_is_not_decided() -> None:
    figure = figures_in(sheet(case_of("f2", "n4")))["availability.service-down-time"]
    assert figure.missing == (
        "site.upkeep.feed_failure_rate",
        "site.upkeep.network_failure_rate",
    )


def test_without_failures_to_survive_data_is_not_decided() -> None:
    figure = figures_in(sheet(case_of("f2", "n2")))["availability.service-down-time"]
    assert "site.workload.failures" in figure.missing
    (pairs,) = [each for each in listings(case_of("f2", "n2")) if each.key.endswith("pairs")]
    assert "Drives are not counted: site.workload.failures is not stated." in pairs.note


def test_without_a_voltage_nothing_is_said_of_supplies() -> None:
    case = case_of("f2", "n4", volts=None)
    for key in ("down-time", "year", "supplies", "single-points"):
        figure = figures_in(sheet(case))[f"availability.{key}"]
        assert np.isnan(figure.values).all(), key
        assert "site.voltage" in figure.missing
    assert list(listings(case)) == []


def test_a_part_without_a_rate_is_named() -> None:
    figure = figures_in(sheet(case_by_others("r0", "pump")))["availability.year"]
    assert "parts.cpu-4.failure_rate" in figure.missing
    assert "chassis.failure_rate" in figure.missing


def test_nobody_keeps_spares_unless_the_site_says_so() -> None:
    assert "availability.spares" not in figures_in(sheet(case_of("f2", "n4")))
    assert limits_in(sheet(case_of("f2", "n4"))) == {}


@pytest.mark.parametrize("lacks", ["lead_time", "service_level"])
def test_a_stock_without_a_time_or_a_level_is_not_decided(lacks: str) -> None:
    upkeep = {"machines": "140", "lead_time": "14 d", "service_level": "99 %"}
    del upkeep[lacks]
    site = Site.model_validate({"voltage": "230 V", "upkeep": upkeep})
    figures = figures_in(sheet(case_of("p1", "n1", site=site)))
    for key in ("availability.spares", "availability.spares-price"):
        assert np.isnan(figures[key].values).all()
        assert figures[key].missing == (f"site.upkeep.{lacks}",)
