"""A loss on the desk: numbers of sizing, repairs, words, JSON and the drawing."""

from __future__ import annotations

import math
import shutil
from functools import cache
from pathlib import Path

import pytest

from baywright.desk.drawing import VIEW_NAMES
from baywright.desk.opening import Opened, open_book
from baywright.desk.service.losing import Loss, lose
from baywright.desk.service.losing_drawing import draw_loss, loss_marks
from baywright.desk.service.losing_json import loss_json
from baywright.desk.service.losing_telling import LossSheet, loss_sheet
from baywright.desk.service.things import thing_rows
from baywright.facts.cautions import CAUTIONS, PLANNING_AID
from baywright.facts.site import Site
from baywright.files.books import find_book
from baywright.problems import Problems
from tests.service.losing.graphs import graph, read
from tests.sizing.builds import EVERY, OTHERS, SETTLED


@cache
def opened(book: str) -> Opened:
    return open_book(OTHERS / book if book in SETTLED else book)


def lost(book: str, build: str, *things: str) -> Loss:
    return lose(opened(book), read(book, build), things)


def change(loss: Loss, name: str) -> tuple[float, float]:
    (found,) = [each for each in loss.changes if each.name == name]
    return found.before, found.after


def words(told: LossSheet) -> str:
    parts = [told.title, told.lost, told.word]
    for part in told.parts:
        parts += [part.title, *(line.says for line in part.lines), *part.sentences]
        parts += [cell for row in (part.table.rows if part.table else ()) for cell in row]
    return "\n".join(parts)


# --- numbers -------------------------------------------------------------------------------


def test_bandwidth_with_a_module_gone() -> None:
    """N4: 8 channels of 44.8 GB/s at either processor, 716.8 GB/s. With one module fewer 15
    channels hold anything, 672 GB/s; the channels of processor 1 still hold the same."""
    loss = lost("f2", "n4", "M1.c1")
    assert change(loss, "bandwidth of memory") == pytest.approx((716.8, 672.0))
    assert change(loss, "bandwidth over all of memory") == pytest.approx((716.8, 672.0))
    assert loss.lost.stops
    assert loss.lost.starts
    said = words(loss_sheet(loss))
    assert (
        "Memory of processor 1 is left with 7 modules; the book allows 1, 2, 4, 6, 8, 12 or" in said
    )
    assert "channels cannot be paired" in said


def test_an_uneven_channel_slows_all_of_memory() -> None:
    """N2: two modules on each of 8 channels, 4,800 MT/s, so 38.4 GB/s a channel. One module gone
    of processor 1 leaves 7.5 channels' worth at the fullest: 288 of 307.2 GB/s."""
    loss = lost("f2", "n2", "M1.a2")
    assert change(loss, "bandwidth of memory") == pytest.approx((614.4, 614.4))
    assert change(loss, "bandwidth over all of memory") == pytest.approx((614.4, 595.2))


def test_the_supply_that_is_left_carries_all() -> None:
    """N2 draws 1,328 W at peak (45 + 2 x 300 / 0.9 + 32 x 9 + 8 x 20 + 2 x 18 + 6 x 22 = 1,327.7):
    half on each of two supplies, then all on one of 2,000 W."""
    loss = lost("f2", "n2", "PS.1")
    assert change(loss, "load of each supply that is fed") == pytest.approx(
        (663.83, 1327.67), abs=0.01
    )
    before, after = change(loss, "current of this machine in feed A")
    assert (before > 0, after) == (True, 0.0)
    before, after = change(loss, "current of this machine in feed B")
    # 1,327.7 W at 66.4 % of the rating, efficiency between .95 and .92, power factor .98, 230 V.
    assert 1327.67 / 0.95 / 0.98 / 230 < after < 1327.67 / 0.92 / 0.98 / 230


def test_a_supply_that_is_asked_too_much_is_said_to_be() -> None:
    loss = lost("f2", "n4", "PS.2")
    (load,) = [each for each in loss.changes if each.name.startswith("load of each")]
    assert load.over
    assert (load.after, load.bound) == (1159.0, 1000.0)
    assert "which is passed" in words(loss_sheet(loss))


# --- repairs -------------------------------------------------------------------------------


def test_a_processor_takes_a_stop_a_wait_and_a_start() -> None:
    """Stop 12 min, heat sink 5 min, work 8 min, start 10 min."""
    (repair,) = lost("f2", "n4", "P2").repairs
    assert (repair.running, repair.minutes) == (False, 35.0)
    assert {"several-cords", "hot-surface", "static"} <= set(repair.cautions)


def test_a_drive_is_changed_while_it_runs_and_rebuilt() -> None:
    """2.4 TB at 255 MB/s are 9,412 s, that is 2.6 h."""
    (repair,) = lost("f2", "n4", "A.1").repairs
    assert (repair.running, repair.minutes) == (True, 1.0)
    assert "rebuild" in repair.cautions
    assert repair.follows[0].startswith("Its array is rebuilt in 2.6 h")


def test_a_time_that_the_book_lacks_is_named() -> None:
    (repair,) = lost("f2", "n4", "board").repairs
    assert math.isnan(repair.minutes)
    assert repair.missing == ("service.work.board.time",)


# --- words ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("book", "build"), EVERY)
def test_every_single_loss_of_every_build_can_be_told(book: str, build: str) -> None:
    kinds = {thing.kind: thing.id for thing in graph(book, build).things}
    # What others wrote leaves facts unknown, so that each answer is many; one will do.
    few = 1 if book in SETTLED else len(kinds)
    for thing in list(kinds.values())[-few:]:
        loss = lost(book, build, thing)
        told = loss_sheet(loss)
        assert told.aid == PLANNING_AID
        assert told.parts
        assert "nan" not in words(told).split()
        assert loss_json(loss)["lost"] == [thing]


def test_cautions_come_before_the_repairs_they_belong_to() -> None:
    told = loss_sheet(lost("f2", "n4", "R3b"))
    (part,) = [part for part in told.parts if part.title.startswith("After repair")]
    assert {CAUTIONS["stored-energy"], CAUTIONS["static"], CAUTIONS["several-cords"]} <= set(
        part.cautions
    )
    assert CAUTIONS["rebuild"] in told.cautions
    assert CAUTIONS["redundancy"] in told.cautions


def test_what_goes_with_the_machine_is_said_once() -> None:
    told = loss_sheet(lost("f2", "n4", "feed"))
    assert told.word == "The machine stops and does not start again before a repair."
    (part,) = [part for part in told.parts if part.title.startswith("Gone with the machine")]
    assert "any network connection" in part.sentences[0]
    assert CAUTIONS["overloaded-circuit"] in told.cautions


def test_without_a_loss_the_single_points_and_pairs_are_shown() -> None:
    told = loss_sheet(lost("f2", "n2"))
    titles = [part.title for part in told.parts]
    assert titles[-2:] == ["Single points", "Pairs of which neither is a single point"]
    assert "M1.a1 to M1.h2 (16 things)" in words(told)
    assert "feed.A, PS.1 and PS.1.cord + feed.B, PS.2 and PS.2.cord" in words(told)


def test_what_unknown_facts_change_is_said_for_each_way(tmp_path: Path) -> None:
    """A supply that may carry 1,000 or 1,200 W at 120 V: with the loss of one the record office's
    1,159 W stop, or run on."""
    folder = Path(shutil.copytree(find_book("f2"), tmp_path / "f2"))
    parts = folder / "parts.yaml"
    text = parts.read_text("utf-8")
    unknown = text.replace(
        "name: 1300 W supply\n    ratings:\n      low: {value: 1000 W, source: power-sheet}",
        "name: 1300 W supply\n    ratings:\n      low: {could_be: [1000 W, 1200 W]}",
    )
    assert unknown != text
    parts.write_text(unknown, "utf-8")
    loss = lose(open_book(folder), read("f2", "n4"), ["PS.1"])
    stops, runs = loss.outcomes
    assert stops.given == {"parts.ps-1300.ratings.low": "1000 W"}
    assert "The machine stops." in stops.sentences
    assert "The machine stops." not in runs.sentences
    assert "If parts.ps-1300.ratings.low is 1200 W:" in words(loss_sheet(loss))


def test_another_site_counts_in_place_of_that_of_the_build() -> None:
    high = Site.model_validate({"voltage": "230 V"})
    loss = lose(opened("f2"), read("f2", "n4"), ["PS.1"], high)
    assert not loss.lost.stops
    assert any("site.workload.failures" in each.depends for each in loss.graph.opens)


def test_an_unknown_thing_is_a_problem() -> None:
    with pytest.raises(Problems, match="Nothing in this build is called 'P9'"):
        lost("f2", "n4", "P9")


def test_a_list_of_everything_that_can_be_lost() -> None:
    rows = thing_rows(lost("f2", "n4").graph).rows
    assert ("R3b", "controller", "controller C16 in slot R3b") in rows
    assert ("A.cable", "cable", "cable from zone A to its controller") in rows


# --- the drawing ---------------------------------------------------------------------------


def test_what_is_lost_and_what_is_behind_it_is_marked() -> None:
    marks = loss_marks(lost("f2", "n4", "P2"))
    assert "P2=cannot: lost" in marks
    assert "R3b=if: out of reach" in marks
    assert "C.1=if: out of reach" in marks
    assert "M2.a1=if: out of reach" in marks
    assert not any(mark.startswith(("A", "P1", "M1", "R1b")) for mark in marks)


def test_a_cage_hides_the_marks_of_its_drives() -> None:
    assert loss_marks(lost("f2", "n4", "A")) == ("A=cannot: lost",)


@pytest.mark.parametrize("view", VIEW_NAMES)
def test_every_view_can_show_a_loss(view: str) -> None:
    assert "<svg" in draw_loss(lost("l4", "n3", "feed A", "X1", "E.1"), view)


def test_the_words_stand_on_the_drawing() -> None:
    svg = draw_loss(lost("f2", "n4", "P2"), "inside")
    assert "lost" in svg
    assert "out of reach" in svg
