"""Two books side by side: nothing that the first has is left out."""

from __future__ import annotations

from functools import cache

from baywright.desk.compare.asking import Asked, compared
from baywright.desk.compare.rows import Compared, Comparison, differences, flat
from baywright.desk.opening import open_book
from baywright.desk.request import Request
from baywright.facts.fact import Fact


@cache
def books(first: str = "f1", second: str = "f2") -> Comparison:
    found = compared(first, Asked(second), Request())
    assert isinstance(found, Comparison)
    return found


def row(what: str, first: str = "f1", second: str = "f2") -> Compared:
    return next(each for each in books(first, second).rows if each.what == what)


def test_the_most_of_each_machine_is_proven_and_compared() -> None:
    # From the demo scenario: F1 has 2 x 6 channels of 2 modules of 32 GB and 16 drives in two
    # zones; F2 has 2 x 16 modules of 128 GB and 24 drives in three.
    memory, drives = row("most of the memory"), row("most of drives")
    assert (memory.first, memory.second, memory.word) == ("768 GB", "4 TB", "more")
    assert (drives.first, drives.second, drives.word) == ("16", "24", "more")


def test_what_only_comes_under_a_condition_says_so() -> None:
    # F1 has a front USB port on the machine; F2 has two, and only with the fault display.
    front = row("most of usb port in front")
    assert (front.first, front.second) == ("1", "2")
    assert front.only_if == ("zone C is fault display (display)",)
    assert "processor 2 is fitted" in row("most of drives").only_if


def test_the_way_back_has_no_condition_that_both_ask_for() -> None:
    for each in books("f2", "f1").rows:
        assert "processor 1 is fitted" not in each.only_if


def test_every_thing_of_both_books_has_a_row() -> None:
    found = {(each.group, each.what): each for each in books().rows}
    first, second = (open_book(name).book for name in ("f1", "f2"))
    for section in ("parts", "places", "settings", "locks", "lights", "interlocks", "rules"):
        for name in {*getattr(first, section), *getattr(second, section)}:
            each = found[section.capitalize(), name]
            assert (each.word == "new") == (name not in getattr(first, section))
            assert (each.word == "gone") == (name not in getattr(second, section))


def test_every_fact_about_the_whole_machine_has_a_row() -> None:
    found = {(each.group, each.what) for each in books().rows}
    for section in ("chassis", "power", "air", "memory"):
        for name in ("f1", "f2"):
            for path, _ in flat(getattr(open_book(name).book, section)):
                assert (section.capitalize(), path) in found


def test_a_part_of_another_generation_is_not_the_same() -> None:
    each = row("dimm-16")
    assert each.word == "other"
    assert "generation DDR4 → DDR5" in each.second
    assert row("S16i").word == "gone"


def test_a_book_is_the_same_as_itself() -> None:
    assert {each.word for each in books("p1", "p1").rows} == {"same"}
    assert not any(each.only_if for each in books("p1", "p1").rows)


def test_a_list_that_one_side_lacks_is_one_field() -> None:
    first, second = {"name": "a"}, {"name": "b", "curve.1.flow": "1", "curve.2.flow": "2"}
    assert list(differences(first, second)) == ["name a → b", "curve not stated → stated"]


def test_facts_are_flat_by_their_path() -> None:
    part = open_book("f2").book.parts["ps-800"]
    found = dict(flat(part))
    assert found["ratings.high"] == "800 W"
    assert isinstance(part.price, Fact)
    assert found["price"] == part.price.text
