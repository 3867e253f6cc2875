from __future__ import annotations

import time
from pathlib import Path

import pytest

from baywright.facts.references import check_build, unknown_facts
from baywright.files.books import (
    book_from,
    bundled_books,
    find_book,
    label_of,
    read_book,
    read_build,
)
from baywright.problems import Mark, Problem, Problems, nearest
from tests.files.example import example_book, write_example

PRICE = "parts.S2.price"


def _problems(files: dict[str, str]) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as caught:
        book_from({**example_book(), **{name: text.encode() for name, text in files.items()}})
    return caught.value.problems


def test_sections_with_ids_are_joined_over_files() -> None:
    text = "parts:\n  kit-1: {kind: kit, name: rail kit}\n"
    book = book_from({**example_book(), "more.yaml": text.encode()})
    assert {"cpu-8", "kit-1"} <= book.parts.keys()


def test_an_id_in_two_files_names_both_places() -> None:
    (found,) = _problems({"x.yaml": "parts:\n  fan: {kind: fan, name: fan, flow: 9 CFM}\n"})
    assert found.kind == "given-twice"
    assert found.mark == Mark("x.yaml", 2, 3)
    assert "t1/parts.yaml" in found.message


def test_a_section_without_ids_stands_in_one_file() -> None:
    (found,) = _problems({"x.yaml": "chassis:\n  height: 1 U\n"})
    assert (found.kind, found.mark) == ("given-twice", Mark("x.yaml", 1, 1))


def test_facts_know_path_place_and_source() -> None:
    price = book_from(example_book()).chassis.price
    assert price.path == "chassis.price"
    assert price.source == "price-list"
    assert price.mark is not None
    line = example_book()[price.mark.file].decode().splitlines()[price.mark.line - 1]
    assert line[price.mark.column - 1 :].startswith("800 FLO")


def test_ids_know_their_place() -> None:
    key = next(iter(book_from(example_book()).places))
    assert getattr(key, "mark", None) == Mark("t1/places.yaml", 2, 3)


def test_an_unknown_fact_is_unknown() -> None:
    book = book_from(example_book())
    assert list(unknown_facts(book)) == [PRICE]
    assert unknown_facts(book)[PRICE].could_be == ("70 FLO", "80 FLO")


def test_a_value_given_for_an_unknown_fact_reads_as_assumed() -> None:
    price = book_from(example_book(), {PRICE: "80 FLO"}).parts["S2"].price
    assert price is not None
    assert (str(price.known), price.status, price.path) == ("80 FLO", "assumed", PRICE)
    assert price.note == "asked on 2031-06-20"
    assert price.mark is not None


@pytest.mark.parametrize(
    ("path", "value", "kind"),
    [
        (PRICE, "90 FLO", "not-possible"),
        ("parts.S2.prise", "80 FLO", "not-unknown"),
        ("chassis.price", "80 FLO", "not-unknown"),
        ("", "", "not-unknown"),
    ],
)
def test_a_value_that_cannot_be_given(path: str, value: str, kind: str) -> None:
    with pytest.raises(Problems) as caught:
        book_from(example_book(), {path: value})
    assert [problem.kind for problem in caught.value.problems] == [kind]


def test_what_belongs_to_a_book(tmp_path: Path) -> None:
    folder = write_example(tmp_path)
    (folder / ".hidden.yaml").write_text("x: [")
    (folder / "notes.txt").write_text("x: [")
    (folder / "drafts").mkdir()
    (folder / "drafts" / "d.yaml").write_text("x: [")
    assert read_book(folder).book.id == "t1"
    (folder / "more.yml").write_text("parts:\n  kit-1: {kind: kit, name: rail kit}\n")
    assert "kit-1" in read_book(folder).parts


def test_a_build_and_its_book(tmp_path: Path) -> None:
    folder = write_example(tmp_path)
    build = read_build(folder / "builds" / "first.yaml")
    assert check_build(build, read_book(folder)) == []
    zone = build.places["A"]
    assert [(item.part, item.count) for item in zone.items] == [("S4", 1), ("sas-1200", 3)]
    assert zone.controller == "O1"


@pytest.mark.parametrize("name", bundled_books())
def test_bundled_books_are_found_and_read(name: str) -> None:
    folder = find_book(name)
    assert read_book(folder).book.id == name
    assert label_of(folder / "book.yaml") == f"books/{name}/book.yaml"


@pytest.mark.parametrize("name", bundled_books())
def test_a_book_is_read_quickly(name: str) -> None:
    start = time.process_time()
    read_book(find_book(name))
    assert time.process_time() - start < 0.3


def test_a_misspelt_name_finds_the_nearest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    name = next(iter(bundled_books()))
    with pytest.raises(Problems) as caught:
        find_book(name.upper())
    assert nearest(name.upper(), bundled_books()) == name
    assert f"{name!r}" in caught.value.problems[0].hint


def test_a_folder_is_found_by_its_path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = write_example(tmp_path)
    monkeypatch.chdir(tmp_path)
    assert find_book(folder) == folder
    assert read_book(find_book("t1")).book.id == "t1"
