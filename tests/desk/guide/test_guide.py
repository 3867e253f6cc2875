"""The guide: one set of templates for every machine, each number from a query."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from baywright.desk.guide.beside import PROVEN
from baywright.desk.guide.by_hand import typed_numbers
from baywright.desk.guide.chapters import chapters
from baywright.desk.guide.making import make_guide
from baywright.desk.guide.notation import Template
from baywright.papers.document import (
    Figure,
    Heading,
    Paragraph,
    Table,
    Warned,
    plain,
    statements_in,
    text_of,
)
from baywright.problems import Problems
from tests.desk.guide.guides import book, guide_of

SMALL = "p1"


def headings(name: str) -> list[str]:
    return [each.text for each in guide_of(name).document.headings]


def table(name: str, title: str) -> Table:
    blocks = guide_of(name).document.blocks
    return next(each for each in blocks if isinstance(each, Table) and each.title.startswith(title))


def rows(held: Table) -> list[list[str]]:
    return [[plain(cell) for cell in row] for row in held.rows]


@pytest.mark.parametrize("name", ["p1", "f1"])
def test_a_guide_is_whole(name: str) -> None:
    document = guide_of(name).document
    kinds = {type(block) for block in document.blocks}
    assert {Heading, Paragraph, Table, Figure, Warned} <= kinds
    assert headings(name)[0] == "Overview"
    assert headings(name)[-1] == "Index"


def test_sections_whose_subject_is_absent_drop_out() -> None:
    """The Pannier P1 has one processor, one zone, no controller and no predecessor."""
    found = headings("p1")
    absent = ("What each number of processors opens", "Mixes of zones", "Controllers")
    for heading in (*absent, "Beside its predecessor", "Ready-made models"):
        assert heading not in found
    assert "Ways to stand" in found
    assert "Ways to stand" not in headings("f1")


@pytest.mark.parametrize("name", ["p1", "f1"])
def test_no_heading_is_empty_and_numbers_rise(name: str) -> None:
    blocks = guide_of(name).document.blocks
    for one, other in zip(blocks, (*blocks[1:], None), strict=True):
        if isinstance(one, Heading):
            assert other is not None
            assert not isinstance(other, Heading) or other.level > one.level
    chapters_found = [int(b.number) for b in guide_of(name).document.headings if b.level == 1]
    assert chapters_found == list(range(1, len(chapters_found) + 1))


def test_every_number_of_a_cell_or_sentence_has_its_statement() -> None:
    """Digits stand in names as well; what is left without a statement is a name or a title."""
    names = {str(each.name) for each in (*book("p1").book.places.values(),)}
    names |= {str(each.name) for each in book("p1").book.parts.values()}
    for block in guide_of("p1").document.blocks:
        if not isinstance(block, Paragraph):
            continue
        for run in block.runs:
            bare = run.text
            for name in (*names, "Pannier P1"):
                bare = bare.replace(name, "")
            assert run.statement or not re.search(r"\d", bare), run.text


def test_what_stands_beside_is_what_it_stands_on() -> None:
    for block in guide_of("p1").document.blocks:
        if isinstance(block, Table) and statements_in(block):
            assert block.beside


def test_maxima_that_exclude_each_other_all_bear_the_sign() -> None:
    """On the Ferryman F1 each zone takes SAS drives only; nothing excludes anything but slots."""
    found = table("f1", "Most at once")
    signed = {text[0] for text in rows(found) if text[1].endswith("†")}
    notes = " ".join(plain(note) for note in found.notes)
    assert bool(signed) == bool(found.notes)
    for words in signed:
        assert words.removesuffix("s") in notes


def test_a_number_of_the_table_is_that_of_the_book() -> None:
    found = {row[0]: row[1].removesuffix(" †") for row in rows(table("f1", "Most at once"))}
    # demo.md: F1 has 1 or 2 processors of 16 cores, and two zones of 8.
    assert found["processors"] == "2"
    assert found["cores"] == "32"
    assert found["drive bays"].startswith("16")


def test_every_mix_of_zones_stands_there_once() -> None:
    found = rows(table("f1", "Every legal mix"))
    mixes = [tuple(row[:2]) for row in found]
    assert len(mixes) == len(set(mixes)) == 4


def test_ways_to_a_size_all_come_to_it() -> None:
    size = ""
    for row in rows(table("f1", "Sizes that can be reached")):
        size = row[0] or size
        count = int(row[2])
        module = re.search(r"(\d+) GB module", row[1])
        assert module is not None
        assert f"{count * int(module[1]):,} GB" == size


def test_a_part_that_ships_later_says_so() -> None:
    """The 128 GB module ships 2031-06-02 (demo.md); the guide of a day before says planned."""
    early = guide_of("l4", "2031-05-20").document
    said = "\n".join(text_of(block) for block in early.blocks)
    assert "planned, ships from 2031-06-02" in said
    assert "planned" not in "\n".join(text_of(block) for block in guide_of("p1").document.blocks)


def test_a_sample_is_named_on_the_first_page() -> None:
    """The Longstrand L4 is a sample before 2031-05-12 (demo.md)."""
    assert "samples only" in guide_of("l4", "2031-04-01").document.lines[1]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("It has 24 bays.", ["24"]),
        ("It has twelve channels and\nTwo risers.", ["twelve", "Two"]),
        ('It has {{ most("bays") }} bays.', []),
        ("{% if places('zone') | length > 1 %}Zones.{% endif %}", []),
        ("1. cords\n2. cover", []),
        ("Version 2.4 of 16.", ["2.4", "16"]),
        ("One of them, and another one.", []),
    ],
)
def test_numbers_typed_by_hand_are_found(text: str, found: list[str]) -> None:
    problems = list(typed_numbers(Template("chapter.md", text)))
    assert [each.message.split("'")[1].rstrip(".") for each in problems] == found


def test_a_number_typed_by_hand_stops_the_guide_with_its_line() -> None:
    template = Template("chapter.md", "# Bays\n\nIt has 24 bays.\n")
    with pytest.raises(Problems) as caught:
        make_guide(book("p1"), [template])
    found = caught.value.problems[0]
    assert found.kind == "typed-number"
    assert found.mark is not None
    assert (found.mark.line, found.mark.column) == (3, 8)


def test_our_own_templates_have_no_number_typed_by_hand() -> None:
    assert [each for template in chapters() for each in typed_numbers(template)] == []


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ('{{ table("none") }}', "unknown-table"),
        ('{{ caution("none") }}', "unknown-caution"),
        ('{{ most("count(nothing)") }}', "unknown-part"),
        ("{{ nothing }}", "template"),
        ("{% if %}", "template"),
        ("{{ ''.__class__ }}", "template"),
    ],
)
def test_what_a_template_cannot_ask_is_refused(text: str, kind: str) -> None:
    with pytest.raises(Problems) as caught:
        make_guide(book("p1"), [Template("chapter.md", f"# Chapter\n\n{text}\n")])
    assert caught.value.problems[0].kind == kind


def test_a_writer_may_use_chapters_of_their_own(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_text('# Bays\n\nAt most {{ most("bays", "bay") }}.\n', "utf-8")
    found = make_guide(book("p1"), chapters(tmp_path))
    assert [text_of(block) for block in found.document.blocks] == ["Bays", "At most 2 bays."]
    with pytest.raises(Problems):
        chapters(tmp_path / "nowhere")


def test_errata_name_what_the_last_issue_said_otherwise() -> None:
    last = guide_of("p1").statements
    for statement in last:
        if statement.query.text == "parts.fan.flow":
            changed = {**statement.value, "value": "12 CFM"}
            before = (type(statement)(statement.query, changed, "parts.fan.flow: 12 CFM.", "book"),)
            break
    else:
        raise AssertionError("the guide states every fact")
    template = Template("errata.md", "# Errata\n\n{{ errata() }}\n")
    found = make_guide(book("p1"), [template], before)
    said = "\n".join(text_of(block) for block in found.document.blocks)
    assert "Recorded: parts.fan.flow: 12 CFM. Now: parts.fan.flow: 14 CFM." in said


@pytest.mark.slow
def test_the_guide_of_the_ferryman_has_hundreds_of_proven_statements() -> None:
    made = guide_of("f2")
    assert sum(each.query.kind in PROVEN for each in made.statements) > 300
    assert "24 fast drives" in " ".join(plain(note) for note in table("f2", "Most at once").notes)
