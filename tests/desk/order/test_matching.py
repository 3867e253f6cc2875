"""From words to parts of the demo's books."""

from __future__ import annotations

from functools import cache

import pytest

from baywright.desk.opening import open_book
from baywright.desk.order.matching import Library, PartIndex


@cache
def index(book: str = "f2") -> PartIndex:
    return PartIndex(open_book(book).book)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("DIMM 64", "dimm-64"),
        ("64 GB module", "dimm-64"),
        ("64GB RDIMM DDR5", "dimm-64"),
        ("1300W PSU", "ps-1300"),
        ("double wide GPU 150 W", "accel-dw"),
        ("SAS disk 2.4TB", "sas-2400"),
        ("cage for 8 SAS drives", "S8"),
        ("controler C16", "C16"),
        ("25GbE NIC", "net-25"),
        ("bay blank", "blank-bay"),
        ("64 GB module, tested", "dimm-64"),
    ],
)
def test_words_that_say_enough_stand_for_a_part(text: str, part: str) -> None:
    assert index().match(text).parts == (part,)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("PSU", {"ps-800", "ps-1300", "ps-2000"}),
        ("accelerator", {"accel-sw", "accel-dw"}),
        ("SAS drive", {"sas-1200", "sas-2400"}),
        ("blanks", {"blank-bay", "blank-zone"}),
    ],
)
def test_words_that_say_too_little_stand_for_several(text: str, parts: set[str]) -> None:
    assert set(index().match(text).parts) == parts


@pytest.mark.parametrize(
    "text",
    [
        "64 GB DDR4 module",  # of another generation
        "64 GB unbuffered module",  # of another kind
        "dimm-46",  # digits changed about
        "60-core processor",
        "S8i",
        "please deliver by Monday",
        "a cable is a fine thing to have in a box, said the man from the works",
        "",
        "12",
    ],
)
def test_what_is_no_part_is_not_read(text: str) -> None:
    found = index().match(text)
    assert not found.parts


def test_what_was_made_of_a_text_is_said() -> None:
    found = index().match("controler C16 spare")
    assert found.respelled == (("controler", "controller"),)
    assert found.left == ("spare",)


def test_every_part_of_every_book_is_read_by_its_id_and_its_name() -> None:
    for book in ("f1", "f2", "l4", "p1"):
        for name, part in index(book).book.parts.items():
            assert index(book).match(name).parts == (name,)
            assert index(book).match(part.name).parts == (name,)
            assert name in index(book).match(f"{part.name} {part.kind}").parts


def test_a_part_of_the_predecessor_is_found_there() -> None:
    library = Library(index("f2").book, [index(name).book for name in ("f1", "l4", "p1")])
    assert [(book.book.id, part) for book, part in library.elsewhere("controller S8i")] == [
        ("f1", "S8i")
    ]
