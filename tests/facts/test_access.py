"""Steps of access: what they refer to exists, and each of them comes off at last."""

from __future__ import annotations

import pytest

from baywright.facts.access import Access, Way, ways_to
from baywright.files.books import book_from
from baywright.problems import Problem, Problems
from tests.files.example import example_book


def problems(access: str) -> tuple[Problem, ...]:
    service = f"service:\n  order: [cords, cover]\n  access:\n{access}".encode()
    try:
        book_from({**example_book(), "t1/service.yaml": service})
    except Problems as found:
        return found.problems
    return ()


@pytest.mark.parametrize(
    ("access", "says"),
    [
        ("    lid: {behind: [lids]}\n", "There is no step of service.access 'lids'."),
        ("    lid: {other_ways: [{off: [rear]}]}\n", "There is no step of service.access 'rear'."),
        ("    lid: {interlocks: [lid-up]}\n", "There is no interlock 'lid-up'."),
        ("    lid: {cautions: [fire]}\n", "There is no caution 'fire'."),
        ("    a: {behind: [b]}\n    b: {behind: [a]}\n", "a never comes off"),
        ("    lid: {when: count(drive) = 2}\n", ""),
        ("    lid: {behind: [cover], when: count(drive) == 2}\n", None),
        ("    lid: {behind: [lid], other_ways: [{off: [power, cords]}]}\n", None),
        ("    a: {behind: [b]}\n    b: {behind: [a], other_ways: [{off: [cover]}]}\n", None),
    ],
)
def test_a_slip_is_found_where_it_is(access: str, says: str | None) -> None:
    found = problems(access)
    if says is None:
        assert found == ()
        return
    assert any(says in each.message and each.mark for each in found)
    assert all(each.mark is not None and "service" in each.mark.file for each in found)


def test_a_place_is_reached_by_ways_that_exist() -> None:
    files = example_book()
    places = files["t1/places.yaml"].replace(
        b"type: slot", b"type: slot\n    ways: [{off: [hood]}]"
    )
    with pytest.raises(Problems, match="'hood'"):
        book_from({**files, "t1/places.yaml": places})


def test_every_way_is_as_good_as_the_first() -> None:
    step = Access(behind=["cover", "guide"], other_ways=[Way(off=["rear panel"])])
    assert ways_to(step) == (frozenset({"cover", "guide"}), frozenset({"rear panel"}))
