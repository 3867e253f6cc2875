"""Changes and kept answers in the workbench: the desk's own answers, kept with their proofs."""

from __future__ import annotations

import json
import re
import tempfile
import time
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from baywright.desk.kept.file import read_kept
from baywright.problems import Problems
from baywright.store import Store
from baywright.web.answers import kept_answers, kept_lines
from baywright.web.app import create_app
from baywright.web.comparing import Versions, compare
from baywright.web.settings import Settings
from tests.web.conftest import mark

NOTE = """\
title: A later day
date: 2031-07-02
says: The machine was announced later.
set:
  book.announced: 2031-03-01
"""


def _waited(client: TestClient, page: str) -> str:
    text = ""
    for _ in range(240):
        text = client.get(page).text
        if 'id="waiting"' not in text:
            return unescape(text)
        time.sleep(0.5)
    raise AssertionError(text)


def test_a_change_note_beside_the_book_says_what_flips(client: TestClient) -> None:
    text = _waited(client, "/changes/l4?note=cn-5")
    assert "1 thing flips" in text
    assert "2031-05-12 becomes 2031-04-14" in text
    assert "<b>2031-04-14. From 2031-04-14 until 2031-05-11 it ships.</b>" in text


def test_a_note_that_is_written_goes_into_the_address(client: TestClient) -> None:
    sent = client.post("/changes/p1", data={"mark": mark(client), "text": NOTE})
    assert sent.status_code == 303
    text = _waited(client, sent.headers["location"])
    assert "The machine was announced later." in text
    assert "book.announced: 2031-03-01" in text, "the note is in its field again"


@pytest.mark.parametrize(
    "asked",
    [
        Versions("p1"),
        Versions("p1", note="../../secret.yaml"),
        Versions("p1", revision="../x"),
        Versions("p1", revision="HEAD\0"),
        Versions("p1", revision="--help"),
        Versions("p1", note="cn-1", revision="HEAD"),
        Versions("p1", written="title: only"),
        Versions("p1", until="someday"),
    ],
)
def test_versions_that_cannot_be_had_are_problems(asked: Versions) -> None:
    with pytest.raises(Problems) as found:
        compare(asked, lambda _: None)
    assert tempfile.gettempdir() not in str(found.value)


def test_a_kept_answer_is_found_again_in_other_words(own: TestClient) -> None:
    first, again = _keep(own, "processors == 1"), _keep(own, "1 == processors")
    assert "Read as: processors == 1." in first
    assert "Near words" in again or "The same question before" in again
    assert "The same question before" in _keep(own, "processors == 1")
    assert "4 answers" not in own.get("/answers/p1").text
    assert "3 answers" in own.get("/answers/p1").text


def _keep(own: TestClient, question: str) -> str:
    sent = own.post("/answers/p1", data={"mark": mark(own), "question": question})
    assert sent.status_code == 303, sent.text
    return unescape(own.get(sent.headers["location"]).text)


def test_kept_answers_are_held_against_a_changed_book(own: TestClient, own_book: Path) -> None:
    _keep(own, "processors")
    assert "All hold" in own.get("/answers/p1?show=again").text
    said = own.get("/answers/p1?show=corrected&fact=book.announced&value=2031-03-01").text
    assert "None wrong" in said
    file = own.get("/answers/p1/answers.jsonl")
    held = own_book / "answers.jsonl"
    held.write_text(file.text, encoding="utf-8")
    assert [each.asked for each in read_kept(held)] == ["processors"]


def test_what_cannot_be_kept_says_why(own: TestClient) -> None:
    for question in ("", "zebras == 2"):
        answer = own.post("/answers/p1", data={"mark": mark(own), "question": question})
        assert answer.status_code == 422
        assert 'class="problems"' in answer.text
    for page in ("?show=corrected", "?show=one&q=never asked"):
        assert own.get(f"/answers/p1{page}").status_code == 422


def test_kept_answers_are_watched_while_a_book_changes(own: TestClient) -> None:
    _keep(own, "P1 == empty")
    note = NOTE.replace("  book.announced: 2031-03-01", "  book.ships: 2031-08-01")
    sent = own.post("/changes/p1", data={"mark": mark(own), "text": note})
    before = _waited(own, sent.headers["location"])
    _keep(own, "processors == 1")
    after = _waited(own, sent.headers["location"])
    assert _looked_at(after) == _looked_at(before) + 1


def _looked_at(text: str) -> int:
    found = re.search(r"(\d+) things looked at", text)
    assert found, text
    return int(found[1])


def test_answers_in_passing_are_not_kept(own: TestClient) -> None:
    own.get("/ask/p1?q=processors == 1")
    assert "0 answers" in own.get("/answers/p1").text


def test_a_program_keeps_and_holds_answers(own: TestClient) -> None:
    kept = own.post("/api/books/p1/answers", json={"question": "most(processors)"})
    assert kept.status_code == 201
    assert kept.json()["asked"] == "most(processors)"
    listed = own.get("/api/books/p1/answers").json()["answers"]
    assert [each["asked"] for each in listed] == ["most(processors)"]
    (again,) = own.get("/api/books/p1/answers/again").json()["answers"]
    assert again["changed"] is False
    assert own.get("/api/books/p1/answers/most").json()["questions"][0]["times"] == 1
    assert own.get("/api/books/p1/answers/open").json() == {"facts": []}
    body = {"fact": "book.announced", "value": "2031-03-01"}
    assert own.post("/api/books/p1/answers/corrected", json=body).json()["wrong"] == []
    answer = own.post("/api/books/p1/changes", json={"text": NOTE})
    assert answer.status_code == 200, answer.text
    found = answer.json()
    assert [each["fact"] for each in found["facts"]][:1] == ["book.announced"]


def test_lines_of_kept_answers_are_those_of_the_file(own: TestClient, store: Store) -> None:
    _keep(own, "processors == 1")
    (entry,) = kept_answers(store, "p1")
    assert json.loads(kept_lines(store, "p1")) == entry.as_json()


@pytest.fixture
def own(own_book: Path, store: Store) -> TestClient:
    """A workbench of its own, with a store that nothing is in."""
    app = create_app(Settings(books=(str(own_book),)), store)
    return TestClient(app, base_url="http://127.0.0.1", follow_redirects=False)
