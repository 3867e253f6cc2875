"""The demo: every answer checked again, pages well formed and complete in themselves."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest

from baywright.desk.demo import Demo, files_of, run_demo
from baywright.desk.questions import read_questions
from baywright.desk.request import Request
from baywright.files.books import bundled_books
from baywright.files.folders import check_folder, write_files
from baywright.problems import Problems

EMPTY = {"meta", "br", "hr", "img", "input", "link", "path", "rect", "line", "circle"}
ELSEWHERE = re.compile(r"(?:https?:)?//[a-z]|@import|url\((?!#)|<script|<link|<img", re.IGNORECASE)


class _Balance(HTMLParser):
    """Follows the tags of a page and gathers ids and links to them."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.targets: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in EMPTY:
            self.open.append(tag)
        for name, value in attrs:
            if name == "id" and value:
                self.ids.append(value)
            if name == "href" and value:
                self.targets.append(value)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in EMPTY, attrs

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


@pytest.fixture(scope="module")
def demo() -> Demo:
    return run_demo(Request(), lambda _: None)


@pytest.fixture(scope="module")
def files(demo: Demo) -> dict[str, str]:
    return files_of(demo)


def pages(files: dict[str, str]) -> Iterator[str]:
    return (text for name, text in files.items() if name.endswith(".html"))


def test_it_answers_what_it_is_asked(demo: Demo) -> None:
    """Words that follow from the demo scenario; the rest may change with the books."""
    words = {entry.title: entry.sheet.word for entry in demo.report.questions}
    assert len(words) >= 24
    assert words["Which layouts are there with hot-swap drives?"] == "75 combinations"
    assert words["Which of them have one processor?"] == "12 combinations"
    assert words["Can 24 SAS drives be two arrays of 12?"] == "No"
    assert words["How fast is 4 TB of memory?"] == "At most 4,400 MT/s"
    assert words["Was the 128 GB module to be had on 2031-03-17?"] == "No"
    assert words["Does Reedbed 10 start from the USB stick?"] == "No"
    assert not {"Stopped", "Not decided"} & set(words.values())


def test_it_judges_every_bundled_build(demo: Demo) -> None:
    words = {entry.key: entry.sheet.word for entry in demo.report.builds}
    assert words == {
        "n1": "Yes",
        "n2": "Yes",
        "n3": "No",
        "n4": "No",
        "n5-owned": "Yes",
        "n5-wanted": "No",
    }


def test_every_verdict_was_checked_again(demo: Demo) -> None:
    sheets = [entry.sheet for entry in (*demo.report.questions, *demo.report.builds)]
    assert all("re-checked by " in sheet.proof for sheet in sheets)
    assert demo.rechecked >= len(sheets)


def test_pages_are_well_formed_and_links_lead_somewhere(files: dict[str, str]) -> None:
    for page in pages(files):
        parser = _Balance()
        parser.feed(page)
        parser.close()
        assert parser.open == []
        assert len(parser.ids) == len(set(parser.ids))
        assert {target.removeprefix("#") for target in parser.targets} <= set(parser.ids)


def test_pages_need_nothing_from_elsewhere(files: dict[str, str]) -> None:
    for page in pages(files):
        assert ELSEWHERE.search(page) is None


def test_every_page_says_that_it_is_a_planning_aid(files: dict[str, str]) -> None:
    for name, text in files.items():
        if not name.endswith(".json"):
            assert "Planning aid" in text


def test_what_people_wrote_is_shown_as_text(files: dict[str, str]) -> None:
    assert "count(drive, interface=&#34;sas&#34;) == 24" in files["index.html"]


def test_the_data_are_json(files: dict[str, str]) -> None:
    data = json.loads(files["answers.json"])
    assert {len(data["judgements"]), len(data["checks"])} == {6, 4}
    assert len(data["answers"]) >= 24


def test_files_are_written_whole(tmp_path: Path) -> None:
    write_files({"a.html": "one", "b/c.html": "two"}, tmp_path / "out")
    write_files({"a.html": "three"}, tmp_path / "out")
    found = {path.name: path.read_text() for path in (tmp_path / "out").rglob("*.html")}
    assert found == {"a.html": "three", "c.html": "two"}
    assert not list((tmp_path / "out").glob(".*"))


def test_a_file_in_the_way_is_a_problem(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(Problems, match="cannot be written"):
        check_folder(tmp_path / "file" / "in")
    with pytest.raises(Problems, match="cannot be written"):
        write_files({"a": ""}, tmp_path / "file")


def test_the_questions_are_read_with_their_places() -> None:
    questions = read_questions(bundled_books()["f2"] / "questions" / "demo.yaml")
    assert all(question.mark and question.mark.line > 1 for question in questions)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("questions: x\n", "no-questions"),
        ("questions:\n  - x\n", "not-a-mapping"),
        ("questions:\n  - says: x\n", "missing"),
        ("questions:\n  - {says: x, ask: y, when: z}\n", "unknown-key"),
        ("questions:\n  - {says: x, ask: [y]}\n", "not-a-value"),
    ],
)
def test_slips_in_a_list_of_questions(text: str, kind: str, tmp_path: Path) -> None:
    path = tmp_path / "questions.yaml"
    path.write_text(text)
    with pytest.raises(Problems) as caught:
        read_questions(path)
    assert kind in [problem.kind for problem in caught.value.problems]
