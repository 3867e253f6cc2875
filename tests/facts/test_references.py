from __future__ import annotations

import pytest

from baywright.facts.references import check_build
from baywright.files.books import book_from, bundled_books, read_book, read_build
from baywright.problems import Problem, Problems
from tests.files.example import changed_build, changed_example, example_book


def refused(name: str, old: str, new: str) -> list[Problem]:
    with pytest.raises(Problems) as caught:
        book_from(changed_example(f"t1/{name}.yaml", old, new))
    return list(caught.value.problems)


# File, what is replaced, by what, kind of problem, words of its message.
SLIPS = [
    # References to nothing, or to the wrong thing
    ("places", "takes: [S4]", "takes: [S5]", "unknown-reference", "'S5'"),
    ("places", "takes: [S4]", "takes: [cages]", "unknown-reference", "'cages'"),
    ("places", "takes: [S4]", "{always}", "unknown-reference", "that this place takes"),
    ("places", "controllers: [O1]", "controllers: [A]", "unknown-reference", "'A' is a zone"),
    ("places", "owner: P1, lanes", "owner: O1, lanes", "unknown-reference", "a processor socket"),
    ("places", "feeds: [O1]", "feeds: [O2]", "unknown-reference", "'O2'"),
    ("places", "lanes: 8\n", "lanes: 8\n    neighbour: O2\n", "unknown-reference", "slot 'O2'"),
    ("places", "lanes: 8\n", "lanes: 8\n    inside: riser\n", "unknown-reference", "'riser'"),
    ("parts", "{high: 400 W}", "{hihg: 400 W}", "unknown-reference", "power line 'hihg'"),
    ("parts", "lanes: 16\n", "lanes: 16\n    brings: {kit: 1}\n", "unknown-reference", "'kit'"),
    ("book", "source: data-sheet", "source: sheet", "unknown-reference", "source 'sheet'"),
    ("book", "source: price-list", "source: pricelist", "unknown-reference", "'pricelist'"),
    ("rules", "P1: cpu-8", "P2: cpu-8", "unknown-reference", "place 'P2'"),
    ("rules", "P1: cpu-8", "P1: cpu-9", "unknown-reference", "part 'cpu-9'"),
    ("rules", "{use: office}", "{use: ofice}", "unknown-reference", "value of 'use' 'ofice'"),
    ("rules", "{use: office}", "{uses: office}", "unknown-reference", "setting 'uses'"),
    ("rules", "settings:\n", "{drives}", "unknown-reference", "kind of part 'drives'"),
    ("rules", "settings:\n", "{wait}", "unknown-reference", "wait 'heat'"),
    ("rules", "settings:\n", "{caution}", "unknown-reference", "caution 'fire'"),
    # Ids
    ("places", "  F:\n", "  F-1:\n", "not-an-id", "'F-1'"),
    ("places", "  F:\n", "  in:\n", "not-an-id", "'in'"),
    ("places", "  F:\n", "  fan:\n", "clash", "'fan'"),
    ("rules", "  use:\n", "  F:\n", "clash", "a place and a setting"),
    ("parts", "  fan:", "  drive:", "clash", "a kind of part"),
    ("parts", "  fan:", "  a fan:", "not-an-id", "'a fan'"),
    # Numbers and dates
    ("book", "ships: 2031-05-05", "{dates}", "out-of-order", "before it ships"),
    ("book", "volts_to: 240 V", "volts_to: 24 V", "out-of-order", "less than 200 V"),
    ("book", "mass_most: 12 kg", "mass_most: 1200 g", "out-of-order", "less than 7 kg"),
    ("book", "currency: FLO", "currency: flo", "unknown-unit", "currency"),
    ("book", "counts: [1]", "counts: [1, 2]", "too-many", "1 processor sockets"),
    ("places", "[1, 2, 4]", "[1, 2, 5]", "too-many", "4 module sockets"),
    ("places", "[1, 2, 4]", "[0, 2, 4]", "not-positive", "at least 1"),
    ("places", "channels: 2", "channels: 0", "not-positive", "at least 1"),
    ("places", "{count: 2, legal: 1", "{count: 3, legal: 1", "too-many", "2 positions"),
    ("places", "{count: 1, legal: 1}", "{count: 1, legal: 2}", "too-many", "1 supplies"),
    ("places", "{count: 2, legal: 1", "{count: 1, legal: 1", "given-twice", "What 1 supplies"),
    ("places", "{count: 4, when", "{count: 5, when", "too-many", "4 positions"),
    ("parts", "price: 300 FLO", "price: -300 FLO", "not-positive", "not below nothing"),
    ("parts", "50 %: 0.94", "5 %: 0.94", "out-of-order", "comes after 10 %"),
    ("parts", "50 %: 0.94", "half: 0.94", "not-a-ratio", "'half' is not a load"),
    # Expressions
    ("rules", "count(drive) <= 2)", "count(drive) <= 2", "syntax", ""),
    ("book", "when: count(drive) > 2", "when: count(drive) = 2", "syntax", ""),
]
LONGER = {
    "{drives}": "service:\n  work: {drives: {running: yes}}\nsettings:\n",
    "{wait}": "service:\n  work: {fan: {wait: heat}}\nsettings:\n",
    "{caution}": "service:\n  work: {cable: {cautions: [fire]}}\nsettings:\n",
    "{always}": "takes: [S4]\n    always: S2",
    "{dates}": "ships: 2031-05-05\n  last_order: 2031-05-04",
}


@pytest.mark.parametrize(("name", "old", "new", "kind", "says"), SLIPS)
def test_a_slip_is_found_where_it_is(name: str, old: str, new: str, kind: str, says: str) -> None:
    found = [p for p in refused(name, old, LONGER.get(new, new)) if p.kind == kind]
    assert [p for p in found if says in p.message and p.mark and name in p.mark.file]


def test_the_nearest_spelling_is_offered() -> None:
    (found,) = refused("rules", "P1: cpu-8", "P1: cpu8")
    assert found.hint == "Did you mean 'cpu-8'?"


def test_places_inside_each_other_are_named_in_full() -> None:
    files = changed_example("t1/places.yaml", "type: zone", "type: zone\n    inside: O1")
    files = {
        **files,
        "t1/places.yaml": files["t1/places.yaml"].replace(
            b"type: slot", b"type: slot\n    inside: A"
        ),
    }
    with pytest.raises(Problems) as caught:
        book_from(files)
    (found,) = caught.value.problems
    assert found.kind == "cycle"
    assert found.message in ("A is inside O1 is inside A.", "O1 is inside A is inside O1.")
    assert found.mark is not None


def test_a_slot_inside_its_neighbour_is_a_cycle() -> None:
    other = "O2: {type: slot, name: O2, takes: [network], inside: O1}"
    new = f"    power: 25 W\n    neighbour: O2\n  {other}\n"
    (found,) = refused("places", "    power: 25 W\n", new)
    assert found.kind == "cycle"
    assert "O1 also takes O2" in found.message
    assert "O2 is inside O1" in found.message


def test_a_part_that_brings_itself_is_a_cycle() -> None:
    (found,) = refused("parts", "lanes: 16\n", "lanes: 16\n    brings: {cpu-8: 1}\n")
    assert found.message == "cpu-8 brings cpu-8."


def test_a_step_of_the_service_order_can_be_reached_into() -> None:
    files = changed_example("t1/places.yaml", "type: slot", "type: slot\n    inside: riser 1")
    service = b"service:\n  order: [cover, risers]\n"
    assert book_from({**files, "service.yaml": service}).places["O1"].inside == "riser 1"


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("book: t1", "book: t2", "'t2'"),
        ("P1: cpu-8", "P2: cpu-8", "place 'P2'"),
        ("P1: cpu-8", "P1: cpu-9", "part 'cpu-9'"),
        ("P1: cpu-8", "P1: 0 x cpu-8", "None of 'cpu-8'"),
        ("controller: O1", "controller: A", "'A' is a zone"),
        ("use: office", "use: attic", "'attic'"),
        ("- supplies_redundant", "- load <", ""),
    ],
)
def test_what_a_build_names_is_in_its_book(old: str, new: str, says: str) -> None:
    build = changed_build(old, new)
    (found,) = check_build(build, book_from(example_book()))
    assert says in found.message
    assert found.mark is not None


def test_a_part_in_the_wrong_place_is_left_to_the_laws() -> None:
    assert check_build(changed_build("O1: C4", "O1: cpu-8"), book_from(example_book())) == []


@pytest.mark.parametrize("name", bundled_books())
def test_bundled_builds_fit_their_books(name: str) -> None:
    folder = bundled_books()[name]
    book = read_book(folder)
    for file in sorted((folder / "builds").glob("*.yaml")):
        assert check_build(read_build(file), book) == []
