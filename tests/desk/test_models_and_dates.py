"""Ready-made models with options added, and answers as of a day."""

from __future__ import annotations

import pytest

from tests.desk.demo import answer, holds, opened

MODELS = [
    # Options may be added in the field.
    ('from_model("F2-a") and count(drive) == 8', True),
    ('from_model("F2-a") and processors == 2', True),
    ('from_model("F2-a") and count(memory) == 4', True),
    ('from_model("F2-a") and K1 == "pack"', True),
    ('from_model("F2-b") and O2 != empty', True),
    ('from_model("F2-c") and C == "display" and B == "S8"', True),
    # Whatever removes or swaps a part is built to order.
    ('from_model("F2-a") and PS != "ps-800"', False),
    ('from_model("F2-a") and A != "S8"', False),
    ('from_model("F2-a") and count(controller) == 0', False),
    ('from_model("F2-b") and processors == 1', False),
    ('from_model("F2-c") and C != "display"', False),
    ('from_model("F2-c") and memory < 1 TB', False),
    ('from_model("F2-a") and from_model("F2-b")', False),
    ('always(implies(from_model("F2-c"), processors == 2))', True),
]


@pytest.mark.parametrize(("claim", "true"), MODELS)
def test_a_model_with_options(claim: str, true: bool) -> None:
    assert holds("f2", claim) == true


@pytest.mark.parametrize(
    ("day", "true"),
    [("2031-03-17", False), ("2031-06-01", False), ("2031-06-02", True), ("2031-12-31", True)],
)
@pytest.mark.parametrize("book", ["f2", "l4"])
def test_the_later_module_is_there_from_its_first_day(book: str, day: str, true: bool) -> None:
    assert holds(book, "count(memory, size=128 GB) >= 1", day) == true


@pytest.mark.parametrize(
    ("book", "day", "word"),
    [
        ("f2", "2031-02-02", "unannounced"),
        ("f2", "2031-02-03", "announced"),
        ("f2", "2031-03-16", "announced"),
        ("f2", "2031-03-17", "shipping"),
        ("p1", "2031-03-03", "shipping"),
        ("l4", "2031-05-11", "sample"),
        ("l4", "2031-05-12", "shipping"),
        ("f1", "2026-06-01", "shipping"),
        ("f1", "2031-09-30", "shipping"),
        ("f1", "2031-10-01", "withdrawn"),
    ],
)
def test_a_date_is_the_first_day_of_the_new_state(book: str, day: str, word: str) -> None:
    assert opened(book, day).status.word == word


def test_without_a_day_the_edition_counts() -> None:
    assert opened("f2").as_of.isoformat() == "2031-07-01"
    assert type(answer("f2", "O2 != empty")) is type(answer("f2", "O2 != empty", "2031-07-01"))
