from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from baywright.desk.capture.missing import Gap, missing
from baywright.desk.capture.probing import case_for, covering, full_site
from baywright.desk.opening import Opened, open_book
from baywright.files.books import bundled_books
from baywright.laws.builds import parts_list
from baywright.sizing.registry import SUBJECTS
from tests.files.example import write_example

REED = Path(__file__).parents[2] / "books_by_others" / "r0"


def gaps(opened: Opened, key: str) -> list[Gap]:
    return [gap for each in missing(opened) if each.key == key for gap in each.gaps]


def test_a_fact_left_out_is_missing_and_its_figures_are_named() -> None:
    (hold_up,) = (gap for gap in gaps(open_book(REED), "power") if gap.field == "hold_up")
    assert hold_up.entries == ("parts.ps-30",)
    assert hold_up.questions == ("time without input",)


def test_laws_name_the_amounts_they_look_for_in_vain() -> None:
    by_field = {gap.field: gap for gap in gaps(open_book(REED), "laws")}
    assert by_field["price"].entries == ("parts.cpu-4", "parts.fan")
    assert by_field["mass"].questions == ("laws of parts (price, mass)",)
    # What the format has a standard for, and what is no amount, is no gap.
    assert not {"identical", "positions", "at_most", "ships", "always"} & set(by_field)


def test_facts_that_could_be_several_are_named_with_their_values(tmp_path: Path) -> None:
    (gap,) = gaps(open_book(write_example(tmp_path)), "unsettled")
    assert (gap.entries, gap.values) == (("parts.S2.price",), ("70 FLO", "80 FLO"))


def test_stating_a_fact_takes_its_gap_away(tmp_path: Path) -> None:
    folder = write_example(tmp_path)
    asked = {gap.field for gap in gaps(open_book(folder), "power")}
    assert "hold_up" in asked
    parts = folder / "parts.yaml"
    name = "name: 400 W supply"
    parts.write_text(parts.read_text("utf-8").replace(name, f"{name}\n    hold_up: 9 ms"), "utf-8")
    assert {gap.field for gap in gaps(open_book(folder), "power")} == asked - {"hold_up"}


@pytest.mark.parametrize("name", bundled_books())
def test_builds_that_probe_have_every_part_that_can_be_fitted(name: str) -> None:
    opened = open_book(name)
    machine = opened.machine
    seen = {part for build in covering(opened, machine) for part in parts_list(machine, build)}
    # Blanks close what is empty and are in no place of their own; the rest is in some build.
    left = set(opened.book.parts) - seen
    closing = {place.blank for place in opened.book.places.values() if place.blank}
    closing |= {str(getattr(part, "blank", "")) for part in opened.book.parts.values()}
    assert left <= closing


def test_the_site_that_probes_leaves_little_open() -> None:
    opened = open_book("f2")
    case = case_for(opened.machine, covering(opened, opened.machine), full_site(opened.book))
    open_of_site = {
        path
        for subject in SUBJECTS
        for figure in subject.sheet(case).figures
        if np.isnan(figure.values).any()
        for path in figure.missing
        if path.startswith("site.")
    }
    assert open_of_site == {"site.rack.lift_bands", "site.day"}  # lists, which change no gap
