"""Two builds side by side, and the like of a build in another book."""

from __future__ import annotations

from pathlib import Path

import pytest

from baywright.desk.compare.asking import Asked, compared
from baywright.desk.compare.like import Like
from baywright.desk.compare.rows import Comparison
from baywright.desk.request import Request
from baywright.files.books import bundled_books
from baywright.problems import Problems
from baywright.space import broken

OWNED = bundled_books()["f1"] / "builds" / "n5-owned.yaml"
MORE = """\
book: f1
name: with more drives
site: {voltage: 230 V}
places:
  P1: cpu-16
  P2: empty
  M1: 12 x dimm-16
  M2: empty
  A: {cage: S8, drives: 4 x sas-2400, controller: R1b}
  B: blank
  R1a: accel-sw
  R1b: S8i
  R2a: empty
  O1: net-10
  PS: 2 x ps-1100
  F: 4 x fan
settings: {management: shared, system: reedbed_8}
"""


def _comparison(book: str, first: Path, second: Path | str = "") -> Comparison:
    found = compared(book, Asked(str(first), str(second)), Request())
    return found.comparison if isinstance(found, Like) else found


def _words(found: Comparison, group: str) -> dict[str, str]:
    return {row.what: row.word for row in found.rows if row.group == group}


@pytest.fixture
def more(tmp_path: Path) -> Path:
    path = tmp_path / "more.yaml"
    path.write_text(MORE, encoding="utf-8")
    return path


def test_a_build_is_the_same_as_itself() -> None:
    found = _comparison("f1", OWNED, OWNED)
    assert {row.word for row in found.rows} == {"same"}


def test_each_part_has_its_word(more: Path) -> None:
    parts = _words(_comparison("f1", OWNED, more), "Parts")
    # From the demo scenario: N5 owns 6 modules of 16 GB, 5 drives of 1.2 TB and 750 W supplies.
    assert parts["16 GB module (dimm-16)"] == "more"
    assert parts["1.2 TB SAS drive (sas-1200)"] == "gone"
    assert parts["2.4 TB SAS drive (sas-2400)"] == "new"
    assert parts["single-wide accelerator (accel-sw)"] == "new"
    assert parts["750 W supply (ps-750)"] == "gone"
    assert parts["blank for an empty bay (blank-bay)"] == "more"
    assert parts["controller S8i (S8i)"] == "same"


def test_the_other_way_round_the_words_turn(more: Path) -> None:
    turned = {"gone": "new", "new": "gone", "more": "less", "less": "more"}
    there, back = _comparison("f1", OWNED, more), _comparison("f1", more, OWNED)
    words = {(row.group, row.what): row.word for row in back.rows}
    assert words == {(row.group, row.what): turned.get(row.word, row.word) for row in there.rows}


def test_what_holds_only_on_one_line_says_so(tmp_path: Path) -> None:
    # From the demo scenario: N4 draws 1,159 W, and one 1300 W supply gives 1,300 W at high line
    # and 1,000 W at low line; so it is redundant at 230 V, and otherwise only if the line is high.
    asked = (bundled_books()["f2"] / "builds" / "n4.yaml").read_text(encoding="utf-8")
    text = asked.replace("must: [supplies_redundant]", "")
    stated, left_open = tmp_path / "stated.yaml", tmp_path / "open.yaml"
    stated.write_text(text.replace("voltage: 120 V", "voltage: 230 V"), encoding="utf-8")
    left_open.write_text(text.replace("  voltage: 120 V\n", ""), encoding="utf-8")
    rows = _comparison("f2", stated, left_open).rows
    row = next(each for each in rows if each.what == "the supplies are redundant")
    assert (row.first, row.word) == ("yes", "less")
    assert row.second == "only if the input power is high line"


def test_a_build_that_cannot_be_built_is_a_problem() -> None:
    wanted = OWNED.with_name("n5-wanted.yaml")
    with pytest.raises(Problems, match="cannot be built"):
        _comparison("f1", OWNED, wanted)


def test_one_build_alone_is_nothing_to_compare() -> None:
    with pytest.raises(Problems, match="no book"):
        _comparison("f1", OWNED)


def test_the_like_of_a_build_keeps_each_part_or_says_that_it_is_left() -> None:
    found = compared("f1", Asked(str(OWNED), to="f2"), Request())
    assert isinstance(found, Like)
    steps = {(s.kind, s.count, s.instead_of, s.part) for s in found.repair.steps}
    # One processor, 6 x 16 GB, 5 drives of 1.2 TB, a cage, a controller, the network module and
    # two supplies: each has a like, the supplies the next larger ones.
    assert steps == {
        ("swap", 1, "cpu-16", "cpu-16"),
        ("swap", 6, "dimm-16", "dimm-16"),
        ("swap", 5, "sas-1200", "sas-1200"),
        ("swap", 1, "S8", "S8"),
        ("swap", 1, "S8i", "C16"),
        ("swap", 1, "net-10", "net-25"),
        ("swap", 2, "ps-750", "ps-800"),
    }
    machine = found.asked.machine
    assert not broken(machine.space, found.repair.witness.values)


def test_nothing_of_the_first_is_left_out_of_a_like() -> None:
    found = compared("f1", Asked(str(OWNED), to="f2"), Request())
    assert isinstance(found, Like)
    assert found.first.shown is not None
    told = {step.instead_of or step.part for step in found.repair.steps}
    kept = {"fan"}  # follows from the build there, as kits do
    assert set(found.first.shown.parts) <= told | kept
    rows = {row.what for row in found.comparison.rows if row.group == "Parts" and row.first}
    assert len(rows) >= len(found.first.shown.parts)


def test_what_is_smaller_there_is_less() -> None:
    found = compared(
        "f2", Asked(str(bundled_books()["f2"] / "builds" / "n2.yaml"), to="p1"), Request()
    )
    assert isinstance(found, Like)
    numbers = _words(found.comparison, "Numbers")
    assert numbers["memory"] == "less"
    assert numbers["number of cores"] == "less"
    removed = {step.part for step in found.repair.steps if step.kind == "remove"}
    assert {"cpu-48", "dimm-64"} <= removed
