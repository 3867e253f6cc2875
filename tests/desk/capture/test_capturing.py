from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from baywright.desk.capture.captured import Cell, How
from baywright.desk.capture.writing import Looked, look, write
from baywright.exchange.lists.pasted import pasted_rows
from baywright.facts.parts import MemoryModule, Supply
from baywright.facts.places import Slot
from baywright.files.books import bundled_books, read_book
from baywright.files.disk import book_files
from baywright.problems import Problems
from tests.files.example import write_example

MODULES = """Part;Description;Size;Power (W);Price FLO;Ranks;Weight
dimm-48;48 GB module;48 GB;8,5;1.240,50;2;45 g
dimm-64;64 GB module;64 GB;10;1.900;2;
dimm-16;16 GB module;16 GB;5;95;1;~40 g
"""


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_example(tmp_path)


def looked(book: Path, text: str, about: str = "", **how: object) -> Looked:
    return look(str(book), "pasted", text, How(about, **how))  # type: ignore[arg-type]


def cell(found: Looked, path: str) -> Cell:
    (one,) = (each for each in found.captured.cells if each.path == path)
    return one


def texts(book: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in book_files(book)}


def test_a_table_with_decimal_commas_and_units_in_its_headings(book: Path) -> None:
    found = looked(book, MODULES, "memory")
    assert cell(found, "parts.dimm-48.power").value == "8.5 W"
    assert cell(found, "parts.dimm-48.price").value == "1240.50 FLO"
    assert cell(found, "parts.dimm-64.price").value == "1900 FLO"
    assert cell(found, "parts.dimm-16.ranks").outcome == "new"
    assert cell(found, "parts.dimm-16.size").outcome == "same"
    assert cell(found, "parts.dimm-16.price").why == "the book says 90 FLO"
    (refused,) = found.captured.of("not understood")
    assert (refused.line, refused.heading, refused.text) == ("4", "Weight", "~40 g")


def test_every_cell_is_kept_or_reported(book: Path) -> None:
    found = looked(book, MODULES, "memory")
    below = [text for row in pasted_rows(MODULES, "x")[1:] for text in row.cells]
    assert Counter(each.text for each in found.captured.cells) == Counter(below)


def test_nothing_is_written_while_cells_are_left_out(book: Path) -> None:
    before = texts(book)
    with pytest.raises(Problems, match="2 cells would be left out"):
        write(looked(book, MODULES, "memory"), leave_rest=False)
    assert texts(book) == before


def test_what_is_written_is_what_was_shown_and_the_rest_stays(book: Path) -> None:
    before = {name: data.decode().splitlines() for name, data in texts(book).items()}
    found = looked(book, MODULES, "memory")
    write(found, leave_rest=True)
    after = {name: data.decode().splitlines() for name, data in texts(book).items()}
    (changed,) = (name for name in after if after[name] != before[name])
    assert found.files[0].endswith(changed)
    gone = Counter(before[changed]) - Counter(after[changed])
    assert len(gone) == 1  # the line of dimm-16, which has ranks now
    module = read_book(book).parts["dimm-48"]
    assert isinstance(module, MemoryModule)
    assert (module.power and module.power.text, module.size.text) == ("8.5 W", "48 GB")


def test_a_fact_is_replaced_only_when_asked(book: Path) -> None:
    text = "Part,Price (FLO)\ndimm-16,95.50\n"
    with pytest.raises(Problems, match="would be left out"):
        write(looked(book, text, "memory"), leave_rest=False)
    write(looked(book, text, "memory", replace=True, source="price-list"), leave_rest=False)
    price = read_book(book).parts["dimm-16"].price
    assert price
    assert (price.text, price.source) == ("95.50 FLO", "price-list")


def test_a_new_value_does_not_stand_under_the_source_of_the_old_one(book: Path) -> None:
    text = "Part,Weight,Price\nS2,360 g,75 FLO\ndimm-16,,95 FLO\n"
    write(looked(book, text, "parts", replace=True), leave_rest=False)
    cage, module = (read_book(book).parts[name] for name in ("S2", "dimm-16"))
    assert cage.mass
    assert (cage.mass.text, cage.mass.source, cage.mass.status) == ("360 g", "data-sheet", "stated")
    assert cage.price
    assert (cage.price.text, cage.price.could_be) == ("75 FLO", ())
    assert module.price
    assert module.price.source == ""


def test_new_facts_cite_the_source_named(book: Path) -> None:
    write(looked(book, "Part\tWeight\nfan\t140 g\n", "fans", source="price-list"), leave_rest=False)
    mass = read_book(book).parts["fan"].mass
    assert mass
    assert (mass.text, mass.source) == ("140 g", "price-list")
    with pytest.raises(Problems, match="no source 'price-lst'"):
        looked(book, "Part\tWeight\nfan\t140 g\n", "fans", source="price-lst")


def test_ratings_by_line_of_power_and_efficiency_by_load(book: Path) -> None:
    text = "Supply\tRating high line (W)\tEfficiency 50 %\tHold-up (ms)\tPrice\n"
    write(looked(book, text + "ps-900\t1'900\t0.95\t12\t300\n", "supplies"), leave_rest=False)
    supply = read_book(book).parts["ps-900"]
    assert isinstance(supply, Supply)
    assert supply.ratings["high"].text == "1900 W"
    assert supply.efficiency["50 %"].text == "0.95"
    assert supply.hold_up
    assert supply.name == "ps-900"  # a new entry without a name goes by its id


def test_values_that_could_be_several(book: Path) -> None:
    found = looked(book, "Part;Weight (g)\nps-400;800 or 850\n", "supplies")
    assert cell(found, "parts.ps-400.mass").value == "800 g or 850 g"
    write(found, leave_rest=False)
    mass = read_book(book).parts["ps-400"].mass
    assert mass
    assert mass.could_be == ("800 g", "850 g")


def test_places_with_lists(book: Path) -> None:
    text = "Label|Type|Name|Takes|Lanes|Length\nX-2|slot|slot X2|controller, network|8|full\n"
    write(looked(book, text, "places"), leave_rest=False)
    place = read_book(book).places["X_2"]
    assert isinstance(place, Slot)
    assert place.takes == ["controller", "network"]


def test_ports_join_the_list_of_the_chassis(book: Path) -> None:
    text = "Type,Count,Side,Speed\nvideo,1,rear,\nserial,1,inside,1 Mb/s\n"
    before = read_book(book).chassis.ports
    write(looked(book, text, "ports"), leave_rest=False)
    ports = read_book(book).chassis.ports
    assert [port.type for port in ports] == [*(p.type for p in before), "video", "serial"]


def test_what_a_table_is_about_is_told_by_its_headings(book: Path) -> None:
    assert looked(book, "Part\tCores\tTDP (W)\ncpu-12\t12\t95\n").captured.about == "processor"
    with pytest.raises(Problems, match="do not tell what the table is about"):
        looked(book, "Part\tWeight\nfan\t140 g\n")


@pytest.mark.parametrize(
    ("text", "about", "why"),
    [
        ("Part;Power\nfan;6\n", "fans", "'6' has no unit"),
        ("Part;Power (W)\nfan;1,300\n", "fans", "'1,300' may be 1300 or 1.300"),
        ("Part;Power (W)\nfan;6-7\n", "fans", "is a range"),
        ("Part;Power (W)\nfan;6 W*\n", "fans", "not a known unit"),
        ("Part;Colour\nfan;blue\n", "fans", "No field goes by that"),
        ("Part;Kind;Cores\nfan;tail;6\n", "parts", "'tail' is no kind"),
        ("Part;Kind;Cores\nfan;fan;6\n", "parts", "No field cores is in fan"),
        ("Part;Power (W)\nfan;6\nfan;7\n", "fans", "Line 2 is about fan already"),
        ("Part;Power (W)\nfan;6;9\n", "fans", "No heading stands above it"),
        ("Part;Power (W)\n-;6\n", "fans", "Neither an id nor a name"),
        ("Part;Ships\nfan;03/04/2031\n", "fans", "is not a date"),
    ],
)
def test_what_is_not_understood_says_why(book: Path, text: str, about: str, why: str) -> None:
    refused = looked(book, text, about).captured.of("not understood")
    assert refused
    assert why in refused[0].why


def test_decimal_and_columns_can_be_said(book: Path) -> None:
    text = "Part;Watts max (W);Colour\nC4;12,125;blue\n"
    mapped = {"Watts max (W)": "slot_power", "Colour": ""}
    found = looked(book, text, "controllers", mapped=mapped, decimal="comma")
    assert cell(found, "parts.C4.slot_power").value == "12.125 W"
    assert [each.why for each in found.captured.of("not understood")] == ["left out as asked"]
    with pytest.raises(Problems, match="No column is headed 'Watt'"):
        looked(book, text, "controllers", mapped={"Watt": "power"})


def test_a_book_that_would_not_be_sound_is_not_written(book: Path) -> None:
    before = texts(book)
    found = looked(book, "Part;Power (W)\ndimm-48;8\n", "memory")
    assert [each.kind for each in found.problems] == ["missing"]
    with pytest.raises(Problems, match="size"):
        write(found, leave_rest=False)
    assert texts(book) == before


def test_a_file_changed_meanwhile_is_not_gone_over(book: Path) -> None:
    found = looked(book, "Part;Weight\nfan;140 g\n", "fans")
    assert found.change
    (path,) = found.change.new
    path.write_text(path.read_text() + "# mine\n")
    with pytest.raises(Problems, match="has changed since it was read"):
        write(found, leave_rest=False)
    assert path.read_text().endswith("# mine\n")


def test_bundled_books_are_not_written() -> None:
    found = look("f2", "pasted", "Part;Weight\nfan;140 g\n", How("fans"))
    with pytest.raises(Problems, match="came with the program"):
        write(found, leave_rest=True)


@pytest.mark.parametrize("name", bundled_books())
def test_a_table_made_of_a_book_says_what_the_book_says(name: str) -> None:
    """Each fact with one value of each part, as a table with another look each time."""
    held = read_book(bundled_books()[name])
    for kind in dict.fromkeys(part.kind for part in held.parts.values()):
        parts = held.parts_of(kind)
        fields = [
            f
            for f in ("power", "price", "mass", "size", "capacity", "ships")
            if any(getattr(part, f, None) for part in parts.values())
        ]
        sign = "\t;"[len(parts) % 2]
        rows = [sign.join(["part", *fields])]
        for key, part in parts.items():
            facts = [getattr(part, f, None) for f in fields]
            rows.append(sign.join([key, *(fact.text if fact else "-" for fact in facts)]))
        found = look(name, "pasted", "\n".join(rows), How(kind, decimal="point"))
        assert {each.outcome for each in found.captured.cells} <= {"same", "blank"}, kind
