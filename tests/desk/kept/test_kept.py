"""The question desk: kept, found again in other words, held against changed books, corrected."""

from __future__ import annotations

import datetime
import json
import shutil
import time
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from baywright.desk.changes.answers import recorded
from baywright.desk.changes.versions import change
from baywright.desk.changes.watched import Versions, Watched
from baywright.desk.kept.asking import answer, before, of_book
from baywright.desk.kept.desk import again, corrected, left_open, most_asked
from baywright.desk.kept.entry import Entry
from baywright.desk.kept.file import add_kept, read_kept
from baywright.desk.kept.telling import left_aside
from baywright.desk.opening import Opened, open_book
from baywright.desk.request import Request
from baywright.desk.statements.query import Query
from baywright.desk.statements.seals import Sealer
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.stating import state
from baywright.problems import Problems

NOON = datetime.datetime(2031, 7, 1, 12, tzinfo=datetime.UTC)
LINE = "most(load, given=supplies_redundant and voltage == 120 V)"


@cache
def f2() -> Opened:
    return open_book("f2")


@cache
def entry(question: str, by: str = "") -> Entry:
    return answer(f2(), question, by, NOON)


def test_an_answer_comes_back_from_its_file_as_it_was(tmp_path: Path) -> None:
    file = tmp_path / "answers.jsonl"
    assert read_kept(file) == ()
    kept = [entry("most(memory)", "Tern Vale"), entry("When does F2 ship?"), entry(LINE)]
    for each in kept:
        add_kept(file, each)
    assert [each.as_json() for each in read_kept(file)] == [each.as_json() for each in kept]


def test_a_line_that_is_no_answer_is_named(tmp_path: Path) -> None:
    file = tmp_path / "answers.jsonl"
    add_kept(file, entry("most(memory)"))
    file.write_text(file.read_text() + '{"asked": "half an ans', encoding="utf-8")
    with pytest.raises(Problems) as found:
        read_kept(file)
    (problem,) = found.value.problems
    assert (problem.kind, problem.mark and problem.mark.line) == ("not-an-answer", 2)


def test_a_file_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    with pytest.raises(Problems) as found:
        add_kept(tmp_path / "nowhere" / "answers.jsonl", entry("most(memory)"))
    assert found.value.problems[0].kind == "not-written"


def test_answers_about_another_book_are_left_aside(tmp_path: Path) -> None:
    file = tmp_path / "answers.jsonl"
    mine = entry("most(memory)")
    untold = replace(mine, book="")
    for each in (mine, replace(mine, book="p1"), untold):
        add_kept(file, each)
    assert of_book(read_kept(file), "f2") == (mine, untold)
    assert left_aside(1) == "1 answer of the file is about other books and left aside."


def test_a_line_that_names_no_book_is_read(tmp_path: Path) -> None:
    file = tmp_path / "answers.jsonl"
    line = {key: value for key, value in entry("most(memory)").as_json().items() if key != "book"}
    file.write_text(json.dumps(line) + "\n", encoding="utf-8")
    assert read_kept(file)[0].book == ""


def test_the_same_question_in_other_words_is_found() -> None:
    asked = entry("How much memory at most?")
    found = list(before([entry("most(memory)"), entry(LINE)], asked))
    assert [(each.entry.asked, each.same) for each in found] == [("most(memory)", True)]


def test_terms_in_another_order_ask_the_same() -> None:
    one = entry('count(drive, interface="fast") == 24 and O2 == "net-25"')
    other = entry('O2 == "net-25" and count(drive, interface="fast") == 24')
    (found,) = before([one], other)
    assert found.same


def test_near_words_are_said_to_be_near_only() -> None:
    (found,) = before([entry("How much memory at most?")], entry("How much memory at least?"))
    assert not found.same


def test_what_is_asked_most_comes_first() -> None:
    kept = [entry(LINE), entry("most(memory)", "a"), entry("How much memory at most?", "b")]
    first, second = most_asked(kept)
    assert (first.times, first.by, second.times) == (2, ("a", "b"), 1)


def test_a_change_flips_what_hangs_on_it_and_no_more() -> None:
    """CN-3: one 1300 W supply carries 1,100 W at 120 V instead of 1,000 W."""
    kept = [entry("most(memory)"), entry(LINE), entry("When does F2 ship?")]
    with change("f2", "cn-3", Request()) as asked:
        pairs = again(asked.new, kept)
    assert [pair.flips for pair in pairs] == [False, True, False]
    assert not pairs[0].anew
    assert "1,100 W" in pairs[1].after.words


def test_a_file_of_kept_answers_is_watched_while_a_book_changes(tmp_path: Path) -> None:
    file = tmp_path / "answers.jsonl"
    for each in (entry("most(memory)"), entry(LINE)):
        add_kept(file, each)
    with change("f2", "cn-3", Request()) as asked:
        versions = Versions(Shared(asked.old), Shared(asked.new))
        found = list(recorded(versions, Watched(statements=[file])))
    assert [(pair.name, pair.flips) for pair in found] == [("most(memory)", False), (LINE, True)]


def test_a_corrected_fact_names_the_answers_that_were_wrong() -> None:
    kept = [entry("most(memory)"), entry(LINE)]
    found = corrected(f2(), kept, "parts.ps-1300.ratings.low", "1100 W")
    assert [pair.name for pair in found.wrong] == [LINE]


def test_an_answer_whose_proof_names_the_fact_and_that_holds_is_listed_too() -> None:
    kept = [entry("most(memory)"), entry("always(fans >= 3)")]
    found = corrected(f2(), kept, "places.F.fitted.0.count", "5")
    assert (found.wrong, [pair.name for pair in found.still]) == ((), ["always(fans >= 3)"])


def test_what_stayed_open_names_the_facts_that_would_decide(tmp_path: Path) -> None:
    unknown = "parts.dimm-128.price"
    folder = tmp_path / "f2"
    _copy_with_unknown_price(folder)
    opened = open_book(folder)
    kept = [answer(opened, 'least(price, given=count("dimm-128") == 32)', "", NOON)]
    assert [(path, len(each)) for path, each in left_open(kept)] == [(unknown, 1)]
    assert left_open([entry("most(memory)")]) == ()


def test_a_thousand_answers_are_held_against_a_changed_fact_in_ten_seconds() -> None:
    """Our own processor time, with the questions varied so that no two are the same."""
    kept = _many(1000)
    with change("f2", "cn-3", Request()) as asked:
        start = time.process_time()
        pairs = again(asked.new, kept)
        spent = time.process_time() - start
    assert len({pair.name for pair in pairs}) == 1000
    assert sum(pair.flips for pair in pairs) >= 1
    assert spent < 10


def _many(number: int) -> list[Entry]:
    """Return different questions with their answers, from a few proven ones.

    Thresholds below a most, and above it, are answered by it; each gets a seal of its own.
    """
    shared = Shared(f2())
    sealer = Sealer(shared)
    asked = [f"memory >= {n} GB" for n in range(number // 2)]
    asked += [f"load <= {n} W" for n in range(number, number + number // 2 - 1)]
    statements = [state(shared, Query("cell", each)) for each in [*asked, LINE]]
    return [Entry(each.query.text, each, sealer.seal(each), "", NOON) for each in statements]


def _copy_with_unknown_price(folder: Path) -> None:
    shutil.copytree(f2().folder, folder)
    parts = folder / "parts.yaml"
    text = parts.read_text(encoding="utf-8")
    start = text.index("  dimm-128:")
    line = text.index("price: ", start)
    end = text.index("\n", line)
    parts.write_text(f"{text[:line]}price: {{could_be: [900 FLO, 1100 FLO]}}{text[end:]}", "utf-8")
